//! What lies in the drawer by now: what was counted, less what was used since, and what is kept for
//! released travelers.

use std::collections::BTreeMap;

use quillbore_calc::tables::Guide;
use quillbore_job::Shop;
use quillbore_job::drawer::{Drawn, Thing, Used};
use quillbore_job::same_name::same_name;

use crate::names::JobKey;
use crate::pool::Pool;
use crate::today::Short;

/// A used electrode that is shorter than a new one by this share was no new one: a piece left of another
/// run was taken.
const STUB: f64 = 0.9;

/// A piece that was taken is the one in the drawer that is as long to this length [mm]: both were measured
/// with a rule.
const SAME_PIECE_MM: f64 = 5.0;

/// What lies of one electrode or guide.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct InDrawer {
    /// How many were counted; none where nobody counted.
    pub counted: Option<u32>,
    /// How many new ones run records used up since.
    pub used: u32,
    /// How many are kept for jobs on the floor; of guides as many as all their holes together wear out, the
    /// last one begun.
    pub reserved: u32,
    /// The ends of those holes, of a guide.
    pub kept_ends: u64,
    /// Pieces left of used ones that were not taken since: how many of each length [mm].
    pub pieces: Vec<(u32, f64)>,
}

impl InDrawer {
    /// How many are free; below zero where more is promised than lies there. None where nobody counted.
    #[must_use]
    pub fn free(&self) -> Option<i64> {
        let left = i64::from(self.counted?) - i64::from(self.used);
        Some(left - i64::from(self.reserved))
    }

    /// Whether more is promised than lies there.
    #[must_use]
    pub fn is_short(&self) -> bool {
        self.free().is_some_and(|free| free < 0)
    }
}

/// What lies in the drawer, as far as anything is known of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawer(BTreeMap<(Thing, String), InDrawer>);

impl Drawer {
    /// What lies of an electrode or guide, by the shop's name of it.
    #[must_use]
    pub fn of(&self, thing: Thing, name: &str) -> Option<&InDrawer> {
        self.0.get(&(thing, name.to_owned()))
    }

    /// All that anything is known of, each with its name: electrodes, then guides.
    pub fn all(&self) -> impl Iterator<Item = (Thing, &str, &InDrawer)> {
        let all = self.0.iter();
        all.map(|((thing, name), lies)| (*thing, name.as_str(), lies))
    }

    /// What more is promised of than lies there.
    #[must_use]
    pub fn short(&self) -> Vec<Short> {
        let short = self.all().filter(|(_, _, lies)| lies.is_short());
        short
            .map(|(thing, name, lies)| Short {
                thing,
                name: name.to_owned(),
                here: lies.counted.unwrap_or(0).saturating_sub(lies.used),
                wanted: lies.reserved,
                job: None,
            })
            .collect()
    }
}

/// What lies in the drawer; what `but` itself keeps doesn't count, so that a job's own kit is not held
/// against it.
///
/// What was used on the day of the count is taken to be counted already; whether it was nobody knows, so
/// while its job is on the floor it stays kept as well, and what is free is rather too little than too much.
#[must_use]
pub fn drawer(shop: &Shop, pool: &Pool, but: Option<&JobKey>) -> Drawer {
    let mut all = counted(shop);
    for (key, drawn) in pool.drawn() {
        let Some((name, guide)) = of_shop(shop, drawn) else {
            continue;
        };
        let lies = all.entry((drawn.thing, name.to_owned())).or_default();
        let counted = shop.counted.get(&(drawn.thing, name.to_owned()));
        let since = drawn.used.iter().filter(|used| {
            // Without both days nobody can say that it was counted before.
            counted.is_some_and(|counted| used.date.is_some_and(|date| date > *counted))
        });
        for used in since {
            let piece = piece_mm(shop, name, used).filter(|_| used.count > 0);
            let new_ones = used.count - u32::from(piece.is_some());
            lies.used = lies.used.saturating_add(new_ones);
            if let Some(taken) = piece {
                take_piece(&mut lies.pieces, taken);
            }
        }
        if Some(key) == but {
            continue;
        }
        if let Some(guide) = guide {
            lies.kept_ends += u64::from(drawn.reserved);
            lies.reserved = guide.needed_for(lies.kept_ends);
        } else {
            let that_day = drawn
                .used
                .iter()
                .filter(|used| used.date.as_ref() == counted);
            let that_day = that_day.map(|used| used.count).sum::<u32>();
            let unsure = if drawn.reserved > 0 { that_day } else { 0 };
            lies.reserved = lies
                .reserved
                .saturating_add(drawn.reserved.saturating_add(unsure));
        }
    }
    Drawer(all)
}

/// What was counted, and the pieces that were typed.
fn counted(shop: &Shop) -> BTreeMap<(Thing, String), InDrawer> {
    let tubes = shop.tables.tubes.iter();
    let tubes = tubes.map(|tube| (Thing::Electrode, &tube.name, tube.stock, &tube.stubs[..]));
    let guides = shop.tables.guides.iter();
    let guides = guides.map(|guide| (Thing::Guide, &guide.name, guide.stock, &[][..]));
    let known = tubes
        .chain(guides)
        .filter(|(.., counted, pieces)| counted.is_some() || !pieces.is_empty());
    known
        .map(|(thing, name, counted, pieces)| {
            let lies = InDrawer {
                counted,
                pieces: pieces.to_vec(),
                ..InDrawer::default()
            };
            ((thing, name.clone()), lies)
        })
        .collect()
}

/// The shop's name of what a job draws, and the guide where it is one; none of what the shop doesn't have.
fn of_shop<'a>(shop: &'a Shop, drawn: &Drawn) -> Option<(&'a str, Option<&'a Guide>)> {
    let is_it = |name: &str| same_name(name, &drawn.name);
    match drawn.thing {
        Thing::Electrode => {
            let mut tubes = shop.tables.tubes.iter();
            tubes
                .find(|tube| is_it(&tube.name))
                .map(|tube| (tube.name.as_str(), None))
        }
        Thing::Guide => {
            let mut guides = shop.tables.guides.iter();
            guides
                .find(|guide| is_it(&guide.name))
                .map(|guide| (guide.name.as_str(), Some(guide)))
        }
    }
}

/// The length of the piece that a record took first [mm]; none where that was a new one.
fn piece_mm(shop: &Shop, name: &str, used: &Used) -> Option<f64> {
    let mut tubes = shop.tables.tubes.iter();
    let tube = tubes.find(|tube| tube.name == name)?;
    used.before_mm
        .filter(|before| *before < tube.length_mm * STUB)
}

/// Takes a piece of a length out, where one like it lies there.
fn take_piece(pieces: &mut Vec<(u32, f64)>, taken_mm: f64) {
    let off = |mm: f64| (mm - taken_mm).abs();
    let alike = pieces
        .iter_mut()
        .filter(|(_, mm)| off(*mm) <= SAME_PIECE_MM);
    if let Some((count, _)) = alike.min_by(|(_, one), (_, other)| off(*one).total_cmp(&off(*other)))
    {
        *count = count.saturating_sub(1);
    }
    pieces.retain(|(count, _)| *count > 0);
}

/// Puts what lies there in the place of what was counted by `as_counted`, with what is kept of it: what a
/// lot's kit is held against. Guides are kept for holes: what is left of one's life does for the next lot.
pub fn put_free(shop: &mut Shop, as_counted: &Shop, pool: &Pool, but: Option<&JobKey>) {
    let lies = drawer(as_counted, pool, but);
    for tube in &mut shop.tables.tubes {
        let Some(lies) = lies.of(Thing::Electrode, &tube.name) else {
            continue;
        };
        tube.stock = lies
            .counted
            .map(|counted| counted.saturating_sub(lies.used));
        tube.kept = lies.reserved;
        tube.stubs.clone_from(&lies.pieces);
    }
    for guide in &mut shop.tables.guides {
        let lies = lies.of(Thing::Guide, &guide.name);
        guide.kept_ends = lies.map_or(0, |lies| lies.kept_ends);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_is_taken_where_one_like_it_lies_there() {
        let left = |taken_mm| {
            let mut pieces = vec![(1, 180.0), (2, 95.0)];
            take_piece(&mut pieces, taken_mm);
            pieces
        };
        assert_eq!(left(178.0), [(2, 95.0)]);
        assert_eq!(left(97.0), [(1, 180.0), (1, 95.0)]);
        // A piece that nobody typed.
        assert_eq!(left(140.0), [(1, 180.0), (2, 95.0)]);
    }
}
