//! The most valuable set of holes for one electrode.

use alloc::vec::Vec;

use super::{grid::Grid, lot::Lot};

/// Value of the best pattern, and how many holes of each item it has.
///
/// Items come in falling reach, so the consumed length may be held as the state: an item may be
/// added as long as the sum up to it stays within U - reach (dynamic program after Lawler and Moore
/// «memory»). Wears are rounded down to the grid: the best value is never too small. Items without
/// a value, or shorter than a cell, are left out.
pub(super) fn most_valuable(lot: &Lot, grid: Grid, usable: i64, values: &[i64]) -> (i64, Vec<u64>) {
    // Best value for each consumed length; below zero where no set has just that length.
    let mut best = alloc::vec![-1_i64; grid.down(usable) + 1];
    best[0] = 0;
    let mut stages = Vec::new();
    for (item, &value) in values.iter().enumerate() {
        let hole = &lot.items[item];
        let wear = grid.down(hole.wear);
        if value <= 0 || wear == 0 || hole.reach > usable {
            continue;
        }
        let limit = grid.down(usable - hole.reach);
        let mut left = hole.count.min((limit / wear) as u64);
        // Bundles of 1, 2, 4, ... and a rest make every number of holes up to the most.
        let mut bundle = 1;
        while left > 0 {
            let number = bundle.min(left);
            stages.push(Stage::run(&mut best, item, number, wear, value, limit));
            left -= number;
            bundle *= 2;
        }
    }
    let (mut length, mut most) = (0, 0);
    for (at, &value) in best.iter().enumerate() {
        if value > most {
            (length, most) = (at, value);
        }
    }
    let mut pattern = alloc::vec![0; values.len()];
    for stage in stages.iter().rev() {
        if stage.taken_at(length) {
            pattern[stage.item] += stage.number;
            length -= stage.wear;
        }
    }
    (most, pattern)
}

/// A bundle of holes alike, with the lengths at which taking it was better.
struct Stage {
    item: usize,
    number: u64,
    wear: usize,
    taken: Vec<u64>,
}

impl Stage {
    fn run(
        best: &mut [i64],
        item: usize,
        number: u64,
        wear: usize,
        value: i64,
        limit: usize,
    ) -> Self {
        let wear = wear * number as usize;
        let value = value * number as i64;
        let mut taken = alloc::vec![0_u64; limit / 64 + 1];
        for length in (wear..=limit).rev() {
            let before = best[length - wear];
            if before >= 0 && before + value > best[length] {
                best[length] = before + value;
                taken[length / 64] |= 1 << (length % 64);
            }
        }
        Stage {
            item,
            number,
            wear,
            taken,
        }
    }

    fn taken_at(&self, length: usize) -> bool {
        self.taken
            .get(length / 64)
            .is_some_and(|word| word >> (length % 64) & 1 == 1)
    }
}
