//! Words of the traveler.

use quillbore_calc::Limits;
use quillbore_calc::finding::Level;
use quillbore_calc::input::HoleEnd;
use quillbore_job::Unit;

use super::kinds::Kinds;

/// The paper's name.
pub const TITLE: &str = "Traveler";
/// What stands in the foot of every page.
pub const FOOT: &str = "Goes with the parts. Valid for this lot and revision only.";
/// What the floor does first about this paper.
pub const STOP: &str = "STOP";
/// Nothing special was agreed.
pub const STOP_PLAIN: &str = "The part is the customer's and can't be bought again here. \
     When in doubt, stop and ask before the next burn.";
/// Heading of what must be asked first.
pub const ASK_BEFORE: &str = "Ask before: ";
/// Heading of hold points.
pub const HOLD: &str = "Hold: ";
/// Heading of a hold point that the yes came for.
pub const HOLD_PAST: &str = "Hold, released: ";
/// Heading of why the paper isn't valid.
pub const NOT_VALID: &str = "Preview, don't work by it: ";
/// Heading of a non-conformance of the job before that is still open.
pub const GO_ON: &str = "A non-conformance of the job before is open; work goes on because: ";
/// The value isn't known.
pub const VALUE_UNKNOWN: &str = "value of one part not known: treat as high value";
/// Heading of a drawing that was only spoken of.
pub const SPOKEN_OF: &str = "Only spoken of, not here: ";
/// What to do about it.
pub const SPOKEN_OF_THEN: &str = "Work to the revision above and ask when another one turns up.";
/// Drawing check.
pub const DRAWING_CHECK: &str = "The drawing at the machine is of this number and revision.";
/// Receiving check.
pub const RECEIVED_CHECK: &str =
    "Counted and looked over; damage noted above and told to the office.";
/// Setup check.
pub const SETUP_CHECK: &str = "Set up, picked up, zeroed as above; flush and ground proved.";
/// First piece check.
pub const FIRST_CHECK: &str = "First piece measured and approved; the lot may go on.";
/// Inspection check.
pub const INSPECTED_CHECK: &str =
    "Checked as noted above; what did not pass is listed and told to the office.";
/// Lead of what the customer asks of the inspection.
pub const ASKED_FOR: &str = "Asked for: ";
/// Lead of the recast limit.
pub const RECAST: &str = "Recast at most: ";
/// There are no rows.
pub const NO_HOLES: &str = "The hole table is empty: nothing may be drilled from this paper.";
/// Lead of the list of reasons to stop.
pub const STOP_IF_LEAD: &str = "Stop and call the office if";
/// The material isn't in the shop's tables.
pub const HAZARD_UNKNOWN: &str =
    "not known, the material is not among the shop's; ask before the first burn";
/// The material brings no danger of its own.
pub const HAZARD_NONE: &str = "none of its own; the general cautions at the end hold";
/// Where the cautions stand.
pub const HAZARD_READ: &str = "read the cautions at the end";
/// What planned figures rest on.
pub const START_VALUES: &str = "Planned minutes, wear and settings rest on start values, not on runs of this shop: not calibrated.";
/// The same beside a figure.
pub const START_VALUES_SHORT: &str = "start values, not calibrated";
/// Nothing is worked out yet.
pub const NO_KIT: &str = "Electrodes and guides are not worked out yet: ask the office.";
/// Nothing is worked out yet about the electrodes' order.
pub const NO_LOADS: &str = "Deep holes first on a new electrode. Change when what is left of it no \
     longer reaches the setting.";
/// Name of the section of depths that the first hole decides.
pub const DEPTHS: &str = "Depths that the first hole decides";
/// What its columns mean.
pub const DEPTHS_REMARK: &str = "setting: what the machine is set to, from touch-off; tip: how far the electrode's end goes from the work's surface";
/// What is done with a first try.
pub const FIRST_TRY: &str = "First try: drill the first hole at this setting, measure depth and electrode, \
     correct in the same hole. Write the setting that came out into the last column and use it from \
     then on. The tip never goes beyond its limit, whatever the setting says.";
/// A depth that is come to in two steps.
pub const TWO_STEPS: &str = "two steps: drill to 80\u{a0}%, touch off, correct";
/// A depth that is come to in one go.
pub const ONE_STEP: &str = "in one go after the first hole";
/// Holes drilled from both ends.
pub const BOTH_ENDS: &str = "Drill half from the entry, half from the exit.";
/// Holes drilled from their entry because somebody said so.
pub const ONE_END: &str = "Drill from the entry only.";
/// A row whose setting is a first try.
pub const FIRST_BELOW: &str =
    "Setting is a first try, tip the limit: see the depths that the first hole decides.";
/// A loose core could be trapped.
pub const CORE_TRAPPED: &str = "A loose core could be trapped: take it out and show it.";
/// Somebody said that no core can be trapped.
pub const CORE_FREE: &str = "No core can be trapped here.";
/// Backing is planned.
pub const BACKED: &str = "Backing behind the exit.";
/// Somebody said that none is.
pub const NOT_BACKED: &str = "No backing behind the exit.";
/// Head of the electrodes that the kit carries beside those that were chosen.
pub const NEIGHBORS: &str = "For the first piece, if its size is off";

/// Nothing was typed about the first piece.
pub fn first_plain(kinds: Kinds) -> &'static str {
    match (kinds.open, kinds.blind) {
        (false, true) => {
            "Drill the first hole of every mark, measure its size and its depth, correct setting or \
             electrode, then drill the first piece to the end and measure all of it."
        }
        (_, false) => {
            "Drill the first hole of every mark, measure entry and exit with pins, correct setting or \
             electrode, then drill the first piece to the end and measure all of it."
        }
        (true, true) => {
            "Drill the first hole of every mark; of open holes measure entry and exit with pins, of \
             blind holes size and depth; correct setting or electrode, then drill the first piece to \
             the end and measure all of it."
        }
    }
}

/// Nothing was typed about what follows.
pub fn after_plain(kinds: Kinds) -> &'static str {
    match (kinds.open, kinds.blind) {
        (false, true) => {
            "Flush every hole out until it runs clear, see that no core and no sludge is left at the \
             bottom, wash, dry, count, protect against rust, pack as received."
        }
        (_, false) => {
            "Flush every hole through from both sides, prove it open with wire, pin or light, wash, \
             dry, count, protect against rust, pack as received."
        }
        (true, true) => {
            "Flush open holes through from both sides and prove them open with wire, pin or light; \
             flush blind holes out until they run clear and see that no core is left in them; wash, \
             dry, count, protect against rust, pack as received."
        }
    }
}

/// The operation of cleaning.
pub fn clean(kinds: Kinds) -> &'static str {
    match (kinds.open, kinds.blind) {
        (false, true) => "Clean: flush out, see that no core is left, wash, dry",
        (_, false) => "Clean: flush through, prove open, wash, dry",
        (true, true) => {
            "Clean: flush, prove open holes open, no core left in blind ones, wash, dry"
        }
    }
}

/// The operation of inspecting.
pub fn inspect(kinds: Kinds) -> &'static str {
    if kinds.blind {
        "Inspect: a pin in every hole, the depth of blind ones"
    } else {
        "Inspect: a pin in every hole"
    }
}

/// Always a reason to stop.
pub fn stop_if(kinds: Kinds) -> Vec<&'static str> {
    let mut list = vec![
        "the flush stops, turns weak, or comes out where it should not",
        "an electrode breaks in a hole, or a piece of it is missing",
        "the part, the clamp or the guide has moved",
    ];
    if kinds.open {
        list.push("an open hole is not through at its setting, or through long before it");
    }
    if kinds.blind {
        list.push(
            "the depth of a blind hole is not known any more, or it may have come out too deep",
        );
    }
    list.push("a pin says that a hole is outside its limits");
    list
}

/// A unit of length in full.
pub fn unit_in_full(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

/// The hole table's remark.
pub fn hole_table_remark(unit: Unit, basis: &str) -> String {
    let unit = unit_in_full(unit);
    format!(
        "lengths in {unit}; angles in degrees, the drawing measures {basis} (bold); setting: from \
         touch-off; tip: from the work's surface; minutes for one hole"
    )
}

/// Where a hole ends, as printed.
pub fn end(end: HoleEnd) -> &'static str {
    match end {
        HoleEnd::Through => "through",
        HoleEnd::Into => "into",
        HoleEnd::Blind => "blind",
    }
}

/// Lead of what stops the job, with the hole that it is about.
pub fn stop_of(mark: Option<&str>) -> String {
    mark.map_or_else(
        || "Stop: ".to_owned(),
        |mark| format!("Stop, hole {mark}: "),
    )
}

/// Lead of a check that the customer or the shop has not answered yet.
pub fn unanswered(mark: &str) -> String {
    format!("No answer yet, hole {mark}: ")
}

/// A finding's level before its sentence.
pub fn level(level: Level) -> &'static str {
    match level {
        Level::Stop => "Stop",
        Level::Check => "Check",
        Level::Note => "Note",
    }
}

/// So many of a thing.
pub fn count(number: u32, one: &str, several: &str) -> String {
    if number == 1 {
        format!("1\u{a0}{one}")
    } else {
        format!("{number}\u{a0}{several}")
    }
}

/// Why so many electrodes are taken: by plan, if wear is high, spare.
pub fn kit(by_plan: u32, if_wear_high: u32, spare: u32) -> String {
    let mut said = vec![format!("{by_plan}\u{a0}by plan")];
    if if_wear_high > 0 {
        said.push(format!("{if_wear_high}\u{a0}if wear is high"));
    }
    if spare > 0 {
        said.push(format!("{spare}\u{a0}spare"));
    }
    said.join(", ")
}

/// What becomes of what is left of an electrode.
pub fn rest(still: &str) -> String {
    if still.is_empty() {
        "too short for this job's holes".to_owned()
    } else {
        format!("keep, mark its length: still drills {still}")
    }
}

/// Loads that are not drawn.
pub fn not_drawn(more: usize) -> String {
    match more {
        1 => "1 more kind of load stands in the table above and is not drawn.".to_owned(),
        more => {
            format!("{more} more kinds of loads stand in the table above and are not drawn.")
        }
    }
}

/// The chance of a size with the electrode to begin with.
pub fn chance(inside: &str, over: &str) -> String {
    format!("Size: first choice right {inside}, too large {over}.")
}

/// What the size comes to once the first piece was measured.
pub fn held(verdict: &str) -> String {
    format!("Once the first piece is measured: {verdict}.")
}

/// The clearance behind an exit.
pub fn clearance(length: &str) -> String {
    format!("Clearance behind: {length}.")
}

/// A depth as the drawing gives it.
pub fn depth_drawn(depth: &str) -> String {
    format!("Depth as drawn: {depth}.")
}

/// When the electrode's tip is dressed; where nobody said so, by the trade's rule.
pub fn dressing(every: Option<u32>, typed: &str, blind: bool) -> Option<String> {
    match (every, typed) {
        (Some(0), _) => Some("No dressing.".to_owned()),
        (Some(1), _) => Some("Dress the tip before every hole.".to_owned()),
        (Some(holes), _) => Some(format!("Dress the tip before every {holes} holes.")),
        (None, "") if blind => Some("Dress the tip before every hole.".to_owned()),
        (None, "") => None,
        (None, typed) => Some(format!("Dressing: {typed}.")),
    }
}

/// How many electrodes one hole takes, where it is more than one.
pub fn electrodes_in(count: u32, both_ends: bool) -> Option<String> {
    match (count, both_ends) {
        (0 | 1, _) => None,
        (2, true) => Some("One electrode from each end.".to_owned()),
        (count, true) => Some(format!("{count} electrodes in each hole, over both ends.")),
        (count, false) => Some(format!(
            "{count} electrodes one after another in each hole."
        )),
    }
}

/// The layers of a hole.
pub fn layers(layers: &str) -> String {
    format!("Layers from the entry: {layers}.")
}

/// The surface at the entry.
pub fn entry(surface: &str) -> String {
    format!("Entry: {surface}.")
}

/// How much of an electrode one hole uses up.
pub struct UsedUp {
    /// As planned.
    pub planned: String,
    /// If wear is high.
    pub high: String,
}

/// How far a row's planned figures may be off.
pub fn spread(minutes: Option<Limits<String>>, wear: Option<UsedUp>) -> String {
    let mut said = Vec::new();
    if let Some(Limits { lower, upper }) = minutes {
        said.push(format!("minutes {lower} to {upper}"));
    }
    if let Some(UsedUp { planned, high }) = wear {
        said.push(format!(
            "electrode used up {planned}, if wear is high {high}"
        ));
    }
    if said.is_empty() {
        return String::new();
    }
    format!("One hole: {}.", said.join("; "))
}

/// Figures that the office typed in place of computed ones.
pub fn typed(figures: &[&str]) -> String {
    format!("Typed by the office, not computed: {}.", figures.join(", "))
}

/// Pieces that the traveler has no columns for.
pub fn further_pieces(from: usize, to: usize) -> String {
    format!("pieces {from} to {to}: on copies of this page, or on the hole inspection record")
}

/// Rows whose hole locations are not given.
pub fn unplaced(marks: &str) -> String {
    format!("No hole locations are given for {marks}: take them from the drawing.")
}

/// The hours planned for the machine, with their spread.
pub fn machine_hours(usual: &str, low: &str, high: &str) -> String {
    format!("Machine for the lot: {usual} (low {low}, high {high}).")
}
