//! One tube of the lot: its rows, what they ask of electrodes, and what they come to at drawn factors.
//!
//! A tube knows nothing of the job but its own rows, so what was worked out for it holds until one of
//! them changes.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::demand::{Demand, Dressing};
use super::rows::Drilled;
use crate::hole::{Draw, DrawnHole};
use crate::idx::Idx;
use crate::learn::Breakage;
use crate::packing::{Effort, Electrode, PackingAsked};
use crate::quantity::Z90;
use crate::rollup::Checks;
use crate::rollup::TubeUse;
use crate::spread::Breakages;
use crate::tables::{Tables, Tube};

/// What one tube drills in one part.
#[derive(Debug, PartialEq)]
pub(super) struct TubeLot {
    /// Which of the shop's.
    pub(super) tube: Idx<Tube>,
    /// Counts as thin.
    pub(super) thin: bool,
    /// Its rows, in the table's order.
    pub(super) rows: Vec<Arc<Drilled>>,
    /// Their places, the farthest reach first, whatever the wear: so no draw needs to sort.
    by_reach: Vec<InReach>,
    /// Usable length, and what a fresh electrode needs not be dressed [mm].
    pub(super) usable_mm: f64,
    /// Usable length U alone [mm].
    bare_mm: f64,
    /// Length that one part's holes wear at the median [mm].
    wear_mm: f64,
    /// How many of a part's ends break one.
    broken: BrokenTubes,
    /// Length that one dressing takes [mm].
    dressing_mm: f64,
    /// At the median wear.
    pub(super) median: Demand,
    /// At the ninetieth percentile of wear.
    pub(super) high: Demand,
}

impl TubeLot {
    /// A tube's rows together.
    pub(super) fn new(tube: Idx<Tube>, rows: Vec<Arc<Drilled>>, tables: &Tables) -> Self {
        let start = &tables.start;
        let outer = tube.of(&tables.tubes).map_or(0.0, |tube| tube.outer_mm);
        let usable_mm = rows.first().map_or(0.0, |row| row.drill.usable_mm());
        let mut lot = Self {
            tube,
            thin: outer <= start.thin_tube_mm,
            by_reach: by_reach(&rows),
            usable_mm,
            bare_mm: usable_mm,
            wear_mm: 0.0,
            broken: BrokenTubes::default(),
            dressing_mm: start.dressing_mm,
            median: Demand::default(),
            high: Demand::default(),
            rows,
        };
        for (at, row) in lot.rows.iter().enumerate() {
            let dressing = Dressing::of(row, start.dressing_mm);
            lot.median.add(at, row.holes, &row.at_median, dressing);
            lot.high.add(at, row.holes, &lot.at_high(row), dressing);
            lot.wear_mm += f64::from(row.holes) * row.at_median.wear_mm;
            lot.broken.add(row.ends(), row.drill.breakage());
        }
        lot.usable_mm += lot.median.part.fresh_undressed * start.dressing_mm;
        lot.median.sort();
        lot.high.sort();
        lot
    }

    /// A hole of one of its rows at the ninetieth percentile of wear.
    pub(super) fn at_high(&self, row: &Drilled) -> DrawnHole {
        let wear = libm::exp(Z90 * row.wear_sigma);
        row.drill.at(&Draw {
            wear,
            ..Draw::MEDIAN
        })
    }

    /// Length that dressing takes for one end of a row, on average [mm].
    pub(super) fn dressed_mm(&self, row: &Drilled) -> f64 {
        Dressing::of(row, self.dressing_mm).each_mm()
    }

    /// Uses in a lot that takes so many electrodes of it in all.
    pub(super) fn used(&self, parts: u32, electrodes: u64) -> TubeUse {
        let whole = self.median.used(parts, 0).whole;
        TubeUse {
            whole: whole.min(electrodes),
            ..self.median.used(parts, electrodes.saturating_sub(whole))
        }
    }

    /// What of an electrode's price is lost when it breaks: it breaks half way through what the lot
    /// takes of it, by wear and by dressing, and the rest goes with it.
    ///
    /// At the median wear: where a lot wears more, it takes more electrodes, and each is used as much.
    pub(super) fn broken_rest(&self, parts: u32, electrodes: u64) -> f64 {
        let used = self.used(parts, electrodes);
        let length = electrodes as f64 * self.bare_mm;
        let dressed = used.dressings() as f64 * self.dressing_mm;
        let gone = self.wear_mm * f64::from(parts) + dressed;
        if length > 0.0 {
            1.0 - (gone / length).min(1.0) / 2.0
        } else {
            1.0
        }
    }

    /// Electrodes expected to break in a lot.
    pub(super) fn expected_broken(&self, parts: u32) -> f64 {
        self.broken.expected * f64::from(parts)
    }

    /// Spares that are enough nine times in ten.
    pub(super) fn spares(&self, parts: u32) -> u64 {
        self.broken.spares(parts)
    }

    /// What its rows come to at drawn factors.
    ///
    /// - `parts`: parts in the lot.
    /// - `demand`: where electrodes are counted; its content goes.
    /// - `draw`: each row's factors, by its place; the same for rows of the same deviations.
    /// - `sparking`: factor on all sparking minutes alike.
    /// - `broken`: electrodes that break in each row, by its place.
    /// - `electrodes`: how they are counted.
    pub(super) fn at(
        &self,
        parts: u32,
        demand: &mut Demand,
        draw: impl Fn(usize, &Drilled) -> Draw,
        sparking: f64,
        broken: impl Fn(usize, &Drilled) -> f64,
        electrodes: Electrodes,
    ) -> TubeDrawn {
        let in_lot = f64::from(parts);
        let mut drawn = TubeDrawn::default();
        demand.clear();
        let mut before: Option<DrawnHole> = None;
        for &InReach { at, draws_alike } in &self.by_reach {
            let row = &*self.rows[at];
            let known = before.filter(|_| draws_alike);
            let hole = known.unwrap_or_else(|| row.drill.at(&draw(at, row)));
            before = Some(hole);
            let minutes = hole.sparking_min * sparking + hole.other_min;
            drawn.hole_minutes += f64::from(row.holes) * in_lot * minutes;
            drawn.checks.add(row.checks(in_lot));
            let ends = (row.ends() / f64::from(row.holes.max(1))).max(1.0);
            let broken = broken(at, row);
            drawn.broken_hole_min += broken * minutes / ends / 2.0;
            drawn.broken += broken;
            let dressing = Dressing::of(row, self.dressing_mm);
            demand.add(at, row.holes, &hole, dressing);
        }
        drawn.anew = electrodes == Electrodes::AnewWhereFew && FEW.contains(&demand.kinds.len());
        let shared = if drawn.anew {
            packed_quickly(demand, self.usable_mm, parts)
        } else {
            demand.at_least_sorted(self.usable_mm, parts)
        };
        drawn.used = demand.used(parts, shared);
        drawn
    }
}

/// How electrodes are counted at a wear that is not the median.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Electrodes {
    /// By the lower bound, which is scaled later by what packing needed at the median over the bound
    /// there.
    Bound,
    /// Packed anew where a tube drills a few kinds of ends, else by the bound. One kind needs no
    /// packing; of many there are many electrodes, and one more or less is lost in their spread.
    AnewWhereFew,
}

/// Kinds of ends that are packed anew.
const FEW: core::ops::RangeInclusive<usize> = 2..=12;

/// What a tube's rows come to in a lot at drawn factors.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct TubeDrawn {
    /// Minutes in holes [min].
    pub(super) hole_minutes: f64,
    /// What is checked.
    pub(super) checks: Checks,
    /// Electrodes broken.
    pub(super) broken: f64,
    /// What the holes took until they broke [min].
    pub(super) broken_hole_min: f64,
    /// Uses, with shared electrodes as they were counted.
    used: TubeUse,
    /// They were packed, not only bounded.
    anew: bool,
}

impl TubeDrawn {
    /// Uses, where at the median so many shared electrodes were packed, and so many are the bound.
    pub(super) fn used(&self, packed: u64, bound: u64) -> TubeUse {
        let counted = self.used.shared;
        let shared = if self.anew || bound == 0 {
            counted
        } else {
            libm::round(counted as f64 * packed as f64 / bound as f64) as u64
        };
        TubeUse {
            shared,
            ..self.used
        }
    }
}

/// Shared electrodes of a tube by one quick pass.
fn packed_quickly(demand: &Demand, usable_mm: f64, parts: u32) -> u64 {
    let kinds = demand.in_lot(parts);
    let asked = PackingAsked::new(&kinds, &Electrode::new(usable_mm), Effort::quick());
    // What fits on no electrode spoils one each; its row carries the finding.
    let found = asked.question.answer(&crate::stop::never);
    found.map_or(0, |found| found.needed()) + asked.unplaceable()
}

/// A row's place among those of its tube.
#[derive(Clone, Copy, Debug, PartialEq)]
struct InReach {
    at: usize,
    /// Whatever is drawn, a hole of it comes to the same as one of the row before.
    draws_alike: bool,
}

fn by_reach(rows: &[Arc<Drilled>]) -> Vec<InReach> {
    let mut places: Vec<usize> = (0..rows.len()).collect();
    let reach = |at: usize| rows[at].at_median.target_mm;
    places.sort_by(|&a, &b| reach(b).total_cmp(&reach(a)));
    let mut before: Option<&Arc<Drilled>> = None;
    let places = places.into_iter().map(|at| {
        let row = &rows[at];
        let draws_alike = before.is_some_and(|before| before.draws_as(row));
        before = Some(row);
        InReach { at, draws_alike }
    });
    places.collect()
}

/// Rates of breakage of a tube's ends: their number in one part, how many of them break one, and the
/// least that is known of a rate.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct BrokenTubes {
    ends: f64,
    expected: f64,
    worth_holes: f64,
}

impl BrokenTubes {
    fn add(&mut self, ends: f64, breakage: Breakage) {
        let worth = breakage.worth_holes;
        self.worth_holes = if self.ends > 0.0 {
            self.worth_holes.min(worth)
        } else {
            worth
        };
        self.ends += ends;
        self.expected += ends * breakage.chance;
    }

    fn spares(self, parts: u32) -> u64 {
        if self.ends <= 0.0 {
            return 0;
        }
        let ends = (self.ends * f64::from(parts)) as u64;
        let broken = Breakages::new(ends, self.expected / self.ends, self.worth_holes).at(0.9);
        // The last electrode at the machine breaks as others do, also where one in ten lots sees none.
        (broken as u64).max(1)
    }
}
