//! Every figure of a job, from its rows to its price.

mod burnt;
mod flushed;
mod held;
mod lot;
mod own;
mod price;
mod risk;
mod start_hole;
mod steps;

use crate::entry::AtEnds;
use alloc::sync::Arc;
use alloc::vec::Vec;

pub use burnt::BurntFigures;
pub use flushed::Flushed;
pub use held::{HeldInSetup, Moves};
pub use lot::{
    ElectrodeFigures, ElectrodeLoad, GuideFigures, LaborMinutes, LotFigures, MachineMinutes,
    SetupFigures, Stop,
};
pub use own::{Narrowed, OwnFigures};
pub use price::{Break, CostLines, PriceFigures};
pub use risk::{Drivers, Risk, TestBurn};
pub use start_hole::StartHoleFigures;
pub use steps::{FeedSteps, HoleSteps};

pub use crate::chance::{Bought, Chance};
use crate::finding::Finding;
use crate::idx::Idx;
use crate::input::{Checked, Ends, RowId};
use crate::learn::Behind;
use crate::quantity::{Band, Limits, Spread};
use crate::tables::{Guide, Tube};

/// All figures of one job.
#[derive(Clone, Debug, PartialEq)]
pub struct JobFigures {
    /// Per row, in the table's order.
    pub holes: Vec<Arc<HoleFigures>>,
    /// Clampings of one part.
    pub setups: Vec<SetupFigures>,
    /// The lot.
    pub lot: Option<LotFigures>,
    /// The price.
    pub price: Option<PriceFigures>,
    /// Findings about the job and its price; those about rows stand with their rows.
    pub findings: Vec<Finding>,
    /// True once electrodes, travel and spread were searched and drawn for just this job; until
    /// then they are quick estimates, and so is every figure that rests on them.
    pub settled: bool,
}

impl JobFigures {
    /// The records that stand behind the row that has the fewest.
    ///
    /// Formula: the row with the fewest of its own grade.
    ///
    /// Result: counts; `None` where there are no records, or no row has figures.
    ///
    /// ```
    /// use quillbore_calc::assemble::quick;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let figures = quick(&job(vec![through(0.8, 20.0)]), &tables());
    /// assert_eq!((figures.behind(), figures.is_calibrated()), (None, false));
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn behind(&self) -> Option<Behind> {
        let own = self.holes.iter().filter_map(|hole| hole.own.as_ref());
        own.map(|own| own.behind).min_by_key(|behind| behind.grade)
    }

    /// Whether all its figures are called calibrated: burn and wear of every row, and machine hours.
    ///
    /// Formula: [`Narrowed::is_calibrated`] of each.
    ///
    /// Result: true where they are; false where there are no records.
    ///
    /// ```
    /// use quillbore_calc::assemble::quick;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// assert!(!quick(&job(vec![through(0.8, 20.0)]), &tables()).is_calibrated());
    /// ```
    ///
    /// Source: our choice.
    #[must_use]
    pub fn is_calibrated(&self) -> bool {
        let row = |own: &OwnFigures| own.burn.is_calibrated() && own.wear.is_calibrated();
        let mut holes = self.holes.iter();
        let rows = holes.all(|hole| hole.own.as_deref().is_some_and(row));
        let lot = self.lot.as_ref();
        rows && !self.holes.is_empty() && lot.is_none_or(|lot| lot.machine_hours_calibrated)
    }
}

/// The figures of one row; what can't be computed yet is `None`.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleFigures {
    /// Which row.
    pub row: RowId,
    /// Holes of this row in one part.
    pub places: u32,
    /// Lower and upper limit of the diameter [mm].
    pub limits_mm: Option<Limits>,
    /// Depth on the axis [mm].
    pub depth_mm: Option<f64>,
    /// Angle from the surface's normal [deg].
    pub tilt_deg: f64,
    /// The tube.
    pub tube: Option<Idx<Tube>>,
    /// The guide.
    pub guide: Option<Idx<Guide>>,
    /// Gap per side [mm].
    pub gap_mm: Option<Spread>,
    /// Smallest hole at the exit and largest at the entry [mm].
    pub size_mm: Option<Limits>,
    /// How its holes are checked.
    pub checked: Checked,
    /// What a wire finds, where the hole is a start hole.
    pub start_hole: Option<Arc<StartHoleFigures>>,
    /// The verdict against the drawing.
    pub verdict: Option<Verdict>,
    /// Chance that the tube to begin with is right at once.
    pub first_choice: Option<Chance>,
    /// Chance of a hole inside both limits once the first piece is measured, with tubes of the shop.
    pub held: Option<f64>,
    /// A tube to buy, where it holds the limits better than what the shop has.
    pub bought: Option<Bought>,
    /// Holes of this row expected outside the limits in the offered lot.
    pub outside_in_lot: Option<f64>,
    /// Tubes next in size below and above, which the kit carries for the first piece.
    pub neighbors: Vec<Idx<Tube>>,
    /// How a blind depth, or one with a wall behind it, is come to; `None` for all others.
    pub depth_plan: Option<DepthPlan>,
    /// Feed at the face in the first layer, median [mm/min].
    pub feed_mm_min: Option<f64>,
    /// Wear by length, median, mean over the depth [-].
    pub wear_ratio: Option<f64>,
    /// Minutes of one hole [min].
    pub minutes: Option<Band>,
    /// The parts of the median minutes.
    pub minutes_in: Option<MinutesIn>,
    /// Entry and exit zone [mm].
    pub zones_mm: Option<AtEnds<f64>>,
    /// Longer axis of the mouth ellipse [mm].
    pub mouth_mm: Option<f64>,
    /// Length of electrode lost in one hole, median [mm].
    pub wear_mm: Option<f64>,
    /// The same at its ninetieth percentile [mm].
    pub wear_high_mm: Option<f64>,
    /// Dressings before each end, on average [-].
    pub dressings: f64,
    /// Overtravel past the exit [mm].
    pub overtravel_mm: Option<f64>,
    /// Depth that the tip must reach, from the guide [mm]; from one end.
    ///
    /// The stand-off is in it, and it is also in the length held back: what is compared with the
    /// usable length is this depth less the stand-off.
    pub target_depth_mm: Option<f64>,
    /// The setting: travel from touch-off at which the machine is set to stop, median wear made up
    /// for [mm]. How far the tip goes is the target depth less the stand-off.
    pub machine_depth_mm: Option<f64>,
    /// How far before the axis crosses the surface the tool touches it, at the ends that it begins from
    /// [mm]: on a slope a square end touches with its edge. Settings count from there.
    pub touch_mm: AtEnds<f64>,
    /// Free distance behind the exit [mm]: as typed, else across the bore that the hole opens into.
    pub behind_mm: Option<f64>,
    /// Stand-off of the guide from the work [mm]: the machine's own, or as much as the head needs.
    pub stand_off_mm: Option<f64>,
    /// How the flush flows; rows alike share it.
    pub flush: Option<Arc<Flushed>>,
    /// What makes it another burn than one plunge into full metal; `None` where nothing does.
    pub burnt: Option<Arc<BurntFigures>>,
    /// What it pushes the part with at most [N].
    pub push_n: Option<f64>,
    /// The settings of a hole from both ends, from its entry and from its exit, median wear made up for [mm].
    pub half_settings_mm: Option<[f64; 2]>,
    /// Usable length U of the electrode [mm].
    pub usable_mm: Option<f64>,
    /// Length of a new electrode as it goes into the machine, from its end in the chuck [mm]: what stroke
    /// and machine can't use is cut off before.
    pub mounted_mm: Option<f64>,
    /// Depth that one electrode reaches [mm].
    pub reach_one_mm: Option<f64>,
    /// Depth of hole that no number of electrodes passes, from both ends together where it is
    /// drilled from both [mm].
    pub limit_mm: Option<f64>,
    /// Electrodes in one hole, one after another, over all its ends.
    pub electrodes_per_hole: Option<u32>,
    /// Ends that it is drilled from.
    pub ends: Option<Ends>,
    /// What the figures above were worked out by; rows alike share it.
    pub steps: Arc<HoleSteps>,
    /// What the shop's own records make of them; `None` where there are no records.
    pub own: Option<Arc<OwnFigures>>,
    /// Findings about this row.
    pub findings: Vec<Finding>,
}

/// The parts of a hole's minutes [min].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MinutesIn {
    /// Touch-off.
    pub touch_off: f64,
    /// Entry zone.
    pub entry: f64,
    /// Full metal.
    pub full_metal: f64,
    /// Exit zone.
    pub exit: f64,
    /// Overtravel.
    pub overtravel: f64,
    /// Retract.
    pub retract: f64,
    /// Electrode changes inside the hole.
    pub changes: f64,
}

impl MinutesIn {
    /// All of them together.
    ///
    /// Formula: sum of the parts.
    ///
    /// Result: minutes [min].
    ///
    /// ```
    /// use quillbore_calc::job_figures::MinutesIn;
    /// let hole = MinutesIn {
    ///     touch_off: 0.25, entry: 0.5, full_metal: 2.0, exit: 0.5, overtravel: 0.125, retract: 0.125,
    ///     changes: 3.0,
    /// };
    /// assert_eq!(hole.sum(), 6.5);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.touch_off
            + self.entry
            + self.full_metal
            + self.exit
            + self.overtravel
            + self.retract
            + self.changes
    }

    /// The part that goes with the feed.
    ///
    /// Formula: entry, full metal, exit and overtravel together.
    ///
    /// Result: minutes [min].
    ///
    /// ```
    /// use quillbore_calc::job_figures::MinutesIn;
    /// let hole = MinutesIn {
    ///     touch_off: 0.25, entry: 0.5, full_metal: 2.0, exit: 0.5, overtravel: 0.125, retract: 0.125,
    ///     changes: 3.0,
    /// };
    /// assert_eq!(hole.sparking(), 3.125);
    /// ```
    ///
    /// Source: definition.
    #[must_use]
    pub fn sparking(&self) -> f64 {
        self.entry + self.full_metal + self.exit + self.overtravel
    }
}

/// How a depth that is only as sure as the wear is come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthPlan {
    /// The setting of the first try: the target at the wear that one lot in fifty stays under [mm].
    pub first_try_mm: f64,
    /// How far the tip may go at most from where it touched [mm].
    pub never_beyond_mm: f64,
    /// Each hole is drilled to 80 percent, touched off and corrected.
    pub two_steps: bool,
    /// How far holes still scatter in depth about the lot, to either side (P90), as planned [mm].
    pub scatter_mm: f64,
    /// How far they may: the depth's tolerance, or the room to the wall behind [mm].
    pub allowed_mm: f64,
}

/// The verdict on a hole's size against the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Both limits hold with room to spare.
    Comfortable,
    /// Both limits hold, or the lower nearly does.
    Tight,
    /// More likely than not inside, but not to be promised.
    NotToBePromised,
    /// Not to be held with any tube of the shop.
    NotHeld,
}
