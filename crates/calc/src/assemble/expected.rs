//! What a lot takes on average: the price rests on it, not on the medians.
//!
//! Formula: the mean over the quantiles of the lot's wear of what its tubes' rows come to; and for each
//! tube a guide change and a first piece more, times the chance that it is not right at once.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::by_whom::ByWhom;
use super::known::{Known, LotDrawn};
use crate::idx::Idx;
use crate::quantity::Pace;
use crate::rollup::Times;
use crate::tables::Tube;

impl Known<'_> {
    /// The mean lot of a quantity, by its place among those that are priced; travel is not in it.
    pub(super) fn expected(&self, at: usize, quantity: u32) -> Option<LotDrawn> {
        let machine = self.prepared.machine?;
        let times = Times::new(&self.prepared.start, machine, Pace::Mean);
        let clamped = self.setup_counts(quantity);
        let tubes = self.ready.tubes.iter();
        let means: Vec<_> = tubes
            .map(|tube| Some(&tube.quantities.get(at)?.mean))
            .collect::<Option<_>>()?;
        let quantiles = means.first()?.len();
        let drawn: Vec<LotDrawn> = (0..quantiles)
            .map(|quantile| {
                let tubes = means.iter().filter_map(|mean| mean.get(quantile));
                self.together(&clamped, at, &times, tubes)
            })
            .collect();
        let number = drawn.len() as f64;
        // A first tube that is not right is changed, guide and all, and the first piece done again.
        let again = self.first_tubes_wrong() * (times.guide_change + times.first_piece);
        let mean = |of: &dyn Fn(&LotDrawn) -> f64| drawn.iter().map(of).sum::<f64>() / number;
        Some(LotDrawn {
            minutes: ByWhom {
                machine: mean(&|lot| lot.minutes.machine) + again,
                labor: mean(&|lot| lot.minutes.labor) + again,
            },
            electrodes: (0..means.len())
                .map(|tube| mean(&|lot| lot.electrodes[tube]))
                .collect(),
            broken: (0..means.len())
                .map(|tube| mean(&|lot| lot.broken[tube]))
                .collect(),
        })
    }

    /// Tubes expected not to be right at once: of each, the chance of its most doubtful row.
    fn first_tubes_wrong(&self) -> f64 {
        let mut wrong: BTreeMap<Idx<Tube>, f64> = BTreeMap::new();
        for hole in &self.prepared.holes {
            if let (Some(tube), Some(chance)) = (hole.tube, hole.first_choice) {
                let worst = wrong.entry(tube).or_default();
                *worst = worst.max(1.0 - chance.inside);
            }
        }
        wrong.values().sum()
    }
}
