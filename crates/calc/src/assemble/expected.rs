//! What a lot takes on average: the price rests on it, not on the medians.
//!
//! Formula: minutes that go with the feed times `exp(s^2 / 2)`, each time of handling at its mean,
//! electrodes and changes at the mean over 15 quantiles of the lot's wear, planned anew at each; and
//! for each tube a guide change and a first piece more, times the chance that it is not right at once.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::model::{DrawnLot, LotModel, Planned};
use super::packed::PackAnswer;
use super::prepare::Prepared;
use crate::hole::{Draw, wear_quantiles};
use crate::quantity::Pace;
use crate::rollup::Times;

impl Prepared<'_> {
    /// The mean lot; travel is not in it.
    pub(super) fn expected(&self, model: &LotModel, packings: &[PackAnswer]) -> Option<DrawnLot> {
        let machine = self.machine?;
        let times = Times::new(&self.tables.start, machine, Pace::Mean);
        let broken = model.expected_broken();
        let drawn: Vec<DrawnLot> = wear_quantiles()
            .into_iter()
            .map(|z| {
                let draw = |feed_sigma: f64, wear_sigma: f64| Draw {
                    feed: libm::exp(-feed_sigma * feed_sigma / 2.0),
                    wear: libm::exp(wear_sigma * z),
                    pace: Pace::Mean,
                };
                model.at(
                    &times,
                    |row| draw(row.feed_sigma, row.wear_sigma),
                    1.0,
                    &broken,
                    Planned::Anew(packings),
                )
            })
            .collect();
        let number = drawn.len() as f64;
        // A first tube that is not right is changed, guide and all, and the first piece done again.
        let again = self.first_tubes_wrong() * (times.guide_change + times.first_piece);
        let mean = |of: &dyn Fn(&DrawnLot) -> f64| drawn.iter().map(of).sum::<f64>() / number;
        let tubes = drawn.first().map_or(0, |lot| lot.electrodes.len());
        Some(DrawnLot {
            minutes: [
                mean(&|lot| lot.minutes[0]) + again,
                mean(&|lot| lot.minutes[1]) + again,
            ],
            electrodes: (0..tubes)
                .map(|tube| mean(&|lot| lot.electrodes.get(tube).copied().unwrap_or(0.0)))
                .collect(),
            broken: (0..tubes)
                .map(|tube| mean(&|lot| lot.broken.get(tube).copied().unwrap_or(0.0)))
                .collect(),
        })
    }

    /// Tubes expected not to be right at once: of each, the chance of its most doubtful row.
    fn first_tubes_wrong(&self) -> f64 {
        let mut wrong: BTreeMap<usize, f64> = BTreeMap::new();
        for hole in &self.holes {
            if let (Some(tube), Some(chance)) = (hole.tube, hole.first_choice) {
                let worst = wrong.entry(tube).or_default();
                *worst = worst.max(1.0 - chance.inside);
            }
        }
        wrong.values().sum()
    }
}
