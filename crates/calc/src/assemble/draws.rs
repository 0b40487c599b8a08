//! The joint draw of the offered lot.
//!
//! Feed, wear and handling are shared by the whole lot; each row takes them with its own deviation,
//! in which its material and how far its depth makes the depth law count stand together. The gap
//! moves the hole's size and none of its minutes, so it is not drawn. Holes scatter about the lot's
//! feed, which is averaged over all of them in closed form. Breakages move the allowance for redone holes.
//!
//! Electrodes of a draw are not packed anew: their lower bound at the drawn wear is scaled by what
//! packing needed at the median over the bound there.

use alloc::vec::Vec;

use super::electrodes::Demand;
use super::packed::{PackAnswer, quantities, shared};
use super::prepare::{Prepared, Ready};
use crate::hole::{Draw, Drill};
use crate::quantity::Spread;
use crate::rollup::{Counts, Times, TubeUse, roll_up};
use crate::spread::{DRAWS, Factor, scatter_of_sum};

/// All that the draw of a lot depends on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DrawQuestion {
    rows: Vec<DrawnRow>,
    tubes: Vec<DrawnTube>,
    parts: u32,
    /// Counts of clamping, and holes; what goes with electrodes and minutes in holes is drawn, and
    /// travel is added to what was drawn.
    counts: Counts,
    times: Times,
    handling_scatter: f64,
    hole_scatter: f64,
    dressing_mm: f64,
    /// Chance of breakage: of thin tubes, of all others.
    breakage: [Spread; 2],
}

#[derive(Clone, Debug, PartialEq)]
struct DrawnRow {
    index: usize,
    drill: Drill,
    /// Holes in one part.
    holes: u32,
    /// Index among the draw's tubes.
    tube: usize,
    feed_sigma: f64,
    wear_sigma: f64,
}

#[derive(Clone, Debug, PartialEq)]
struct DrawnTube {
    thin: bool,
    usable_mm: f64,
    /// Shared electrodes of the lot at the median wear by the quick bound.
    bound: u64,
    /// Where the packed number stands among the packings.
    packing: usize,
}

/// One draw of the lot.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DrawnLot {
    /// Machine and labor minutes.
    pub(super) minutes: [f64; 2],
    /// Electrodes by tube.
    pub(super) electrodes: Vec<f64>,
    /// Breakages over those expected.
    pub(super) breakages: f64,
}

/// The lot factors' deviates, draw by draw.
struct Deviates {
    feed: Vec<f64>,
    wear: Vec<f64>,
    handling: Vec<f64>,
    holes: Vec<f64>,
    breakage: Vec<f64>,
    breakages: Vec<f64>,
}

impl DrawQuestion {
    pub(super) fn new(prepared: &Prepared<'_>, ready: &Ready) -> Option<Self> {
        let quantities = quantities(prepared);
        let parts = prepared.input.quantity.filter(|&quantity| quantity > 0)?;
        let start = &prepared.tables.start;
        let place = |tube: usize| ready.tubes.partition_point(|other| other.tube < tube);
        let rows = ready.rows.iter().map(|row| DrawnRow {
            index: row.index,
            drill: row.drill.clone(),
            holes: row.holes,
            tube: place(row.tube),
            feed_sigma: row.feed_sigma,
            wear_sigma: row.wear_sigma,
        });
        let bounds = shared(prepared, ready, 0, None);
        let tubes = ready.tubes.iter().zip(bounds).enumerate();
        let tubes = tubes.map(|(at, (tube, bound))| DrawnTube {
            thin: tube.thin,
            usable_mm: tube.usable_mm,
            bound,
            packing: at * (quantities.len() + 1) + 1,
        });
        let mut counts = prepared.setup_counts(ready, parts);
        counts.holes = ready
            .rows
            .iter()
            .map(|row| u64::from(row.holes) * u64::from(parts))
            .sum();
        Some(Self {
            rows: rows.collect(),
            tubes: tubes.collect(),
            parts,
            counts,
            times: ready.times,
            handling_scatter: start.handling_scatter,
            hole_scatter: start.hole_scatter,
            dressing_mm: start.dressing_mm,
            breakage: [start.breakage_thin, start.breakage],
        })
    }

    pub(super) fn answer(&self, packings: &[PackAnswer]) -> Vec<DrawnLot> {
        let deviates = Deviates {
            feed: Factor::Feed.deviates(DRAWS),
            wear: Factor::Wear.deviates(DRAWS),
            handling: Factor::Handling.deviates(DRAWS),
            holes: Factor::Holes.deviates(DRAWS),
            breakage: Factor::Breakage.deviates(DRAWS),
            breakages: Factor::Breakages.deviates(DRAWS),
        };
        let scatter = self.scatter();
        (0..DRAWS)
            .map(|draw| self.draw(draw, &deviates, scatter, packings))
            .collect()
    }

    /// Deviation of the logarithm of all sparking minutes by the holes' own scatter.
    fn scatter(&self) -> f64 {
        let parts = f64::from(self.parts);
        let rows = self.rows.iter().map(|row| {
            let each = row.drill.at(&Draw::MEDIAN).sparking_min;
            (f64::from(row.holes) * parts, each)
        });
        scatter_of_sum(rows, self.hole_scatter)
    }

    fn draw(
        &self,
        draw: usize,
        deviates: &Deviates,
        scatter: f64,
        packings: &[PackAnswer],
    ) -> DrawnLot {
        let parts = f64::from(self.parts);
        let handling = libm::exp(self.handling_scatter * deviates.handling[draw]);
        // Of mean one, so that more holes bring less scatter but not less time.
        let about_lot = libm::exp(scatter * deviates.holes[draw] - scatter * scatter / 2.0);
        let mut demands: Vec<Demand> = self.tubes.iter().map(|_| Demand::default()).collect();
        let mut counts = self.counts;
        for row in &self.rows {
            let hole = row.drill.at(&Draw {
                feed: libm::exp(row.feed_sigma * deviates.feed[draw]),
                wear: libm::exp(row.wear_sigma * deviates.wear[draw]),
                handling,
            });
            let minutes = hole.sparking_min * about_lot + hole.other_min;
            counts.hole_minutes += f64::from(row.holes) * parts * minutes;
            demands[row.tube].add(row.index, row.holes, &hole, self.dressing_mm);
        }
        let mut electrodes = Vec::new();
        for (tube, demand) in self.tubes.iter().zip(&demands) {
            let used = tube.used(demand, self.parts, packings);
            used.add_to(&mut counts, tube.thin);
            electrodes.push(used.electrodes() as f64);
        }
        let (machine, labor) = roll_up(&counts, &self.times.scaled(handling));
        DrawnLot {
            minutes: [machine.sum(), labor.sum()],
            electrodes,
            breakages: self.breakages(deviates.breakage[draw], deviates.breakages[draw]),
        }
    }

    /// Breakages over those expected: the chance is the lot's own, their number scatters about it.
    fn breakages(&self, chance_z: f64, number_z: f64) -> f64 {
        let (mut expected, mut mean, mut variance) = (0.0, 0.0, 0.0);
        for row in &self.rows {
            let holes = f64::from(row.holes) * f64::from(self.parts);
            let thin = self.tubes.get(row.tube).is_some_and(|tube| tube.thin);
            let chance = self.breakage[usize::from(!thin)];
            let sigma = chance.sigma();
            let drawn = chance.at(chance_z).min(1.0);
            expected += holes * chance.p50() * libm::exp(sigma * sigma / 2.0);
            mean += holes * drawn;
            variance += holes * drawn * (1.0 - drawn);
        }
        if expected > 0.0 {
            (mean + libm::sqrt(variance) * number_z).max(0.0) / expected
        } else {
            1.0
        }
    }
}

impl DrawnTube {
    /// Uses at a drawn wear: its quick bound, scaled by packed over bound at the median.
    fn used(&self, demand: &Demand, parts: u32, packings: &[PackAnswer]) -> TubeUse {
        let packed = packings
            .get(self.packing)
            .map_or(self.bound, |answer| answer.shared);
        let drawn = demand.at_least(self.usable_mm, parts);
        let scaled = if self.bound > 0 {
            libm::round(drawn as f64 * packed as f64 / self.bound as f64) as u64
        } else {
            drawn
        };
        demand.used(parts, scaled)
    }
}
