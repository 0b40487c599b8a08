//! What is asked of "electrodes for a lot", and what is answered.

use alloc::vec::Vec;

/// Holes alike in reach and consumption.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoleKind {
    /// The caller's name for the kind; comes back in the plan.
    pub id: u32,
    /// Length that must be left when the hole is done [mm].
    pub reach_mm: f64,
    /// Length the hole uses up, dressing included [mm].
    pub consume_mm: f64,
    /// Number of such holes in the lot.
    pub count: u32,
}

/// The electrodes the lot is drilled with, all of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Electrode {
    /// Usable length of a new electrode [mm].
    pub usable_mm: f64,
    /// Usable length of the part-used electrode already in the holder, no longer than a new one
    /// [mm].
    pub part_used_mm: Option<f64>,
}

impl Electrode {
    /// New electrodes only.
    ///
    /// Formula: no part-used electrode.
    ///
    /// - `usable_mm`: usable length of a new one [mm], 0 to 1e9; anything else drills nothing.
    ///
    /// Result: electrode [mm].
    ///
    /// ```
    /// use quillbore_calc::packing::Electrode;
    /// let new = Electrode::new(280.0);
    /// assert_eq!((new.usable_mm, new.part_used_mm), (280.0, None));
    /// ```
    ///
    /// Source: definition.
    #[must_use]
    pub fn new(usable_mm: f64) -> Self {
        Electrode {
            usable_mm,
            part_used_mm: None,
        }
    }
}

/// How long to look for a plan with fewer electrodes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Effort {
    /// Attempts to repack a few electrodes at a time; none once the plan is known to be the fewest.
    pub kicks: u32,
    /// Columns of the linear program behind the better lower bound.
    pub columns: u32,
    /// Start of the random sequence.
    pub seed: u64,
}

impl Effort {
    /// One pass of the simple rules and bounds: for draws by the thousand.
    ///
    /// Formula: no kicks, no columns.
    ///
    /// Result: effort.
    ///
    /// ```
    /// use quillbore_calc::packing::{Effort, Electrode, HoleKind, electrodes_for_lot};
    /// // 280 mm usable: the rules that fill by falling length take 10 where 9 is the fewest.
    /// let wears = [(95.0, 6), (70.0, 9), (62.0, 7), (41.0, 11), (33.0, 10)];
    /// let kinds: Vec<HoleKind> = (0..)
    ///     .zip(wears)
    ///     .map(|(id, (consume_mm, count))| HoleKind { id, reach_mm: 0.0, consume_mm, count })
    ///     .collect();
    /// let plan = electrodes_for_lot(&kinds, &Electrode::new(280.0), &Effort::quick());
    /// assert_eq!((plan.needed, plan.at_least), (10, 9));
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn quick() -> Self {
        Effort {
            kicks: 0,
            columns: 0,
            seed: 1,
        }
    }
}

impl Default for Effort {
    fn default() -> Self {
        Effort {
            kicks: 20_000,
            columns: 1_000,
            seed: 1,
        }
    }
}

/// Which holes go on which electrode.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// What the electrodes drill; the part-used one first if it is used.
    pub electrodes: Vec<Fill>,
    /// New electrodes the plan takes; the part-used one is not counted.
    pub needed: u64,
    /// No plan takes fewer new electrodes than this.
    pub at_least: u64,
    /// Kinds that no electrode can drill in one go.
    pub unplaceable: Vec<Unplaceable>,
}

impl Plan {
    /// Whether it is proved that no plan takes fewer new electrodes, at the wear planned with.
    ///
    /// Formula: the plan takes as many as the bound that no plan goes below.
    ///
    /// Result: yes or no.
    ///
    /// ```
    /// use quillbore_calc::packing::Plan;
    /// let plan = |needed, at_least| Plan { needed, at_least, ..Plan::default() };
    /// assert!(plan(9, 9).none_fewer());
    /// assert!(!plan(10, 9).none_fewer());
    /// ```
    ///
    /// Source: definition of a lower bound.
    #[must_use]
    pub fn none_fewer(&self) -> bool {
        self.needed == self.at_least
    }
}

/// What one electrode drills, for so many electrodes alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// Electrodes that drill just this.
    pub times: u64,
    /// Whether it is the part-used electrode from the holder.
    pub part_used: bool,
    /// Kind and number of holes on each electrode, in drilling order (falling reach).
    pub holes: Vec<(u32, u32)>,
    /// Usable length left on each electrode afterwards [mm].
    pub remnant_mm: f64,
}

/// A kind left out of the plan, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unplaceable {
    /// The kind's id.
    pub id: u32,
    /// How many holes of it.
    pub count: u32,
    /// What stands in the way.
    pub why: WhyUnplaceable,
}

/// Why no electrode can drill a kind in one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyUnplaceable {
    /// Reach, consumption or usable length is negative, or not a number at all.
    NotALength,
    /// Reach and consumption together are longer than a new electrode's usable length.
    LongerThanElectrode,
}
