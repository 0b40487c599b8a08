//! Few holes are tried in every way: what the rules and the repacking miss by one is found, or known not to
//! be there.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::{first_fit::needed, group::Group, lot::Lot};
use crate::stop::Stop;

/// Holes up to which every way is tried.
const MOST_HOLES: u64 = 10;

/// Placements after which it ends without an answer: a tenth of a second's.
const MOST_PLACED: u32 = 200_000;

/// What trying every way came to.
pub(super) struct Tried {
    /// A plan of fewer new electrodes than the one before, the fewest there are.
    pub(super) fewer: Option<Vec<Group>>,
    /// Every way was tried: fewer than the best there is are not possible.
    pub(super) all: bool,
}

/// Tries every way to place the holes of a small lot on fewer new electrodes than `best`; none where it was
/// stopped.
pub(super) fn every_way(lot: &Lot, best: &[Group], stop: Stop<'_>) -> Option<Tried> {
    let holes: u64 = lot.items.iter().map(|item| item.count).sum();
    if holes > MOST_HOLES {
        return Some(Tried {
            fewer: None,
            all: false,
        });
    }
    let mut items: Vec<usize> = Vec::new();
    for (index, item) in lot.items.iter().enumerate() {
        items.extend((0..item.count).map(|_| index));
    }
    // What takes most of an electrode has the fewest places to go.
    items.sort_by_key(|&item| Reverse(lot.items[item].reach + lot.items[item].wear));
    let mut trial = Trial {
        lot,
        items,
        groups: Group::part_used(lot).into_iter().collect(),
        most: needed(best),
        found: None,
        left: MOST_PLACED,
        stop,
    };
    let whole = trial.place(0);
    if (trial.stop)() {
        return None;
    }
    let fewer = trial.found.map(|mut groups: Vec<Group>| {
        groups.retain(|group| !group.holes.is_empty());
        groups
    });
    Some(Tried { fewer, all: whole })
}

struct Trial<'a> {
    lot: &'a Lot,
    /// The holes in the order they are placed, by item.
    items: Vec<usize>,
    groups: Vec<Group>,
    /// New electrodes of the best so far: as many are of no use.
    most: u64,
    found: Option<Vec<Group>>,
    left: u32,
    stop: Stop<'a>,
}

impl Trial<'_> {
    /// Places the holes from this one on; false where it ended before every way was tried.
    fn place(&mut self, at: usize) -> bool {
        if needed(&self.groups) >= self.most {
            return true;
        }
        let Some(&item) = self.items.get(at) else {
            self.most = needed(&self.groups);
            self.found = Some(self.groups.clone());
            return true;
        };
        if self.left == 0 || (self.left.is_multiple_of(1024) && (self.stop)()) {
            return false;
        }
        self.left -= 1;
        for index in 0..self.groups.len() {
            let group = &self.groups[index];
            // Another electrode with the same on it was tried before.
            let known = self.groups[..index].contains(group);
            if known || group.room_for(item, self.lot) == 0 {
                continue;
            }
            let before = group.clone();
            self.groups[index].add(item, 1, self.lot);
            let whole = self.place(at + 1);
            self.groups[index] = before;
            if !whole {
                return false;
            }
        }
        let mut new = Group::empty(1, self.lot);
        new.add(item, 1, self.lot);
        self.groups.push(new);
        let whole = self.place(at + 1);
        self.groups.pop();
        whole
    }
}

#[cfg(test)]
mod tests {
    use super::super::{first_fit::best_of_all, samples::lot};
    use super::*;
    use crate::stop::never;

    /// By hand: 14 and 40 on the part-used one of 79 (54 of 79 less 25), 22, 43 and 33 on a new one (65 of
    /// 100 less 30, then 98), 41 on another: two new ones, and one holds no two of 40, 41, 43.
    #[test]
    fn what_the_rules_miss_is_found_and_that_there_are_no_fewer() {
        let small = lot(
            100,
            Some(79),
            &[
                (0, 33, 1),
                (25, 40, 1),
                (46, 41, 1),
                (38, 22, 1),
                (30, 43, 1),
                (46, 14, 1),
            ],
        );
        let rules = best_of_all(&small);
        let tried = every_way(&small, &rules, &never);
        let Some(Tried {
            fewer: Some(fewer),
            all: true,
        }) = tried
        else {
            panic!("{rules:?}");
        };
        assert_eq!(
            (needed(&rules), needed(&fewer)),
            (3, 2),
            "{fewer:?} {rules:?}"
        );
        // Each hole is on one electrode, and nothing below it is found anymore.
        let placed: u64 = fewer
            .iter()
            .flat_map(|group| &group.holes)
            .map(|(_, number)| number)
            .sum();
        assert_eq!(placed, 6);
        let again = every_way(&small, &fewer, &never);
        assert!(again.is_some_and(|tried| tried.all && tried.fewer.is_none()));
    }

    /// Of many holes nothing is tried, and nothing is claimed.
    #[test]
    fn many_holes_are_left_to_the_search() {
        let many = lot(100, None, &[(0, 33, 11)]);
        let tried = every_way(&many, &best_of_all(&many), &never);
        assert!(tried.is_some_and(|tried| !tried.all && tried.fewer.is_none()));
        let few = lot(100, None, &[(0, 33, 10)]);
        let tried = every_way(&few, &best_of_all(&few), &never);
        assert!(tried.is_some_and(|tried| tried.all && tried.fewer.is_none()));
        assert!(every_way(&few, &best_of_all(&few), &|| true).is_none());
    }
}
