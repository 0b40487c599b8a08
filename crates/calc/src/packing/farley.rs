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

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;

    /// Four holes at 6 and six at 4 are worth 48; where no electrode holds more than 10 it takes 4.8, with
    /// a part-used one that holds 8 worth of them 4.0.
    #[test]
    fn all_value_over_the_best_electrode_s() {
        let kinds = [(0, 6, 4), (0, 4, 6), (0, 0, 5)];
        let new = Farley::new(&lot(10, None, &kinds), &[6, 4, 1000], 10, &mut 1000);
        assert_eq!((new.value(), new.rounded_up()), (4.8, 5));
        let part = Farley::new(&lot(10, Some(8), &kinds), &[6, 4, 1000], 10, &mut 1000);
        assert_eq!((part.value(), part.rounded_up()), (4.0, 4));
        // Should the work run out, it is taken to hold as much as a new one.
        let unknown = Farley::new(&lot(10, Some(8), &kinds), &[6, 4, 1000], 10, &mut 0);
        assert_eq!((unknown.value(), unknown.rounded_up()), (3.8, 4));
        let worthless = Farley::new(&lot(10, None, &kinds), &[0, 0, 7], 0, &mut 1000);
        assert_eq!((worthless.value(), worthless.rounded_up()), (0.0, 0));
    }
}
