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
