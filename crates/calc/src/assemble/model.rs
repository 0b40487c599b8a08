//! A lot at drawn factors: what its rows, electrodes and breakages come to.
//!
//! For the joint draw electrodes are not packed anew at each wear: their lower bound there is scaled by
//! what packing needed at the median over the bound there. For the mean lot they are, see [`Planned`].

use alloc::vec::Vec;

use super::electrodes::{Demand, Dressing};
use super::packed::{PackAnswer, packed_quickly, place, quantities, shared};
use super::prepare::{Prepared, Ready};
use crate::hole::{Draw, DrawnHole, Drill};
use crate::rollup::{Counts, Times, TubeUse, roll_up};

/// How electrodes are counted at a wear that is not the median.
#[derive(Clone, Copy)]
pub(super) enum Planned<'a> {
    /// By the lower bound, scaled by what these packings needed at the median over the bound there.
    Scaled(&'a [PackAnswer]),
    /// Packed anew where a tube drills a few kinds of ends, else scaled. One kind needs no packing; of
    /// many there are many electrodes, and one more or less is lost in their spread.
    Anew(&'a [PackAnswer]),
}

/// Kinds of ends that are packed anew.
const PACKED_ANEW: core::ops::RangeInclusive<usize> = 2..=12;

/// A lot of one quantity, as far as draws change it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LotModel {
    pub(super) rows: Vec<ModelRow>,
    tubes: Vec<ModelTube>,
    pub(super) parts: u32,
    /// Counts of clamping and of ends; what goes with electrodes and minutes in holes is drawn, and
    /// travel is added to what was drawn.
    counts: Counts,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct ModelRow {
    index: usize,
    pub(super) drill: Drill,
    /// Holes in one part.
    pub(super) holes: u32,
    /// Ends of holes in one part.
    pub(super) ends: f64,
    dressing: Dressing,
    /// Index among the model's tubes.
    tube: usize,
    pub(super) feed_sigma: f64,
    pub(super) wear_sigma: f64,
}

#[derive(Clone, Debug, PartialEq)]
struct ModelTube {
    thin: bool,
    usable_mm: f64,
    /// Shared electrodes of the lot at the median wear by the quick bound.
    bound: u64,
    /// Where the packed number stands among the packings.
    packing: usize,
}

/// A lot at drawn factors.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DrawnLot {
    /// Machine and labor minutes.
    pub(super) minutes: [f64; 2],
    /// Electrodes by tube.
    pub(super) electrodes: Vec<f64>,
    /// Electrodes broken by tube.
    pub(super) broken: Vec<f64>,
}

impl LotModel {
    /// The lot of a quantity, by its index among [`quantities`].
    pub(super) fn new(prepared: &Prepared<'_>, ready: &Ready, at: usize, parts: u32) -> Self {
        let start = &prepared.tables.start;
        let tube_at = |tube: usize| ready.tubes.partition_point(|other| other.tube < tube);
        let mut rows: Vec<ModelRow> = ready
            .rows
            .iter()
            .map(|row| ModelRow {
                index: row.index,
                drill: row.drill.clone(),
                holes: row.holes,
                ends: row.ends(),
                dressing: row.dressing(start),
                tube: tube_at(row.tube),
                feed_sigma: row.feed_sigma,
                wear_sigma: row.wear_sigma,
            })
            .collect();
        // The farthest reach first, whatever the wear: so no draw needs to sort.
        let reach = |row: &ModelRow| row.drill.at(&Draw::MEDIAN).target_mm;
        rows.sort_by(|a, b| reach(b).total_cmp(&reach(a)).then(a.index.cmp(&b.index)));
        let quantities = quantities(prepared).len();
        let bounds = shared(prepared, ready, at, None);
        let tubes = ready.tubes.iter().zip(bounds).enumerate();
        let tubes = tubes.map(|(tube_at, (tube, bound))| ModelTube {
            thin: tube.thin,
            usable_mm: tube.usable_mm,
            bound,
            packing: place(tube_at, at, quantities),
        });
        Self {
            tubes: tubes.collect(),
            parts,
            counts: Counts {
                // Travel is not drawn, and is not known before orders are searched.
                travel_mm: 0.0,
                ..prepared.setup_counts(ready, parts)
            },
            rows,
        }
    }

    /// The lot at these factors.
    ///
    /// - `times`: times of handling, at the pace of the draw.
    /// - `draw`: each row's factors.
    /// - `sparking`: factor on all sparking minutes alike.
    /// - `broken`: electrodes that break in each row.
    /// - `planned`: how electrodes are counted, with the job's packings where they are at hand.
    pub(super) fn at(
        &self,
        times: &Times,
        draw: impl Fn(&ModelRow) -> Draw,
        sparking: f64,
        broken: &[f64],
        planned: Planned<'_>,
    ) -> DrawnLot {
        let parts = f64::from(self.parts);
        let mut demands: Vec<Demand> = self.tubes.iter().map(|_| Demand::default()).collect();
        let mut by_tube = alloc::vec![0.0; self.tubes.len()];
        let mut counts = self.counts;
        for (row, broken) in self.rows.iter().zip(broken) {
            let hole: DrawnHole = row.drill.at(&draw(row));
            let minutes = hole.sparking_min * sparking + hole.other_min;
            counts.hole_minutes += f64::from(row.holes) * parts * minutes;
            counts.ends += (row.ends * parts) as u64;
            let ends = (row.ends / f64::from(row.holes.max(1))).max(1.0);
            counts.broken_hole_min += broken * minutes / ends / 2.0;
            if let (Some(demand), Some(tube)) =
                (demands.get_mut(row.tube), self.tubes.get(row.tube))
            {
                demand.add(row.index, row.holes, &hole, row.dressing);
                by_tube[row.tube] += broken;
                counts.broken[usize::from(!tube.thin)] += broken;
            }
        }
        let mut electrodes = Vec::with_capacity(self.tubes.len());
        for (tube, demand) in self.tubes.iter().zip(&demands) {
            let used = tube.used(demand, self.parts, planned);
            used.add_to(&mut counts, tube.thin);
            electrodes.push(used.electrodes() as f64);
        }
        let (machine, labor) = roll_up(&counts, times);
        DrawnLot {
            minutes: [machine.sum(), labor.sum()],
            electrodes,
            broken: by_tube,
        }
    }

    /// Electrodes that are expected to break in each row.
    pub(super) fn expected_broken(&self) -> Vec<f64> {
        let parts = f64::from(self.parts);
        let rows = self.rows.iter();
        rows.map(|row| row.ends * parts * row.drill.breakage())
            .collect()
    }
}

impl ModelTube {
    /// Uses at a drawn wear.
    fn used(&self, demand: &Demand, parts: u32, planned: Planned<'_>) -> TubeUse {
        let packings = match planned {
            Planned::Anew(_) if PACKED_ANEW.contains(&demand.kinds.len()) => {
                return demand.used(parts, packed_quickly(demand, self.usable_mm, parts));
            }
            Planned::Scaled(packings) | Planned::Anew(packings) => packings,
        };
        let packed = packings
            .get(self.packing)
            .map_or(self.bound, |answer| answer.shared);
        let drawn = demand.at_least_sorted(self.usable_mm, parts);
        let scaled = if self.bound > 0 {
            libm::round(drawn as f64 * packed as f64 / self.bound as f64) as u64
        } else {
            drawn
        };
        demand.used(parts, scaled)
    }
}
