//! Words of the traveler.

use quillbore_calc::finding::Level;
use quillbore_calc::input::HoleEnd;
use quillbore_job::Unit;

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
/// The value isn't known.
pub const VALUE_UNKNOWN: &str = "value of one part not known: treat as dear";
/// Drawing check.
pub const DRAWING_CHECK: &str = "The drawing at the machine is of this number and revision.";
/// Receiving check.
pub const RECEIVED_CHECK: &str =
    "Counted and looked over; damage noted above and told to the office.";
/// Setup check.
pub const SETUP_CHECK: &str = "Clamped, picked up, zeroed as above; flush and ground proved.";
/// First piece check.
pub const FIRST_CHECK: &str = "First piece measured and released; the lot may go on.";
/// Inspection check.
pub const INSPECTED_CHECK: &str =
    "Every hole proved open and passed by pin; what did not pass is listed and told to the office.";
/// Nothing was written about the first piece.
pub const FIRST_PLAIN: &str = "Drill the first hole of every mark, measure entry and exit with \
     pins, correct depth or gap, then drill the first piece to the end and measure all of it.";
/// Nothing was written about what follows.
pub const AFTER_PLAIN: &str = "Flush every hole through from both sides, prove it open with wire, \
     pin or light, wash, dry, count, protect against rust, pack as received.";
/// Always a reason to stop.
pub const STOP_IF: [&str; 5] = [
    "the flush stops, turns weak, or comes out where it should not",
    "a tube breaks in a hole, or a piece of it is missing",
    "the part, the clamp or the guide has moved",
    "the hole is not through at the machine depth, or through long before it",
    "a pin says that a hole is outside its limits",
];
/// Lead of the list above.
pub const STOP_IF_LEAD: &str = "Stop and call the office if";
/// No fixture, program or the like was written down.
pub const COPY_HINT: &str = "Copy this page for further pieces.";

/// A unit of length in full.
pub fn unit_in_full(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

/// The hole table's remark.
pub fn hole_table_remark(unit: Unit) -> String {
    let unit = unit_in_full(unit);
    format!("lengths in {unit}; angles in degrees, the drawing's own in bold; minutes for one hole")
}

/// Where a hole ends, as printed.
pub fn end(end: HoleEnd) -> &'static str {
    match end {
        HoleEnd::Through => "through",
        HoleEnd::Into => "into",
        HoleEnd::Blind => "blind",
    }
}

/// A hole is drilled from both ends.
pub const BOTH_ENDS: &str = "Drill half from the entry, half from the exit.";

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
