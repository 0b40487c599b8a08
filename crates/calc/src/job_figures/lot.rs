//! The figures of clampings and lot.

use alloc::vec::Vec;

use super::held::HeldInSetup;
use crate::idx::Idx;
use crate::mount::Mount;
use crate::quantity::Band;
use crate::row_id::RowId;
use crate::tables::{Guide, Tube};

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
    /// How the part is clamped.
    pub mount: Mount,
    /// What holds the part against the flush; `None` where size, mass or what it stands on are not known.
    pub held: Option<HeldInSetup>,
    /// What is drilled, in drilling order.
    pub order: Vec<Stop>,
}

/// An end of a hole in its place in the drilling order, or of all holes of a row without places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stop {
    /// The row.
    pub row: RowId,
    /// Which of the row's places; `None` where they are not given.
    pub place: Option<usize>,
    /// Drilled from the far end.
    pub far: bool,
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
    /// Whether the shop's records make the machine hours so sure that they are called calibrated.
    pub machine_hours_calibrated: bool,
    /// The same of the labor hours.
    pub labor_hours_calibrated: bool,
    /// Machine minutes by kind, median [min].
    pub machine: MachineMinutes,
    /// Labor minutes by kind, median [min].
    pub labor: LaborMinutes,
    /// Machine minutes in the holes of each row, in the table's order, median [min].
    pub hole_minutes: Vec<f64>,
    /// Electrodes by tube.
    pub electrodes: Vec<ElectrodeFigures>,
    /// Guides, in the order of the shop's tables.
    pub guides: Vec<GuideFigures>,
    /// Of each clamping whether each part gets all of it before the next one is loaded; otherwise the
    /// lot is gone through once for each tube and tilt.
    pub part_by_part: Vec<bool>,
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
    /// Masking and taking it off again.
    pub masking: f64,
    /// Washing and drying.
    pub wash: f64,
    /// Checking by pin, and that holes are open.
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
    ///     receive: 10.0, set_up: 54.0, handling: 224.0, stand_by: 121.0, masking: 0.0, wash: 20.0,
    ///     inspect: 25.0, pack: 10.0,
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
            + self.masking
            + self.wash
            + self.inspect
            + self.pack
    }
}

/// Guides of one kind for the lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GuideFigures {
    /// The guide.
    pub guide: Idx<Guide>,
    /// Ends of holes that are drilled through it, whichever electrode drills them.
    pub ends: u64,
    /// Guides that these wear out by their life, the last one begun.
    pub needed: u32,
}

/// Electrodes of one tube for the lot.
#[derive(Clone, Debug, PartialEq)]
pub struct ElectrodeFigures {
    /// The tube.
    pub tube: Idx<Tube>,
    /// Ends of holes that it drills in the lot.
    pub ends: u64,
    /// Needed in the order of the work, changed where what is left no longer reaches, at the median
    /// wear: those of the plan, and those that are priced.
    pub needed: u32,
    /// Fewest found in any order, at the median wear.
    pub fewest: u32,
    /// No plan can do with fewer, at the median wear.
    pub at_least: u32,
    /// Needed at the ninetieth percentile of wear.
    pub if_wear_high: u32,
    /// Needed at the ninetieth percentile of wear, plus spares for breakage, at least one.
    pub kit: u32,
    /// Breakages expected in the lot.
    pub breakages: f64,
    /// Spares for breakage in the kit.
    pub spares: u32,
    /// Spread of the number needed.
    pub band: Band,
    /// What is drilled on which electrode in the order of the work, at the median wear: the first 400
    /// unlike ones.
    pub plan: Vec<ElectrodeLoad>,
}

/// One electrode, or several alike, and what it drills.
#[derive(Clone, Debug, PartialEq)]
pub struct ElectrodeLoad {
    /// How many electrodes are loaded alike.
    pub times: u32,
    /// Rows and number of holes, as they begin in the order of the work.
    pub holes: Vec<(RowId, u32)>,
    /// In which clamping each of these is drilled, counted from 0.
    pub setups: Vec<usize>,
    /// Length left to use after the last hole [mm].
    pub left_mm: f64,
}
