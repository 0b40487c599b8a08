//! Good values of holes for the linear program's bound, step by step and without a basis.

use alloc::vec::Vec;

use super::{
    farley::Farley,
    lot::Lot,
    pattern::most_valuable,
    worth::{ONE, worth},
};
use crate::stop::Stop;

/// Steps without a better bound after which steps get shorter.
const PATIENCE: u32 = 15;
/// Shortest steps worth taking, as a share of the full step.
const SHORTEST: f64 = 1e-3;

/// Values of holes with the bound they prove.
pub(super) struct Ascent {
    pub(super) values: Vec<i64>,
    pub(super) bound: f64,
    pub(super) at_least: u64,
}

/// Raises the bound by at most so many steps, until it meets `enough`; none where it is stopped.
///
/// Subgradient steps of Polyak's length (Held, Wolfe and Crowder 1974 «memory»): holes that as many
/// of the best pattern as there are electrodes would drill too often lose value, the others gain.
pub(super) fn ascend(
    lot: &Lot,
    steps: u32,
    enough: u64,
    work: &mut u64,
    stop: Stop<'_>,
) -> Option<Ascent> {
    let mut values = by_length(lot);
    let mut best = Ascent {
        values: values.clone(),
        bound: 0.0,
        at_least: 0,
    };
    let mut pattern = alloc::vec![0; lot.items.len()];
    let (mut length, mut waited) = (1.0, 0);
    for _ in 0..steps {
        if stop() {
            return None;
        }
        let known = worth(&pattern, &values);
        let Some(priced) = most_valuable(lot, lot.full, &values, known, work) else {
            break;
        };
        pattern = priced.pattern.unwrap_or(pattern);
        let farley = Farley::new(lot, &values, priced.most, work);
        best.at_least = best.at_least.max(farley.rounded_up());
        if best.at_least >= enough {
            break;
        }
        waited += 1;
        if farley.value() > best.bound {
            best.bound = farley.value();
            best.values.clone_from(&values);
            waited = 0;
        }
        if waited > PATIENCE {
            (length, waited) = (length / 2.0, 0);
            values.clone_from(&best.values);
            if length < SHORTEST {
                break;
            }
            continue;
        }
        let electrodes = enough as f64;
        let rise = length * (electrodes - farley.value());
        let scale = ONE as f64 / priced.most.max(1) as f64;
        let slopes = slopes(lot, &pattern, electrodes);
        let square: f64 = slopes.iter().map(|slope| slope * slope).sum();
        for (value, slope) in values.iter_mut().zip(&slopes) {
            let raised = *value as f64 * scale + rise * slope / square * ONE as f64;
            // Where every slope is flat there is no way up: not a number, and so the least value.
            *value = raised.clamp(0.0, ONE as f64) as i64;
        }
    }
    Some(best)
}

/// Holes of each item beyond those that so many electrodes with the pattern would drill.
fn slopes(lot: &Lot, pattern: &[u64], electrodes: f64) -> Vec<f64> {
    let pairs = lot.items.iter().zip(pattern);
    pairs
        .map(|(item, &number)| item.count as f64 - electrodes * number as f64)
        .collect()
}

/// Values to start from: the share of an electrode's length that each hole uses up at best.
fn by_length(lot: &Lot) -> Vec<i64> {
    let share = |wear: i64, room: i64| {
        if room > 0 {
            wear as f64 / room as f64
        } else {
            0.0
        }
    };
    let items = lot.items.iter();
    items
        .map(|item| (share(item.wear, lot.full - item.reach) * ONE as f64) as i64)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;
    use crate::stop::never;

    /// The least whole number of electrodes that ascended values prove, in at most so many steps.
    fn proved(lot: &Lot, steps: u32, enough: u64) -> (u64, f64) {
        let found = ascend(lot, steps, enough, &mut u64::MAX.clone(), &never);
        found.map_or((0, 0.0), |found| (found.at_least, found.bound))
    }

    /// Programs solved by hand, where values by length alone prove less.
    #[test]
    fn values_rise_to_those_of_the_program() {
        // 40 of 6 and 60 of 4 on 10: by length 48; each worth a half, 50, since no electrode holds three
        // (40 hold one of each, 10 two of 4).
        assert_eq!(
            proved(&lot(10, None, &[(0, 6, 40), (0, 4, 60)]), 200, 50).0,
            50
        );
        // 20 of 55, 30 of 35, 40 of 30 on 100: by length 33.5; worth 2/3, 1/3, 1/3 they are 36.67, and no
        // electrode holds more than one.
        let three = lot(100, None, &[(0, 55, 20), (0, 35, 30), (0, 30, 40)]);
        assert_eq!(proved(&three, 200, 37).0, 37);
        // Reach: 30 of 2 beyond 6 of 10, two on each; 30 of 3, two beside them in what is left, or three
        // by themselves. Each of the first worth a half: 15 electrodes with all of the second on them.
        assert_eq!(
            proved(&lot(10, None, &[(6, 2, 30), (0, 3, 30)]), 200, 15).0,
            15
        );
    }

    /// A bound is never beyond what the program allows, however long it rises and whatever it aims at.
    #[test]
    fn no_bound_goes_beyond_the_program() {
        let two = lot(10, None, &[(0, 6, 40), (0, 4, 60)]);
        for (steps, enough) in [(0, 60), (1, 60), (5, 60), (300, 60), (300, 55), (300, 51)] {
            let (at_least, bound) = proved(&two, steps, enough);
            assert!(
                at_least <= 50 && bound <= 50.0 + 1e-6,
                "{at_least}, {bound}"
            );
        }
        // With steps enough it comes within a thousandth of it.
        assert!(proved(&two, 300, 51).1 > 50.0 - 0.05);
    }

    /// Holes beyond, or short of, those that so many electrodes with the set would drill.
    #[test]
    fn slopes_by_hand() {
        let lot = lot(10, None, &[(0, 6, 40), (0, 4, 60)]);
        assert_eq!(slopes(&lot, &[1, 1], 50.0), [-10.0, 10.0]);
        assert_eq!(slopes(&lot, &[0, 2], 50.0), [40.0, -40.0]);
    }

    /// The share of what an electrode has beyond the hole's reach; a hole that takes all of the reach is
    /// worth nothing by its wear.
    #[test]
    fn values_begin_with_the_share_of_the_length() {
        let values = by_length(&lot(10, None, &[(10, 0, 1), (5, 4, 3), (0, 5, 2)]));
        assert_eq!(values, [0, (0.8 * ONE as f64) as i64, ONE / 2]);
    }
}
