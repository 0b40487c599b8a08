//! The factors that records are likeliest to come of, and how far each record is believed.

use alloc::vec;
use alloc::vec::Vec;

use super::gaussian::Gaussian;
use super::lot::{Lot, Room};
use super::terms::{LEAST, Places};
use super::told::{OwnOfLot, Told};
use crate::tables::Deviations;

/// Degrees of freedom of a record's error: few, so that one that is far off counts little.
const FREEDOM: f64 = 4.0;
/// Rounds of weighing: after these the weights hardly change.
const ROUNDS: usize = 5;
/// Lots that the start value of the scatter from lot to lot is worth.
const WORTH_LOTS: f64 = 15.0;
/// Round in which the scatter from lot to lot is estimated anew: what stands out is weighed by then.
const ESTIMATES_LOT: usize = 2;

/// What came of the records.
#[derive(Clone, Debug)]
pub(super) struct Fitted {
    pub(super) known: Gaussian,
    /// Deviation from lot to lot, of burn and wear.
    pub(super) lot: f64,
    /// How far each figure is believed, in the order they were told.
    pub(super) weights: Vec<f64>,
    /// How many deviations each is from what is expected of it.
    pub(super) off: Vec<f64>,
}

/// Variances and covariances of what is a lot's own.
pub(super) fn own_covariance(lot: f64, start: &Deviations) -> [[f64; 4]; 4] {
    let variance = |deviation: f64| deviation.max(LEAST) * deviation.max(LEAST);
    let (handling, gap) = (variance(start.handling_lot), variance(start.gap_lot));
    let variance = variance(lot);
    let both = start.burn_and_wear.clamp(-0.99, 0.99) * variance;
    [
        [variance, both, 0.0, 0.0],
        [both, variance, 0.0, 0.0],
        [0.0, 0.0, handling, 0.0],
        [0.0, 0.0, 0.0, gap],
    ]
}

/// Weighs the records and finds the unknowns, in rounds; `lots` holds the told figures lot by lot.
///
/// `None` where the numbers are such that nothing can be known.
pub(super) fn fit(lots: Vec<Vec<Told>>, places: &Places, start: &Deviations) -> Option<Fitted> {
    let mut lots: Vec<Lot> = lots.into_iter().map(Lot::new).collect();
    let mut room = Room::default();
    let count = lots.iter().map(|lot| lot.told.len()).sum();
    let mut weights = vec![1.0; count];
    let mut off = vec![0.0; count];
    let mut owns = vec![OwnOfLot::default(); lots.len()];
    let mut lot_deviation = start.lot;
    let mut means = vec![0.0; places.len()];
    for round in 0..ROUNDS {
        let own_prior = inverse(&own_covariance(lot_deviation, start))?;
        let mut information = places.prior(start);
        let mut from = 0;
        for (lot, own) in lots.iter_mut().zip(&owns) {
            let weights = &weights[from..from + lot.told.len()];
            from += lot.told.len();
            lot.weigh(own, weights, &own_prior)?;
            lot.tell(&mut information, &mut room);
        }
        means = information.means()?;
        let estimates_lot = round == ESTIMATES_LOT;
        let is_last = round + 1 == ROUNDS;
        let known = (estimates_lot || is_last).then(|| information.solved(means.clone()));
        let (mut squares, mut at) = (0.0, 0);
        for (lot, own) in lots.iter_mut().zip(&mut owns) {
            lot.believe(&means);
            *own = lot.own();
            if let Some(known) = known.as_ref().filter(|_| estimates_lot) {
                squares += lot.squares(known, own, &own_prior);
            }
            for error in lot.errors(own) {
                off[at] = error;
                weights[at] = (FREEDOM + 1.0) / (FREEDOM + error * error);
                at += 1;
            }
        }
        if let Some(known) = known.filter(|_| is_last) {
            return Some(Fitted {
                known,
                lot: lot_deviation,
                weights,
                off,
            });
        }
        if estimates_lot {
            let squares = squares * lot_deviation * lot_deviation;
            let expected = WORTH_LOTS * start.lot * start.lot + squares;
            lot_deviation = libm::sqrt(expected / (WORTH_LOTS + lots.len() as f64));
        }
    }
    None
}

/// The inverse of a positive definite matrix, by elimination; `None` where it is none.
pub(super) fn inverse(matrix: &[[f64; 4]; 4]) -> Option<[[f64; 4]; 4]> {
    let mut left = *matrix;
    let mut found = [[0.0; 4]; 4];
    for (at, row) in found.iter_mut().enumerate() {
        row[at] = 1.0;
    }
    for pivot in 0..4 {
        let scale = left[pivot][pivot];
        if !(scale > 0.0 && scale.is_finite()) {
            return None;
        }
        for column in 0..4 {
            left[pivot][column] /= scale;
            found[pivot][column] /= scale;
        }
        for row in (0..4).filter(|row| *row != pivot) {
            let times = left[row][pivot];
            for column in 0..4 {
                left[row][column] -= times * left[pivot][column];
                found[row][column] -= times * found[pivot][column];
            }
        }
    }
    Some(found)
}
