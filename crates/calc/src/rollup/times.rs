//! Times of handling at a pace.

use crate::quantity::{Pace, Spread};
use crate::tables::{Machine, StartValues};

/// Minutes of each thing that is done by count, and the machine's ways that decide whose they are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Times {
    /// Setting up one clamping [min].
    pub set_up: f64,
    /// Turning over to the opposite of an earlier clamping, in place of setting up [min].
    pub turn_over: f64,
    /// First piece of one clamping [min].
    pub first_piece: f64,
    /// Loading and unloading one part [min].
    pub load: f64,
    /// One index move [min].
    pub index: f64,
    /// One tilt [min].
    pub tilt: f64,
    /// Changing an electrode [min].
    pub change: f64,
    /// The same for a thin one [min].
    pub change_thin: f64,
    /// One guide change [min].
    pub guide_change: f64,
    /// Dressing one tip [min].
    pub dressing: f64,
    /// Receiving and checking one lot [min].
    pub receive: f64,
    /// Washing and drying one part [min].
    pub wash: f64,
    /// Checking one hole by pin [min].
    pub pin_check: f64,
    /// Seeing light through one hole [min].
    pub light_check: f64,
    /// Putting a wire or a pin through one hole [min].
    pub wire_check: f64,
    /// Checking one hole by air [min].
    pub air_check: f64,
    /// Packing one part [min].
    pub pack: f64,
    /// Rapid speed of the table [mm/min].
    pub table_mm_min: f64,
    /// Share of its running time that a person stands by the machine, 0 to 1.
    pub attended: f64,
    /// True where the machine changes electrodes by itself.
    pub changer: bool,
}

impl Times {
    /// The start values at a pace, each as wide as handling is at least.
    ///
    /// Formula: each band widened about its median to the deviation of handling, where that is more,
    /// and read at the pace. Electrodes are changed by the changer where there is one.
    ///
    /// - `start`: start values; their times are bands [min].
    /// - `machine`: for its changer, its table's speed [mm/min] and the share of its time that is
    ///   attended [-], held to 0 to 1.
    /// - `pace`: median, mean, or so many deviations off.
    ///
    /// Result: times [min], speed [mm/min], share [-].
    ///
    /// ```
    /// use quillbore_calc::quantity::Pace;
    /// use quillbore_calc::rollup::Times;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # let tables = shop::tables();
    /// // Setting up 30 to 60 min: median 42.4264, deviation ln 2 / 2.5631 = 0.2704. Handling is off by
    /// // sqrt(0.35^2 + 0.20^2) = 0.4031, so the mean is 42.4264 exp(0.4031^2 / 2).
    /// let set_up = |pace| Times::new(&tables.start, &tables.machines[0], pace).set_up;
    /// assert!((set_up(Pace::Median) - 42.4264).abs() < 0.00005);
    /// assert!((set_up(Pace::Mean) - 46.0175).abs() < 0.00005);
    /// ```
    ///
    /// Source: moments of the lognormal; the times by common practice, no source.
    #[must_use]
    pub fn new(start: &StartValues, machine: &Machine, pace: Pace) -> Self {
        let widest = start.deviations.handling();
        let of = |spread: Spread| spread.at_least(widest).pick(pace);
        let [change, change_thin] = if machine.changer {
            [start.change_by_changer_min; 2]
        } else {
            [start.change_by_hand_min, start.change_thin_min]
        };
        Self {
            set_up: of(start.setup_min),
            turn_over: of(start.turn_over_min),
            first_piece: of(start.first_piece_min),
            load: of(start.load_min),
            index: of(start.index_min),
            tilt: of(start.tilt_min),
            change: of(change),
            change_thin: of(change_thin),
            guide_change: of(start.guide_change_min),
            dressing: of(start.dressing_min),
            receive: of(start.receive_min),
            wash: of(start.wash_min),
            pin_check: of(start.pin_check_min),
            light_check: of(start.light_check_min),
            wire_check: of(start.wire_check_min),
            air_check: of(start.air_check_min),
            pack: of(start.pack_min),
            table_mm_min: machine.table_rapid_mm_min,
            attended: machine.attended.clamp(0.0, 1.0),
            changer: machine.changer,
        }
    }
}
