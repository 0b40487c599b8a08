//! Words of the floor's block: what one drills by.

use super::on_the_way::Told;

/// Name of the block.
pub const NAME: &str = "Drill by this";
/// What the columns are measured from.
pub const REMARK: &str = "set: travel from touch-off; tip and wall: from where the electrode touches the part at the hole";
/// The electrode, and its guide below it.
pub const ELECTRODE: &str = "Electrode, guide";
/// What the machine is set to.
pub const SET: &str = "Set to";
/// How far the tip may go.
pub const NEVER_BEYOND: &str = "Tip never beyond";
/// How far a wall is behind the exit, and from the surface.
pub const BEHIND: &str = "Clear behind, wall at";
/// Where the axes stand.
pub const AXES: &str = "Axes";
/// When another electrode is taken.
pub const CHANGE: &str = "Change electrode at";
/// What the length is measured between.
pub const CHANGE_UNIT: &str = "mm or shorter";
/// The same, where lengths are in inches.
pub const CHANGE_UNIT_INCH: &str = "in or shorter";
/// A hole whose exit is backed.
pub const BACKED: &str = "Backed behind the exit: no hole before the backing is in.";
/// What closes a bore that the hole opens into takes the pressure of the flush.
pub const PLUG: &str = "Leave the water a way out of the bore, or hold what closes it: nobody in \
     front of it.";
/// The wear was put in by hand.
pub const OWN_WEAR: &str = "Wear as the office put it in.";
/// Where one electrode drills one hole.
pub const EACH_HOLE: &str = "every hole";
/// Where places differ from each other.
pub const IN_ANNEX: &str = "see the annex";
/// A tilt whose way nobody typed.
pub const WAY_ON_DRAWING: &str = "which way: drawing";
/// Nothing to turn.
pub const UPRIGHT: &str = "straight";

/// How an axis stands.
pub fn axis(name: &str, degrees: &str) -> String {
    format!("{name} {degrees}\u{b0}")
}

/// The name of the axis that leans the electrode.
pub const TILT: &str = "tilt";
/// The name of the axis that turns the part.
pub const INDEX: &str = "index";

/// In which setup a row is drilled, where there are several.
pub fn setup(numbers: &[usize]) -> String {
    let numbers: Vec<String> = numbers.iter().map(usize::to_string).collect();
    format!("setup {}", numbers.join(", "))
}

/// A hole that is drilled from both ends, its lengths with their unit.
pub struct Halves {
    /// Its depth.
    pub whole: String,
    /// How deep the first half is to be.
    pub first: String,
    /// How deep it is at least, so that the second half meets it.
    pub least: String,
    /// How far the tip goes for the second half.
    pub second: String,
    /// The settings of both halves, where they have one each.
    pub settings: Option<[String; 2]>,
    /// How far the second half goes on once it is through.
    pub further: String,
    /// Whether a core stands in the first half.
    pub has_core: bool,
}

/// What is drilled from each end of a hole.
pub fn half(
    Halves {
        whole,
        first,
        least,
        second,
        settings,
        further,
        has_core,
    }: &Halves,
) -> String {
    let core = if *has_core {
        " (a core stands in it)"
    } else {
        ""
    };
    let Some([entry, exit]) = settings else {
        return format!(
            "From both ends (the hole is {whole} deep). Entry first, to about {first} by the tip{core}, {least} at least, not \
             through. Turn the part; from the exit until it breaks into the first half and flush and sparking change, \
             {further} of travel further, then stop, pin it."
        );
    };
    format!(
        "From both ends (the hole is {whole} deep). Entry first, set to {entry}: then draw out and see the tip{core}, about \
         {first}, {least} at least, else go on by what is missing; deeper does no harm as long as it is not through. Turn the part. Exit, set to {exit}: \
         through where it breaks into the first half and flush and sparking change; {further} of travel further, then stop, \
         pin it. Not through at it: see the wear, set to {second} plus that wear."
    )
}

/// How far the guide stands off where it can't come as near as usual.
pub fn guide_off(told: Told, stand_off: &str, usual: &str) -> String {
    match told {
        Told::Whole => format!(
            "Guide {stand_off} off the part, not {usual}: nearer, nose or head touch it. Go down by hand the first time."
        ),
        Told::Short => format!("Guide {stand_off} off."),
    }
}

/// How much earlier an electrode touches than its axis.
pub fn touches_early(touch: &str) -> String {
    format!(
        "The electrode's edge touches the slope {touch} before its axis would, with a square end: dress it where it is worn round. Set and tip have that in them."
    )
}

/// How the first hole is begun, and how the change is measured.
pub const HOW: &str = "Touch off on the part's surface at each hole. Electrode length: with a rule, what stands out of the chuck plus \
     what it holds (measure that once), before dressing; after the first hole of each mark, and near the figure before each hole. A figure missing here: stop and ask.";
/// How the tip is seen, where it has a limit.
pub const TIP: &str = "Tip: travel less wear since touch-off (dress before it; dressing is no wear). To see it on the way: draw out, touch \
     off beside the hole at the same height; the travel at which it touches is the wear. Keep the old zero and go on by it.";
/// Where the same height is, beside a hole in which the electrode leans, or on a round side.
pub const fn same_height([leans, is_round]: [bool; 2]) -> &'static str {
    match (leans, is_round) {
        (true, false) => {
            "Same height, where the electrode leans: a little to the side, square to the lean, where nothing is drilled yet."
        }
        (false, _) => "Same height, on a round side: along its axis, where nothing is drilled yet.",
        (true, true) => {
            "Same height, where nothing is drilled yet: where the electrode leans, a little to the side, square to the lean; \
             where it does not lean, on a round side, along its axis."
        }
    }
}
/// Nobody typed what is behind the exit: the note says how much is kept free.
pub const KEEP_FREE: &str = "keep free";
/// Nothing but backing is behind the exit.
pub const INTO_BACKING: &str = "backing";
/// Nobody typed what is behind the exit.
pub const NO_WALL: &str = "not given";
/// A blind hole has no exit.
pub const BOTTOM: &str = "blind";
/// A half that must not come through.
pub const NOT_THROUGH: &str = "not through";

/// What a new electrode is cut down to before it goes in.
pub fn cut(length: &str, machine: &str) -> String {
    format!("Cut new electrodes to {length} before they go in: {machine} can't use more of them.")
}

/// In the place of a setting, where several electrodes drill a hole one after the other.
pub const BY_STEPS: &str = "by steps";

/// How much is dressed off each time.
pub fn dressed_off(length: &str) -> String {
    format!("Plan: {length} off each time.")
}

/// How several electrodes drill one hole.
pub fn several(count: u32, reach: Option<&str>) -> String {
    let first = reach.map_or_else(String::new, |reach| {
        format!(" The first reaches about {reach}.")
    });
    format!(
        "{count} electrodes one after another in each hole: each until it is used up, then measure the depth \
         and take the next.{first}"
    )
}
