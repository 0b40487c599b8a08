//! Every figure of a job, from its rows to its price.

use alloc::string::String;
use alloc::sync::Arc;
use alloc::vec::Vec;

use rust_decimal::Decimal;

pub use crate::chance::{Bought, Chance};
use crate::finding::Finding;
use crate::input::{Ends, RowId};
use crate::quantity::{Band, Spread};

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

/// The figures of one row; what can't be computed yet is `None`.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleFigures {
    /// Which row.
    pub row: RowId,
    /// Holes of this row in one part.
    pub places: u32,
    /// Lower and upper limit of the diameter [mm].
    pub limits_mm: Option<[f64; 2]>,
    /// Depth on the axis [mm].
    pub depth_mm: Option<f64>,
    /// Angle from the surface's normal [deg].
    pub tilt_deg: f64,
    /// Index of the tube in the tables.
    pub tube: Option<usize>,
    /// Index of the guide in the tables.
    pub guide: Option<usize>,
    /// Gap per side [mm].
    pub gap_mm: Option<Spread>,
    /// Smallest hole at the exit and largest at the entry [mm].
    pub size_mm: Option<[f64; 2]>,
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
    /// Tubes next in size below and above, which the kit carries for the first piece; indexes in
    /// the tables.
    pub neighbors: Vec<usize>,
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
    pub zones_mm: Option<[f64; 2]>,
    /// Longer axis of the mouth ellipse [mm].
    pub mouth_mm: Option<f64>,
    /// Length of electrode lost in one hole, median [mm].
    pub wear_mm: Option<f64>,
    /// The same at its ninetieth percentile [mm].
    pub wear_high_mm: Option<f64>,
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
    /// Usable length U of the electrode [mm].
    pub usable_mm: Option<f64>,
    /// Depth that one electrode reaches [mm].
    pub reach_one_mm: Option<f64>,
    /// Depth of hole that no number of electrodes passes, from both ends together where it is
    /// drilled from both [mm].
    pub limit_mm: Option<f64>,
    /// Electrodes in one hole, one after another, over all its ends.
    pub electrodes_per_hole: Option<u32>,
    /// Ends that it is drilled from.
    pub ends: Option<Ends>,
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
    /// How far the tip may go from the work's surface at most [mm].
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

/// One clamping of the part.
#[derive(Clone, Debug, PartialEq)]
pub struct SetupFigures {
    /// Directions drilled in it.
    pub directions: u32,
    /// Rows drilled in it, whole or in part.
    pub rows: Vec<RowId>,
    /// Holes drilled in it.
    pub holes: u32,
    /// True where the part is turned over for it.
    pub turned_over: bool,
    /// Index moves for one part.
    pub index_moves: u32,
    /// Tilts of head or table for one part.
    pub tilts: u32,
    /// Guide changes: tube sizes drilled in it, less one.
    pub guide_changes: u32,
    /// Stretches with one tube at one tilt.
    pub passes: u32,
    /// Table travel for one part [mm]; `None` where places are not given.
    pub travel_mm: Option<f64>,
    /// Rows and numbers of places in drilling order; number 0 for a row without places.
    pub order: Vec<(RowId, u32)>,
}

/// The figures of the lot.
#[derive(Clone, Debug, PartialEq)]
pub struct LotFigures {
    /// Parts.
    pub quantity: u32,
    /// Machine hours [h].
    pub machine_hours: Band,
    /// Labor hours [h].
    pub labor_hours: Band,
    /// Machine minutes by kind, median [min].
    pub machine: MachineMinutes,
    /// Labor minutes by kind, median [min].
    pub labor: LaborMinutes,
    /// Electrodes by tube.
    pub electrodes: Vec<ElectrodeFigures>,
}

/// Machine minutes of a lot by kind [min].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MachineMinutes {
    /// Setting up.
    pub set_up: f64,
    /// First piece.
    pub first_piece: f64,
    /// Loading and unloading.
    pub load: f64,
    /// Index and tilt moves.
    pub index: f64,
    /// Turn-overs.
    pub turn_over: f64,
    /// Table travel.
    pub travel: f64,
    /// In the holes.
    pub holes: f64,
    /// Electrode changes between holes.
    pub electrode_changes: f64,
    /// Guide changes.
    pub guide_changes: f64,
    /// Dressing.
    pub dressing: f64,
    /// Broken electrodes: their change, and half a hole each.
    pub breakages: f64,
}

impl MachineMinutes {
    /// All of them together.
    ///
    /// Formula: sum of the kinds.
    ///
    /// Result: minutes [min].
    ///
    /// ```
    /// use quillbore_calc::job_figures::MachineMinutes;
    /// let lot = MachineMinutes {
    ///     set_up: 40.0, first_piece: 14.0, load: 60.0, index: 29.0, turn_over: 20.0, travel: 2.0,
    ///     holes: 300.0, electrode_changes: 30.0, guide_changes: 7.0, dressing: 63.0, breakages: 16.0,
    /// };
    /// assert_eq!(lot.sum(), 581.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.set_up
            + self.first_piece
            + self.load
            + self.index
            + self.turn_over
            + self.travel
            + self.holes
            + self.electrode_changes
            + self.guide_changes
            + self.dressing
            + self.breakages
    }
}

/// Labor minutes of a lot by kind [min].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LaborMinutes {
    /// Receiving and checking.
    pub receive: f64,
    /// Setting up and first piece.
    pub set_up: f64,
    /// Loading, turning over, electrode and guide changes by hand.
    pub handling: f64,
    /// Standing by the running machine.
    pub stand_by: f64,
    /// Washing and drying.
    pub wash: f64,
    /// Checking by pin.
    pub inspect: f64,
    /// Packing.
    pub pack: f64,
}

impl LaborMinutes {
    /// All of them together.
    ///
    /// Formula: sum of the kinds.
    ///
    /// Result: minutes [min].
    ///
    /// ```
    /// use quillbore_calc::job_figures::LaborMinutes;
    /// let lot = LaborMinutes {
    ///     receive: 10.0, set_up: 54.0, handling: 224.0, stand_by: 121.0, wash: 20.0, inspect: 25.0,
    ///     pack: 10.0,
    /// };
    /// assert_eq!(lot.sum(), 464.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.receive
            + self.set_up
            + self.handling
            + self.stand_by
            + self.wash
            + self.inspect
            + self.pack
    }
}

/// Electrodes of one tube for the lot.
#[derive(Clone, Debug, PartialEq)]
pub struct ElectrodeFigures {
    /// Index of the tube in the tables.
    pub tube: usize,
    /// Fewest found, at the median wear.
    pub needed: u32,
    /// No plan can do with fewer, at the median wear.
    pub at_least: u32,
    /// Needed at the ninetieth percentile of wear.
    pub if_wear_high: u32,
    /// Needed at the ninetieth percentile of wear, plus spares for breakage.
    pub kit: u32,
    /// Breakages expected in the lot.
    pub breakages: f64,
    /// Spares for breakage in the kit.
    pub spares: u32,
    /// Spread of the number needed.
    pub band: Band,
    /// What is drilled on which electrode, at the median wear.
    pub plan: Vec<ElectrodeLoad>,
    /// Electrodes where each hole is drilled in the table's order, changing when it no longer reaches.
    pub by_order: u32,
}

/// One electrode, or several alike, and what it drills.
#[derive(Clone, Debug, PartialEq)]
pub struct ElectrodeLoad {
    /// How many electrodes are loaded alike.
    pub times: u32,
    /// Rows and number of holes, in drilling order.
    pub holes: Vec<(RowId, u32)>,
    /// Length left to use after the last hole [mm].
    pub left_mm: f64,
}

/// The price of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceFigures {
    /// ISO 4217 code.
    pub currency: String,
    /// Cost lines of the lot at the offered quantity [currency].
    pub cost: CostLines,
    /// Spread of the full cost of the lot, its P50 at the median of everything [currency].
    pub lot_cost: Band,
    /// Expected full cost of the lot, on which the price rests: all cost lines together [currency].
    pub expected_cost: f64,
    /// The offered quantity and then the others, each priced by the same engine.
    pub breaks: Vec<Break>,
    /// One-off charges as priced.
    pub one_off: Vec<(String, Decimal)>,
    /// Margin on price, 0 to below 1.
    pub margin: f64,
    /// Markup on cost that this margin comes to.
    pub markup: f64,
}

/// Cost lines of a lot [currency].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CostLines {
    /// Machine.
    pub machine: f64,
    /// Labor.
    pub labor: f64,
    /// Electrodes.
    pub electrodes: f64,
    /// Guides, by their life in holes.
    pub guides: f64,
    /// Dielectric, filters and resin.
    pub dielectric: f64,
    /// Power.
    pub power: f64,
    /// Outside work.
    pub outside: f64,
    /// Breakage and redo.
    pub redo: f64,
    /// The customer's part at risk.
    pub part_risk: f64,
    /// Not yet known: expected cost beyond the cost at the medians.
    pub not_yet_known: f64,
}

impl CostLines {
    /// All of them together.
    ///
    /// Formula: sum of the lines.
    ///
    /// Result: cost [currency].
    ///
    /// ```
    /// use quillbore_calc::job_figures::CostLines;
    /// let lot = CostLines {
    ///     machine: 400.0, labor: 180.0, electrodes: 20.0, guides: 4.0, dielectric: 30.0, power: 20.0,
    ///     outside: 50.0, redo: 30.0, part_risk: 6.0, not_yet_known: 60.0,
    /// };
    /// assert_eq!(lot.sum(), 800.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.machine
            + self.labor
            + self.electrodes
            + self.guides
            + self.dielectric
            + self.power
            + self.outside
            + self.redo
            + self.part_risk
            + self.not_yet_known
    }
}

/// One quantity and its price.
#[derive(Clone, Debug, PartialEq)]
pub struct Break {
    /// Parts.
    pub quantity: u32,
    /// Full cost of one part [currency].
    pub unit_cost: f64,
    /// Price of one part, rounded half away from zero.
    pub each: Decimal,
    /// Price of the lot: the unit price extended.
    pub lot: Decimal,
    /// True where the minimum charge decided it.
    pub minimum: bool,
    /// True where the unit price was overruled.
    pub overruled: bool,
}
