//! Words of the inspection record, and of the certificate that refers to it.

use super::kinds::Kinds;

/// A pin that must go in.
pub const GO: &str = "GO";
/// A pin that must not go in.
pub const NO_GO: &str = "NO-GO";
/// What was measured over several pieces.
pub const OF_THE_LOT: &str = "Measured over several pieces";
/// The same, explained.
pub const OF_THE_LOT_REMARK: &str =
    "smallest to largest over the pieces named; no single piece or hole is meant by it";
/// What was measured of one piece.
pub const BY_PIECE: &str = "Piece by piece";
/// The same, explained.
pub const BY_PIECE_REMARK: &str = "only what was measured of this piece; blank: not measured";
/// Parts that are not as the drawing wants them.
pub const NONCONFORMANCES: &str = "Non-conformances";
/// None of them is on record.
pub const NO_NONCONFORMANCES: &str = "None is on record.";
/// What the inspector signs where all was checked.
pub const ALL_CHECKED: &str = "Every hole of the parts above was checked, as noted above.";
/// What the inspector signs where not all was checked, or nobody wrote down that it was.
pub const AS_NOTED: &str =
    "Checked as far as noted above. What is not noted above was not checked.";
/// No inspection record was issued.
pub const NO_RECORD: &str = "none was issued";

/// A record that names no piece.
pub const NO_PIECE_NAMED: &str = "no piece named";

/// A piece that has no serial number.
pub fn without_serial(number: usize) -> String {
    format!("no serial, {number}")
}

/// Holes that were looked at, by their numbers.
pub fn holes_numbered(numbers: &str) -> String {
    format!("holes {numbers}")
}

/// Who measured, and when.
pub fn who(day: &str, by: &str) -> String {
    match (day, by) {
        ("", by) => by.to_owned(),
        (day, "") => day.to_owned(),
        (day, by) => format!("{by}, {day}"),
    }
}

/// How holes are checked, by the kinds of holes that there are.
pub fn how_checked(kinds: Kinds) -> Vec<&'static str> {
    let mut said = Vec::new();
    if kinds.open {
        said.push(
            "Open holes: the GO pin (lower limit) goes through the whole depth, the NO-GO pin \
             (upper limit) does not go in.",
        );
    }
    if kinds.blind {
        said.push(
            "Blind holes: the GO pin (lower limit) goes to the bottom, the NO-GO pin (upper limit) \
             does not go in, and the depth is measured.",
        );
    }
    said.push("A size is written only where it was measured.");
    said
}

/// Pieces and serial numbers don't come out even.
pub fn uneven(parts: usize, serials: usize) -> String {
    format!(
        "{} counted, {} named: find out why before anything is signed.",
        super::traveler::count(whole(parts), "part is", "parts are"),
        super::traveler::count(whole(serials), "serial number is", "serial numbers are"),
    )
}

/// Pieces beyond those that have a line.
pub fn more_pieces(more: usize) -> String {
    format!(
        "{} no line here: make a further record for them.",
        super::traveler::count(whole(more), "more piece has", "more pieces have")
    )
}

/// A non-conformance at its piece.
pub fn nonconformance(number: usize, what: &str) -> String {
    let what = what.trim();
    if what.is_empty() {
        format!("non-conformance {number}")
    } else {
        format!("non-conformance {number}: {what}")
    }
}

/// How many of the parts had every hole of a mark checked.
pub fn checked(mark: &str, parts: u32, of: u32, not_good: u32) -> String {
    let mut said = match (parts, of) {
        (0, _) => format!("{mark}: no check of every hole is on record"),
        (parts, of) => format!("{mark}: every hole checked on {parts} of {of} parts"),
    };
    if not_good > 0 {
        said += &format!(", {not_good} found not good");
    }
    said
}

/// What the certificate states, and only as far as it was checked.
pub fn statement(all_checked: bool, record: Option<&str>) -> String {
    let record = record.map_or_else(String::new, |number| {
        format!(" What was measured stands in inspection record {number}.")
    });
    let checked = if all_checked {
        " Every hole of these parts was checked."
    } else {
        " Holes were checked as far as said above, not beyond."
    };
    format!(
        "We state that the holes of the parts listed above were made to the drawing and revision \
         named, as far as the order covers them, with no deviation known to us but those listed.{checked}{record}"
    )
}

fn whole(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
