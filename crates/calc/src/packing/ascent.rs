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
