//! The lot's minutes: counts times times, kind by kind, machine and labor apart.

mod checked;
mod times;

pub(crate) use checked::Checks;
pub use checked::Proved;
pub use times::Times;

use crate::job_figures::{LaborMinutes, MachineMinutes, SetupFigures};

/// How often everything is done in a lot.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Counts {
    /// Parts.
    pub parts: u64,
    /// Clampings that are set up.
    pub set_ups: u64,
    /// Clampings that an earlier one is turned over to.
    pub turn_overs: u64,
    /// Times that a part is loaded.
    pub loads: u64,
    /// Index moves.
    pub index_moves: u64,
    /// Tilts.
    pub tilts: u64,
    /// Guide changes.
    pub guide_changes: u64,
    /// Table travel [mm].
    pub travel_mm: f64,
    /// Ends of holes that are checked by pin: a hole drilled from both is checked from both.
    pub ends: u64,
    /// Holes that are proved open by something else.
    pub proved: Proved,
    /// Masking the parts and taking it off again [min].
    pub masking_min: f64,
    /// Minutes in the holes, electrode changes inside them included [min].
    pub hole_minutes: f64,
    /// Electrode changes inside the holes.
    pub inside: Changes,
    /// Electrode changes between the holes.
    pub between: Changes,
    /// Dressings.
    pub dressings: u64,
    /// Electrodes broken.
    pub broken: Broken,
    /// Minutes in holes that broken electrodes leave for nothing [min].
    pub broken_hole_min: f64,
}

/// Electrodes broken, thin ones apart; what is expected, so not whole ones.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Broken {
    /// Thin tubes.
    pub thin: f64,
    /// All others.
    pub other: f64,
}

impl Broken {
    /// Adds those of one tube.
    pub(crate) fn add(&mut self, broken: f64, thin: bool) {
        if thin {
            self.thin += broken;
        } else {
            self.other += broken;
        }
    }
}

/// Electrode changes, thin tubes apart.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Changes {
    /// Of thin tubes.
    pub thin: u64,
    /// Of all others.
    pub other: u64,
}

impl Changes {
    /// Adds changes of one tube.
    ///
    /// Formula: added to those of thin tubes or to all others, and held at the largest number there
    /// is.
    ///
    /// - `changes`: how many more, 0 and up.
    /// - `thin`: whether the tube counts as thin.
    ///
    /// ```
    /// use quillbore_calc::rollup::Changes;
    /// let mut changes = Changes { thin: 3, other: 6 };
    /// changes.add(2, true);
    /// assert_eq!(changes, Changes { thin: 5, other: 6 });
    /// ```
    ///
    /// Source: arithmetic.
    pub fn add(&mut self, changes: u64, thin: bool) {
        let kind = if thin {
            &mut self.thin
        } else {
            &mut self.other
        };
        *kind = kind.saturating_add(changes);
    }

    fn minutes(self, times: &Times) -> f64 {
        self.thin as f64 * times.change_thin + self.other as f64 * times.change
    }
}

/// Counts that come from clamping `parts` parts as `setups` say.
///
/// Formula: per clamping one setting up, or one turn-over where it is the opposite of an earlier
/// one, and one first piece; each part is loaded once, index moves and travel go by the part. With
/// several tubes or tilts in a clamping either each part gets all of them, `parts x (guide changes
/// + tilts)`, or the lot is run once for each and every part is loaded again each time,
/// `parts x (passes - 1)` more loads: whichever takes less.
///
/// - `setups`: clampings of one part; travel [mm] where known.
/// - `parts`: parts in the lot, 0 and up.
/// - `times`: minutes of load, tilt and guide change [min], to choose by.
///
/// Result: counts; those of holes and electrodes are left at 0.
///
/// ```
/// # use quillbore_calc::rollup::setup_counts;
/// # let times = quillbore_calc::rollup::Times {
/// #     set_up: 40.0, turn_over: 20.0, first_piece: 7.0, load: 3.0, index: 0.1, tilt: 12.0,
/// #     change: 2.0, change_thin: 5.0, guide_change: 7.0, dressing: 0.7, receive: 10.0, wash: 2.0,
/// #     pin_check: 0.2, light_check: 0.1, wire_check: 0.2, air_check: 0.3, pack: 1.0, table_mm_min: 2000.0, attended: 0.5, changer: false,
/// # };
/// # let setup = quillbore_calc::job_figures::SetupFigures {
/// #     directions: 1, rows: vec![], holes: 2, turned_over: false, index_moves: 0, tilts: 0,
/// #     guide_changes: 1, passes: 2, travel_mm: None, order: vec![],
/// #     mount: quillbore_calc::mount::Mount::Lying([1.0, 0.0, 0.0]),
/// #     held: None,
/// # };
/// // Two tubes: one part gets both at once, a hundred are loaded twice (3 min against 7).
/// assert_eq!(setup_counts(&[setup.clone()], 1, &times).loads, 1);
/// assert_eq!(setup_counts(&[setup], 100, &times).loads, 200);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn setup_counts(setups: &[SetupFigures], parts: u32, times: &Times) -> Counts {
    let number = u64::from(parts);
    let mut counts = Counts {
        parts: number,
        ..Counts::default()
    };
    for setup in setups {
        let (guide_changes, tilts) = (u64::from(setup.guide_changes), u64::from(setup.tilts));
        let (times_changed, loads) = if part_by_part(setup, parts, times) {
            (number, number)
        } else {
            (1, number * u64::from(setup.passes.max(1)))
        };
        counts.set_ups += u64::from(!setup.turned_over);
        counts.turn_overs += u64::from(setup.turned_over);
        counts.loads += loads;
        counts.index_moves += number * u64::from(setup.index_moves);
        counts.tilts += times_changed * tilts;
        counts.guide_changes += times_changed * guide_changes;
        counts.travel_mm += number as f64 * setup.travel_mm.unwrap_or(0.0);
    }
    counts
}

/// Whether each part of a lot gets all of a clamping before the next one is loaded; otherwise the lot is
/// gone through once for each tube and tilt.
///
/// Formula: `n c <= c + n (p - 1) l`, with the minutes c of a part's guide changes and tilts, the passes
/// p and the minutes l of a load.
///
/// - `setup`: the clamping, of one part.
/// - `parts`: parts n in the lot, 0 and up.
/// - `times`: minutes of load, tilt and guide change [min].
///
/// Result: true where part by part takes no longer.
///
/// ```
/// # use quillbore_calc::rollup::part_by_part;
/// # let times = quillbore_calc::rollup::Times {
/// #     set_up: 40.0, turn_over: 20.0, first_piece: 7.0, load: 3.0, index: 0.1, tilt: 12.0,
/// #     change: 2.0, change_thin: 5.0, guide_change: 7.0, dressing: 0.7, receive: 10.0, wash: 2.0,
/// #     pin_check: 0.2, light_check: 0.1, wire_check: 0.2, air_check: 0.3, pack: 1.0, table_mm_min: 2000.0, attended: 0.5, changer: false,
/// # };
/// # let setup = quillbore_calc::job_figures::SetupFigures {
/// #     directions: 1, rows: vec![], holes: 2, turned_over: false, index_moves: 0, tilts: 0,
/// #     guide_changes: 1, passes: 2, travel_mm: None, order: vec![],
/// #     mount: quillbore_calc::mount::Mount::Lying([1.0, 0.0, 0.0]),
/// #     held: None,
/// # };
/// // A guide change of 7 min: two parts change it twice, 14 min, where once and two more loads are
/// // 13; one part is never loaded twice.
/// assert_eq!([1, 2, 25].map(|parts| part_by_part(&setup, parts, &times)), [true, false, false]);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn part_by_part(setup: &SetupFigures, parts: u32, times: &Times) -> bool {
    let guides = f64::from(setup.guide_changes) * times.guide_change;
    let changing = guides + f64::from(setup.tilts) * times.tilt;
    let parts = f64::from(parts);
    let again = parts * f64::from(setup.passes.saturating_sub(1));
    parts * changing <= changing + again * times.load
}

/// What one tube drills in a lot.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TubeUse {
    /// Ends of holes drilled with it.
    pub ends: u64,
    /// Those of them that take several electrodes, one after another.
    pub chained: u64,
    /// Electrodes used up whole inside holes.
    pub whole: u64,
    /// Electrodes that finish holes, shared among them.
    pub shared: u64,
    /// Dressings that its ends ask for, a fresh electrode's too.
    pub dressed: f64,
    /// Dressings that a fresh electrode needs not.
    pub fresh_undressed: f64,
}

impl TubeUse {
    /// Electrodes of this tube for the lot.
    #[must_use]
    pub const fn electrodes(&self) -> u64 {
        self.whole.saturating_add(self.shared)
    }

    /// Electrode changes between holes.
    ///
    /// A chained end starts on a fresh electrode, so each asks for one change before it; the
    /// others share what electrodes there are beyond those that chains end on. The first
    /// electrode goes in with its guide.
    ///
    /// Formula: `chained + max(shared - chained, 1 where any end is not chained) - 1`, no term below
    /// 0.
    ///
    /// Result: changes.
    ///
    /// ```
    /// use quillbore_calc::rollup::TubeUse;
    /// let plain = TubeUse { ends: 100, shared: 9, ..TubeUse::default() };
    /// assert_eq!(plain.changes_between(), 8);
    /// // Two deep holes of three electrodes each: two changes inside each, one between them.
    /// let deep = TubeUse { ends: 2, chained: 2, whole: 4, shared: 2, ..TubeUse::default() };
    /// assert_eq!(deep.changes_between(), 1);
    /// ```
    ///
    /// Source: ours, by counting.
    #[must_use]
    pub fn changes_between(&self) -> u64 {
        let plain = self.ends.saturating_sub(self.chained);
        let for_plain = self.shared.saturating_sub(self.chained).max(plain.min(1));
        (self.chained + for_plain).saturating_sub(1)
    }

    /// Dressings: what the ends ask for, less what fresh electrodes need not.
    ///
    /// Formula: `dressed - shared x fresh undressed`, not below 0, rounded down.
    ///
    /// Result: dressings.
    ///
    /// ```
    /// use quillbore_calc::rollup::TubeUse;
    /// // 20 holes on 2 electrodes, dressed before every third: before the 4th, 7th and 10th of each.
    /// let third = 1.0 / 3.0;
    /// let used = TubeUse {
    ///     ends: 20, shared: 2, dressed: 20.0 * third, fresh_undressed: third, ..TubeUse::default()
    /// };
    /// assert_eq!(used.dressings(), 6);
    /// ```
    ///
    /// Source: ours, by counting.
    #[must_use]
    pub fn dressings(&self) -> u64 {
        let dressings = self.dressed - self.shared as f64 * self.fresh_undressed;
        libm::floor(dressings.max(0.0) + 1e-9) as u64
    }

    /// Adds this tube's changes and dressings to a lot's counts.
    ///
    /// Formula: electrodes used up whole are changes inside holes; changes between holes and dressings
    /// as above.
    ///
    /// - `counts`: of the lot so far.
    /// - `thin`: whether the tube counts as thin.
    ///
    /// ```
    /// use quillbore_calc::rollup::{Changes, Counts, TubeUse};
    /// let mut counts = Counts::default();
    /// // Two deep holes of three electrodes each, dressed before each hole but on a fresh electrode.
    /// let deep = TubeUse {
    ///     ends: 2, chained: 2, whole: 4, shared: 2, dressed: 2.0, fresh_undressed: 1.0,
    /// };
    /// deep.add_to(&mut counts, false);
    /// assert_eq!(counts.inside, Changes { thin: 0, other: 4 });
    /// assert_eq!(counts.between, Changes { thin: 0, other: 1 });
    /// assert_eq!(counts.dressings, 0);
    /// ```
    ///
    /// Source: ours, by counting.
    pub fn add_to(&self, counts: &mut Counts, thin: bool) {
        counts.inside.add(self.whole, thin);
        counts.between.add(self.changes_between(), thin);
        counts.dressings += self.dressings();
    }
}

/// Machine and labor minutes of a lot.
///
/// Formula: every count times its time. Machine: set up, first piece, load, index and tilt,
/// turn-over, travel, holes, electrode changes between holes, guide changes, dressing, breakages
/// (the change, and half a hole each). Labor:
/// receive, set up with first piece, handling (load, turn-over, tilt, guide changes, and electrode
/// changes and dressing where there is no changer), stand-by (attended share of the rest of the
/// machine's running), masking, wash, inspect (every end of a hole by pin, every hole that is proved open
/// otherwise by that), pack.
///
/// - `counts`: how often everything is done.
/// - `times`: how long each takes [min].
///
/// Result: machine and labor minutes by kind [min].
///
/// ```
/// # use quillbore_calc::rollup::{Counts, Times, roll_up};
/// # let times = Times {
/// #     set_up: 40.0, turn_over: 20.0, first_piece: 7.0, load: 3.0, index: 0.1, tilt: 12.0,
/// #     change: 2.0, change_thin: 5.0, guide_change: 7.0, dressing: 0.7, receive: 10.0, wash: 2.0,
/// #     pin_check: 0.25, light_check: 0.1, wire_check: 0.2, air_check: 0.3, pack: 1.0, table_mm_min: 2000.0, attended: 0.5, changer: true,
/// # };
/// // 4 parts of 10 holes at 2 min: 40 + 4 x 3 + 80 at the machine; half of the 80 attended.
/// let counts = Counts { parts: 4, set_ups: 1, loads: 4, ends: 40, hole_minutes: 80.0, ..Counts::default() };
/// let (machine, labor) = roll_up(&counts, &times);
/// assert_eq!(machine.sum(), 40.0 + 7.0 + 12.0 + 80.0);
/// assert_eq!(labor.sum(), 10.0 + 47.0 + 12.0 + 40.0 + 8.0 + 10.0 + 4.0);
/// ```
///
/// Source: arithmetic; which minutes are whose by common practice, no source.
#[must_use]
pub fn roll_up(counts: &Counts, times: &Times) -> (MachineMinutes, LaborMinutes) {
    let each = |count: u64, minutes: f64| count as f64 * minutes;
    let index = each(counts.index_moves, times.index);
    let tilt = each(counts.tilts, times.tilt);
    let travel = if times.table_mm_min > 0.0 {
        counts.travel_mm / times.table_mm_min
    } else {
        0.0
    };
    let changed = counts.broken.thin * times.change_thin + counts.broken.other * times.change;
    let machine = MachineMinutes {
        set_up: each(counts.set_ups, times.set_up),
        first_piece: each(counts.set_ups + counts.turn_overs, times.first_piece),
        load: each(counts.loads, times.load),
        index: index + tilt,
        turn_over: each(counts.turn_overs, times.turn_over),
        travel,
        holes: counts.hole_minutes,
        electrode_changes: counts.between.minutes(times),
        guide_changes: each(counts.guide_changes, times.guide_change),
        dressing: each(counts.dressings, times.dressing),
        breakages: changed + counts.broken_hole_min,
    };
    let by_changer = machine.electrode_changes + machine.dressing;
    let inside = counts.inside.minutes(times);
    let (by_hand, running) = if times.changer {
        (0.0, machine.holes + by_changer + machine.breakages)
    } else {
        let drilling = (machine.holes - inside).max(0.0);
        (
            by_changer + inside + changed,
            drilling + counts.broken_hole_min,
        )
    };
    let labor = LaborMinutes {
        receive: if counts.parts > 0 { times.receive } else { 0.0 },
        set_up: machine.set_up + machine.first_piece,
        handling: machine.load + machine.turn_over + tilt + machine.guide_changes + by_hand,
        stand_by: times.attended * (running + index + travel),
        masking: counts.masking_min,
        wash: each(counts.parts, times.wash),
        inspect: each(counts.ends, times.pin_check) + counts.proved.minutes(times),
        pack: each(counts.parts, times.pack),
    };
    (machine, labor)
}
