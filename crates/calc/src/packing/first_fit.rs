//! First-fit and best-fit over five sorts, on electrodes kept as groups with their number.
//!
//! Holes alike follow one another, so under both rules one electrode takes as many of them as fit
//! before the next gets any: filling whole groups gives exactly the plan that placing hole by hole
//! would give, at a cost that does not grow with the number of holes.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::{group::Group, lot::Lot};

/// The best of all ten: fewest new electrodes, then the longest single remnant.
pub(super) fn best_of_all(lot: &Lot) -> Vec<Group> {
    let plans = sorts(lot).into_iter().flat_map(|sort| {
        [
            pack(lot, &sort, Rule::FirstFit),
            pack(lot, &sort, Rule::BestFit),
        ]
    });
    // The first of equals wins, so the answer depends on the lot alone.
    plans
        .min_by_key(|groups| (needed(groups), Reverse(longest_remnant(groups))))
        .unwrap_or_default()
}

/// New electrodes in all groups.
pub(super) fn needed(groups: &[Group]) -> u64 {
    groups.iter().map(Group::new_electrodes).sum()
}

/// The longest length left on any one electrode.
pub(super) fn longest_remnant(groups: &[Group]) -> i64 {
    groups.iter().map(Group::remnant).max().unwrap_or(0)
}

/// Kinds up to which every group is looked at for each.
const ALL_OPEN: usize = 1_000;

/// Groups that are looked at again for so many kinds, the last ones: all of them, or as many as keep
/// the work of a thousand kinds. Those before are as good as full where kinds are that many.
const fn open_groups(kinds: usize) -> usize {
    if kinds <= ALL_OPEN {
        return usize::MAX;
    }
    let open = ALL_OPEN * ALL_OPEN / kinds;
    if open < 8 { 8 } else { open }
}

#[derive(Clone, Copy, PartialEq)]
enum Rule {
    FirstFit,
    BestFit,
}

/// The five orders in which items are placed, each by a falling measure of how hard an item is.
fn sorts(lot: &Lot) -> [Vec<usize>; 5] {
    let measures: [fn(i64, i64, i64) -> f64; 5] = [
        |_, wear, _| wear as f64,
        |reach, _, _| reach as f64,
        |reach, wear, _| (reach + wear) as f64,
        // A hole that needs the whole length as reach consumes nothing; hardest of all.
        |reach, wear, full| wear as f64 / (full - reach) as f64,
        |reach, wear, _| wear as f64 + reach as f64 / 2.0,
    ];
    measures.map(|measure| {
        let hardness = |&item: &usize| {
            let hole = &lot.items[item];
            let hardness = measure(hole.reach, hole.wear, lot.full);
            if hardness.is_nan() {
                f64::INFINITY
            } else {
                hardness
            }
        };
        let mut order: Vec<usize> = (0..lot.items.len()).collect();
        order.sort_by(|left, right| hardness(right).total_cmp(&hardness(left)));
        order
    })
}

fn pack(lot: &Lot, sort: &[usize], rule: Rule) -> Vec<Group> {
    let mut groups: Vec<Group> = Group::part_used(lot).into_iter().collect();
    let open = open_groups(lot.items.len());
    for &item in sort {
        let from = groups.len().saturating_sub(open);
        let left = into_started(&mut groups, from, lot, item, rule);
        into_new(&mut groups, lot, item, left);
    }
    groups.retain(|group| !group.holes.is_empty());
    groups
}

/// Places an item's holes on started electrodes; returns how many are left over.
fn into_started(groups: &mut Vec<Group>, from: usize, lot: &Lot, item: usize, rule: Rule) -> u64 {
    let mut left = lot.items[item].count;
    let mut order: Vec<usize> = (from..groups.len()).collect();
    if rule == Rule::BestFit {
        order.sort_by_key(|&at| groups[at].remnant());
    }
    for at in order {
        let each = groups[at].room_for(item, lot);
        if left == 0 || each == 0 {
            continue;
        }
        if left / each >= groups[at].times {
            left -= each * groups[at].times;
            groups[at].add(item, each, lot);
        } else {
            split(groups, at, item, each, left, lot);
            return 0;
        }
    }
    left
}

/// The last holes of an item end inside a group: its first electrodes are filled, one gets the
/// rest, the others nothing.
fn split(groups: &mut Vec<Group>, at: usize, item: usize, each: u64, left: u64, lot: &Lot) {
    let group = groups.remove(at);
    let (filled, rest) = (left / each, left % each);
    let pieces = [
        (filled, each),
        (u64::from(rest > 0), rest),
        (group.times - filled - u64::from(rest > 0), 0),
    ];
    for (place, (times, number)) in pieces
        .into_iter()
        .filter(|&(times, _)| times > 0)
        .enumerate()
    {
        let mut piece = Group {
            times,
            ..group.clone()
        };
        if number > 0 {
            piece.add(item, number, lot);
        }
        groups.insert(at + place, piece);
    }
}

/// Places an item's leftover holes on new electrodes.
fn into_new(groups: &mut Vec<Group>, lot: &Lot, item: usize, left: u64) {
    // The lot holds only items of which at least one fits a new electrode.
    let each = Group::empty(1, lot).room_for(item, lot).max(1);
    let (filled, rest) = (left / each, left % each);
    for (times, number) in [(filled, each), (u64::from(rest > 0), rest)] {
        if times > 0 {
            let mut group = Group::empty(times, lot);
            group.add(item, number, lot);
            groups.push(group);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;

    /// On 100: 9 beyond 90, 30 beyond 60, 45 beyond 10, 52 beyond none. By wear, by reach, by their sums
    /// 99, 90, 55, 52, by wear over what is left 0.9, 0.75, 0.5, 0.52, and by wear and half the reach 54,
    /// 60, 50, 52.
    #[test]
    fn five_sorts_by_hand() {
        let four = lot(
            100,
            None,
            &[(90, 9, 1), (60, 30, 1), (10, 45, 1), (0, 52, 1)],
        );
        let by_hand = [
            [3, 2, 1, 0],
            [0, 1, 2, 3],
            [0, 1, 2, 3],
            [0, 1, 3, 2],
            [1, 0, 3, 2],
        ];
        assert_eq!(sorts(&four), by_hand);
        // What needs the whole length as reach is hardest, though it wears nothing.
        let whole = lot(100, None, &[(100, 0, 1), (90, 9, 1)]);
        assert_eq!(sorts(&whole)[3], [0, 1]);
    }

    /// Four of 6 stand on four electrodes of 10, and two of 4 go beside two of them: what is left of a group
    /// that is parted is told, and no group of none.
    #[test]
    fn a_group_is_parted_where_fewer_are_left() {
        let large = lot(10, None, &[(0, 6, 4), (0, 4, 2)]);
        for rule in [Rule::FirstFit, Rule::BestFit] {
            let groups = pack(&large, &[0, 1], rule);
            let told: Vec<_> = groups
                .iter()
                .map(|group| (group.times, group.used, group.holes.clone()))
                .collect();
            let by_hand = [
                (2, 10, alloc::vec![(0, 1), (1, 1)]),
                (2, 6, alloc::vec![(0, 1)]),
            ];
            assert_eq!(told, by_hand);
        }
        // Four of 3, three to the first; of thirty of 1 one beside those, seven beside the fourth, ten and
        // ten and two by themselves.
        let small = lot(10, None, &[(0, 1, 30), (0, 3, 4)]);
        let groups = pack(&small, &[1, 0], Rule::FirstFit);
        assert!(groups.iter().all(|group| group.times > 0));
        assert_eq!(needed(&groups), 5);
    }
}
