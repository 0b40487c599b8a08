//! What a tube's rows take on average: the price rests on it, not on the medians.
//!
//! Formula: minutes that go with the feed times `exp(s^2 / 2)`, each time of handling at its mean,
//! electrodes and changes at the mean over 15 quantiles of the lot's wear, planned anew at each.

use alloc::vec::Vec;

use super::demand::Demand;
use super::tube::{Electrodes, TubeDrawn, TubeLot};
use crate::hole::{Draw, wear_quantiles};
use crate::quantity::Pace;

/// A tube's rows at each quantile of the lot's wear, everything else at its mean.
pub(super) fn at_quantiles(lot: &TubeLot, parts: u32) -> Vec<TubeDrawn> {
    let in_lot = f64::from(parts);
    let mean_feed = |sigma: f64| libm::exp(-sigma * sigma / 2.0);
    let feeds: Vec<f64> = lot
        .rows
        .iter()
        .map(|row| mean_feed(row.feed_sigma))
        .collect();
    let mut demand = Demand::default();
    let at = |z: f64| {
        lot.at(
            parts,
            &mut demand,
            |at, row| Draw {
                feed: feeds[at],
                wear: libm::exp(row.wear_sigma * z),
                pace: Pace::Mean,
            },
            1.0,
            |_, row| row.ends() * in_lot * row.drill.breakage().chance,
            Electrodes::AnewWhereFew,
        )
    };
    wear_quantiles().into_iter().map(at).collect()
}
