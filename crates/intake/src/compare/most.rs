//! As many pairs of rows as can be made.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// As many pairs as can be made of those that may be, which come best first: where taking the best first leaves
/// rows over, others are paired anew, so that these find one too.
///
/// Each search finds a path of possible and made pairs in turn, which makes one pair more (Berge's theorem, from
/// memory).
pub(super) fn most(may_be: &[(usize, usize)]) -> BTreeMap<usize, usize> {
    let mut of: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let mut pairs = Pairs::default();
    for &(at, to) in may_be {
        of.entry(at).or_default().push(to);
        if !pairs.of.contains_key(&at) && !pairs.with.contains_key(&to) {
            pairs.make(at, to);
        }
    }
    let mut seen = BTreeSet::new();
    for &at in of.keys() {
        if !pairs.of.contains_key(&at) {
            pairs.find_one_more(at, &of, &mut seen);
        }
    }
    pairs.of
}

/// Pairs that are made, from either side.
#[derive(Default)]
struct Pairs {
    of: BTreeMap<usize, usize>,
    with: BTreeMap<usize, usize>,
}

impl Pairs {
    fn make(&mut self, at: usize, to: usize) {
        self.of.insert(at, to);
        self.with.insert(to, at);
    }

    /// Pairs a row that is alone, where none that has a partner stays without. What was seen in vain leads
    /// nowhere later either, and stays in `seen`.
    fn find_one_more(
        &mut self,
        alone: usize,
        may_be: &BTreeMap<usize, Vec<usize>>,
        seen: &mut BTreeSet<usize>,
    ) {
        let mut came: BTreeMap<usize, usize> = BTreeMap::new();
        let mut next = VecDeque::from([alone]);
        while let Some(at) = next.pop_front() {
            for &to in may_be.get(&at).into_iter().flatten() {
                if !seen.insert(to) {
                    continue;
                }
                came.insert(to, at);
                match self.with.get(&to) {
                    Some(other) => next.push_back(*other),
                    None => {
                        self.pair_back(to, &came);
                        for to in came.keys() {
                            seen.remove(to);
                        }
                        return;
                    }
                }
            }
        }
    }

    /// Pairs each row on the way to one that is free with the one it came to.
    fn pair_back(&mut self, free: usize, came: &BTreeMap<usize, usize>) {
        let mut to = Some(free);
        while let Some((at, now)) = to.and_then(|to| Some((*came.get(&to)?, to))) {
            to = self.of.get(&at).copied();
            self.make(at, now);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::most;

    #[test]
    fn who_can_only_have_a_taken_one_gets_it() {
        // 0 would have 0 rather than 1, and 1 has only 0.
        let pairs = most(&[(0, 0), (0, 1), (1, 0)]);
        assert_eq!(pairs.into_iter().collect::<Vec<_>>(), [(0, 1), (1, 0)]);
    }

    #[test]
    fn a_chain_of_rows_moves_on_by_one() {
        let chain = (0..1000).flat_map(|n| [(n, n + 1), (n, n)]);
        let may_be: Vec<(usize, usize)> = chain.chain([(1000, 1)]).collect();
        let pairs = most(&may_be);
        assert_eq!(pairs.len(), 1001);
        assert_eq!(pairs[&1000], 1);
        assert_eq!(pairs[&0], 0);
    }

    #[test]
    fn who_finds_none_takes_none_from_another() {
        let pairs = most(&[(0, 0), (1, 0), (2, 0), (2, 1), (3, 1)]);
        assert_eq!(pairs.into_iter().collect::<Vec<_>>(), [(0, 0), (2, 1)]);
    }
}
