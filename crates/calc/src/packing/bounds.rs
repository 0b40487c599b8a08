//! Numbers of electrodes that no plan can go below.
//!
//! For every reach p the holes that reach at least p form an ordinary packing problem with capacity
//! U - p, so any bound for that is a bound for the lot.

use alloc::vec::Vec;

use super::lot::Lot;

/// Length alone: the largest over p of (consumption of holes with reach >= p) / (U - p), rounded
/// up.
///
/// A part-used electrode takes at most its own length less p off.
pub(super) fn volume(lot: &Lot) -> u64 {
    let mut load = 0_i128;
    // Holes that consume nothing still want an electrode to be drilled with.
    let mut most = i128::from(!lot.items.is_empty() && lot.part.is_none());
    for item in &lot.items {
        load += i128::from(item.wear) * i128::from(item.count);
        let capacity = i128::from(lot.full - item.reach);
        let part = lot
            .part
            .map_or(0, |part| i128::from((part - item.reach).max(0)));
        most = most.max(ceiling(load - part, capacity));
    }
    most as u64
}

/// Martello and Toth's bound L2 «memory» on each nested set.
///
/// For a threshold a: holes above C - a need an electrode each, so do those above C / 2, and what
/// the latter leave free must hold the holes from a to C / 2. A part-used electrode saves at most
/// one.
pub(super) fn martello_toth(lot: &Lot) -> u64 {
    if lot.items.len() > EACH_REACH {
        return at_few_reaches(lot);
    }
    let mut by_wear: Vec<(i64, u64)> = Vec::new();
    let mut most = 0;
    for (at, item) in lot.items.iter().enumerate() {
        let place = by_wear.partition_point(|&(wear, _)| wear < item.wear);
        by_wear.insert(place, (item.wear, item.count));
        let last_of_reach = lot
            .items
            .get(at + 1)
            .is_none_or(|next| next.reach < item.reach);
        if last_of_reach {
            most = most.max(threshold_bound(&by_wear, lot.full - item.reach));
        }
    }
    most.saturating_sub(u64::from(lot.part.is_some()))
}

/// Kinds up to which every reach is looked at.
const EACH_REACH: usize = 1_000;

/// Reaches looked at where there are more: a bound at any of them is one for the lot.
const FEW_REACHES: usize = 16;

/// The same bound at a few of very many reaches.
fn at_few_reaches(lot: &Lot) -> u64 {
    let all = lot.items.len();
    let bounds = (1..=FEW_REACHES).filter_map(|part| {
        let far = &lot.items[..all * part / FEW_REACHES];
        let reach = far.last()?.reach;
        let mut by_wear: Vec<(i64, u64)> = far.iter().map(|item| (item.wear, item.count)).collect();
        by_wear.sort_unstable();
        Some(threshold_bound(&by_wear, lot.full - reach))
    });
    let most = bounds.max().unwrap_or_default();
    most.saturating_sub(u64::from(lot.part.is_some()))
}

/// The bound for one capacity; holes by rising wear with their numbers.
fn threshold_bound(by_wear: &[(i64, u64)], capacity: i64) -> u64 {
    // Numbers and lengths of all holes before each place.
    let mut sums = alloc::vec![(0_i128, 0_i128)];
    let (mut holes, mut length) = (0, 0);
    for &(wear, count) in by_wear {
        holes += i128::from(count);
        length += i128::from(wear) * i128::from(count);
        sums.push((holes, length));
    }
    let half = by_wear.partition_point(|&(wear, _)| 2 * wear <= capacity);
    let alone = holes - sums[half].0;
    let mut most = alone;
    for (from, &(threshold, _)) in by_wear.iter().enumerate().take(half.max(1)) {
        // With every hole above half, the threshold 0 is left.
        let threshold = if from < half { threshold } else { 0 };
        let single = by_wear.partition_point(|&(wear, _)| wear <= capacity - threshold);
        let large = sums[single].0 - sums[half].0;
        let free = large * i128::from(capacity) - (sums[single].1 - sums[half].1);
        let small = sums[half].1 - sums[from.min(half)].1;
        // Divided only where it raises the bound: a division of this width is slow.
        if small - free > (most - alone) * i128::from(capacity) {
            most = alone + ceiling(small - free, i128::from(capacity));
        }
    }
    most as u64
}

/// A quotient rounded up, never below 0.
fn ceiling(length: i128, capacity: i128) -> i128 {
    if length <= 0 || capacity <= 0 {
        return 0;
    }
    (length + capacity - 1) / capacity
}

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;

    /// At each reach the wear from there on, over what an electrode has beyond it.
    #[test]
    fn volume_by_hand() {
        // 3 x 4 in 10 - 5: 12 / 5; with 4 x 3 more in 10: 24 / 10.
        assert_eq!(volume(&lot(10, None, &[(5, 4, 3), (0, 3, 4)])), 3);
        // 12 / 5 and then (12 + 30) / 10.
        assert_eq!(volume(&lot(10, None, &[(5, 4, 3), (0, 3, 10)])), 5);
        // A whole number is not rounded up; a step more is.
        assert_eq!(volume(&lot(10, None, &[(0, 5, 4)])), 2);
        assert_eq!(volume(&lot(10, None, &[(0, 5, 4), (0, 1, 1)])), 3);
        // A part-used one of 8 takes 3 beyond 5 and 8 in all: 9 / 5, (42 - 8) / 10.
        assert_eq!(volume(&lot(10, Some(8), &[(5, 4, 3)])), 2);
        assert_eq!(volume(&lot(10, Some(8), &[(5, 4, 3), (0, 3, 10)])), 4);
        // One too short to reach takes nothing off.
        assert_eq!(volume(&lot(10, Some(4), &[(5, 4, 3)])), 3);
        // Holes that wear nothing want one electrode, a part-used one if there is any.
        assert_eq!(volume(&lot(10, None, &[(5, 0, 3)])), 1);
        assert_eq!(volume(&lot(10, Some(6), &[(5, 0, 3)])), 0);
        assert_eq!(volume(&lot(10, None, &[])), 0);
    }

    /// Holes above half of what is left stand alone; what is small fills beside those that leave room for
    /// it, the rest goes on further electrodes.
    #[test]
    fn thresholds_by_hand() {
        // Five of 6 in 10 stand alone, four of 5 go two by two: 5 + 20 / 10.
        assert_eq!(threshold_bound(&[(5, 4), (6, 5)], 10), 7);
        // Three of 7 leave 3 each; of five of 4 none goes beside them: 3 + 20 / 10.
        assert_eq!(threshold_bound(&[(4, 5), (7, 3)], 10), 5);
        // Five of 3: three go beside, two more on one.
        assert_eq!(threshold_bound(&[(3, 5), (7, 3)], 10), 4);
        assert_eq!(threshold_bound(&[(3, 3), (7, 3)], 10), 3);
        // Twos and fours beside sixes: two of 6 leave 8; 3 x 4 + 2 x 2 = 16, 8 more than that.
        assert_eq!(threshold_bound(&[(2, 2), (4, 3), (6, 2)], 10), 3);
        // Without the twos: 12 - 8.
        assert_eq!(threshold_bound(&[(4, 3), (6, 2)], 10), 3);
        // Three of 9 leave nothing that a 4 goes into: 3 + 12 / 10.
        assert_eq!(threshold_bound(&[(4, 3), (9, 3)], 10), 5);
        assert_eq!(threshold_bound(&[(10, 4)], 10), 4);
        assert_eq!(threshold_bound(&[(5, 5)], 10), 3);
        assert_eq!(threshold_bound(&[], 10), 0);
    }

    /// Of each reach on, in what an electrode has beyond it; a part-used one may take what one would.
    #[test]
    fn thresholds_reach_by_reach() {
        // Beyond 4 of 10 there are 6, so that three of 4 stand alone; all together are 27 in 10.
        let items = [(4, 4, 3), (0, 3, 5)];
        assert_eq!(martello_toth(&lot(10, None, &items)), 3);
        assert_eq!(martello_toth(&lot(10, Some(9), &items)), 2);
        // Both of reach 4 are looked at together: in 6 three of 4 stand alone, two of 3 go on one.
        assert_eq!(martello_toth(&lot(10, None, &[(4, 4, 3), (4, 3, 2)])), 4);
        assert_eq!(martello_toth(&lot(10, None, &[])), 0);
    }

    #[test]
    fn lengths_are_rounded_up_to_electrodes() {
        let found = [
            (0, 10),
            (1, 10),
            (10, 10),
            (11, 10),
            (-5, 10),
            (7, 0),
            (7, -1),
        ];
        assert_eq!(
            found.map(|(length, capacity)| ceiling(length, capacity)),
            [0, 1, 1, 2, 0, 0, 0]
        );
    }
}
