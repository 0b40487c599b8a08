//! Three versions of a list into one: the one rule of who stands, and the order of what stays.

use std::collections::{BTreeMap, BTreeSet};

use super::clash::{Side, Text, Typed};
use crate::typed::entry::Entry;

/// Which of two desks' versions stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stands {
    /// Only we changed it.
    Ours,
    /// Only they changed it, or both in the same way, or nobody.
    Theirs,
    /// Both changed it, each in its way.
    Met,
}

/// Which version stands of something that both desks had from `base`.
pub(crate) fn stands<T: PartialEq>(base: &T, ours: &T, theirs: &T) -> Stands {
    if ours == base || ours == theirs {
        Stands::Theirs
    } else if theirs == base {
        Stands::Ours
    } else {
        Stands::Met
    }
}

impl Text<'_> {
    /// Whether the two say the same.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        self.text == other.text && (self.unit == other.unit || !self.is_measured)
    }
}

/// Which texts stand; who typed the same once more in another unit changed nothing that counts.
pub(super) fn texts_stand(base: &[Text<'_>], ours: &[Text<'_>], theirs: &[Text<'_>]) -> Stands {
    let alike = |one: &[Text<'_>], other: &[Text<'_>]| {
        one.iter().zip(other).all(|(one, other)| one.is_like(other))
    };
    match stands(&base, &ours, &theirs) {
        Stands::Met if alike(ours, base) => Stands::Theirs,
        Stands::Met if alike(theirs, base) || alike(ours, theirs) => Stands::Ours,
        verdict => verdict,
    }
}

/// How two desks met in one thing of a list.
pub(crate) enum Pair<'a, V> {
    /// Both changed it, ours first.
    Both(&'a V, &'a V),
    /// This one took it out, and the other changed it.
    TakenOut(Side, &'a V),
}

/// The things that both desks had in a list, put together by their keys; `met` says what stands
/// where both changed one, with what it was in `base`.
pub(crate) fn keyed<K: Ord + Clone, V: Clone + PartialEq>(
    [base, ours, theirs]: [&[V]; 3],
    key: impl Fn(&V) -> K,
    mut met: impl FnMut(Option<&V>, Pair<'_, V>) -> V,
) -> Vec<V> {
    let keys = |list: &[V]| -> Vec<K> { list.iter().map(&key).collect() };
    let by_key = |list| -> BTreeMap<K, &V> { keys(list).into_iter().zip(list.iter()).collect() };
    let all = in_order(&keys(base), &keys(ours), &keys(theirs));
    let (base, here, there) = (by_key(base), by_key(ours), by_key(theirs));
    let merged = all.iter().filter_map(|key| {
        let old = base.get(key).copied();
        let (mine, other) = (here.get(key).copied(), there.get(key).copied());
        match (stands(&old, &mine, &other), mine, other) {
            (Stands::Ours, mine, _) => mine.cloned(),
            (Stands::Theirs, _, other) => other.cloned(),
            (Stands::Met, Some(mine), Some(other)) => Some(met(old, Pair::Both(mine, other))),
            (Stands::Met, Some(mine), None) => Some(met(old, Pair::TakenOut(Side::Theirs, mine))),
            (Stands::Met, None, Some(other)) => Some(met(old, Pair::TakenOut(Side::Ours, other))),
            (Stands::Met, None, None) => None,
        }
    });
    merged.collect()
}

/// The keys of two lists as one: theirs in their order, and what only ours has behind what it has
/// followed since `base` and behind what they added at the same place.
fn in_order<K: Ord + Clone>(base: &[K], ours: &[K], theirs: &[K]) -> Vec<K> {
    let keys = |list| -> BTreeSet<&K> { <[K]>::iter(list).collect() };
    let (base, here, there) = (keys(base), keys(ours), keys(theirs));
    // What both added alike may stand at two places.
    let stood = |key: &K| base.contains(key) && here.contains(key) && there.contains(key);
    let mut behind: BTreeMap<Option<&K>, Vec<&K>> = BTreeMap::new();
    let mut last = None;
    for key in ours {
        if stood(key) {
            last = Some(key);
        } else if !there.contains(key) {
            behind.entry(last).or_default().push(key);
        }
    }
    let mut all = Vec::new();
    let mut waiting = behind.remove(&None).unwrap_or_default();
    for key in theirs {
        if stood(key) {
            all.append(&mut waiting);
            waiting = behind.remove(&Some(key)).unwrap_or_default();
        }
        all.push(key);
    }
    // What waits here stood behind the last thing that all have.
    all.append(&mut waiting);
    all.into_iter().cloned().collect()
}

/// Typed lines of both desks put together, group by group: the lines of one group stand together.
/// What of theirs does not stand is `lost`.
pub(crate) fn entries<'k, K: Ord + Copy + 'k, V>(
    groups: impl Iterator<Item = &'k [K]>,
    is_measured: impl Fn(K) -> bool,
    all: [&BTreeMap<K, Entry<V>>; 3],
    mut lost: impl FnMut(K, Typed),
) -> BTreeMap<K, Entry<V>> {
    let mut merged = BTreeMap::new();
    for group in groups {
        let [base, ours, theirs] = all.map(|side| -> Vec<Text<'_>> {
            let texts = group.iter().map(|key| {
                let entry = side.get(key).unwrap_or(const { &Entry::EMPTY });
                Text {
                    text: entry.text(),
                    unit: entry.unit(),
                    is_measured: is_measured(*key),
                }
            });
            texts.collect()
        });
        let verdict = texts_stand(&base, &ours, &theirs);
        let [_, ours_all, theirs_all] = all;
        let standing = match verdict {
            Stands::Theirs => theirs_all,
            Stands::Ours | Stands::Met => ours_all,
        };
        for ((&key, ours), theirs) in group.iter().zip(&ours).zip(&theirs) {
            merged.extend(standing.get(&key).map(|entry| (key, entry.clone())));
            if verdict == Stands::Met && !ours.is_like(theirs) {
                lost(key, theirs.into());
            }
        }
    }
    merged
}
