//! A bound by the values of holes.

use super::{lot::Lot, pattern::most_valuable};

/// Farley's bound 1990 «memory»: for any values of holes, total value / value of the best pattern.
///
/// All numbers are whole, so rounding in the simplex can make the bound weaker but never wrong.
pub(super) struct Farley {
    total: i128,
    most: i128,
}

impl Farley {
    /// A part-used electrode's best pattern is taken off the total.
    pub(super) fn new(lot: &Lot, values: &[i64], most: i64, work: &mut u64) -> Self {
        // It takes no more than a new one, should the work run out.
        let part = lot.part.map_or(0, |part| {
            most_valuable(lot, part, values, 0, work).map_or(most, |priced| priced.most)
        });
        let total = lot.items.iter().zip(values);
        let total: i128 = total
            // Holes that consume nothing are in no pattern, so they must be worth nothing.
            .filter(|(item, _)| item.wear > 0)
            .map(|(item, &value)| i128::from(item.count) * i128::from(value))
            .sum();
        Farley {
            total: (total - i128::from(part)).max(0),
            most: i128::from(most.max(1)),
        }
    }

    pub(super) fn value(&self) -> f64 {
        self.total as f64 / self.most as f64
    }

    pub(super) fn rounded_up(&self) -> u64 {
        ((self.total + self.most - 1) / self.most) as u64
    }
}
