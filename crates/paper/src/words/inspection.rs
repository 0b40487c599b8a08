//! Words of the hole inspection record.

use quillbore_job::Form;

use super::kinds::Kinds;
use super::phrases::count;

/// The inspection record's name.
pub const TITLE: &str = "Hole inspection record";
/// Name of the section of what the drawing asks.
pub const ASKED: &str = "Required";
/// Head of the numbers of holes.
pub const HOLE_NUMBERS: &str = "Hole numbers";
/// Head of the pieces that a measurement is of.
pub const PIECES: &str = "Pieces";
/// Head of the depth that was measured.
pub const DEPTH_FOUND: &str = "Depth found";
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
/// A record that names no piece.
pub const NO_PIECE_NAMED: &str = "no piece named";

/// The plan that was asked for.
pub fn sampling(level: &str, limit: &str) -> String {
    format!("ISO 2859-1, single sampling, normal inspection, level {level}, AQL {limit}")
}

/// How many of a lot are looked at, and when it passes.
pub fn sampled(
    asked: &str,
    [sample, lot, accept, reject]: [&str; 4],
    [letter, plan]: [char; 2],
) -> String {
    let arrow = if letter == plan {
        String::new()
    } else {
        format!(", plan of {plan}")
    };
    format!(
        "Sample by {asked}: {sample} of {lot} parts (letter {letter}{arrow}); the lot passes with {accept} not good at \
         most, it doesn't with {reject}. What is not in the sample was not looked at."
    )
}

/// Every part of a lot is looked at.
pub fn all_sampled(asked: &str, letter: char) -> String {
    format!("Sample by {asked}: every part (letter {letter}; the plan asks for as many or more).")
}

/// The table has no plan for what was asked.
pub fn no_plan(asked: &str) -> String {
    format!("{asked}: no plan is to be had by the table's rule; look it up in the standard.")
}

/// Head of the characteristic's number.
pub const CHARACTERISTIC: &str = "Char. no.";
/// Head of the drawing's zone.
pub const ZONE: &str = "Zone";
/// Head of whether a line is accepted.
pub const ACCEPTED: &str = "Accepted";

/// Position, angle and what was measured with, as far as they are on record.
pub fn measured(position: &str, angle: &str, gauge: &str) -> Vec<String> {
    let lead = |lead: &str, text: &str| (!text.is_empty()).then(|| format!("{lead} {text}"));
    let all = [
        lead("position", position),
        lead("angle", angle),
        lead("gauge", gauge),
    ];
    all.into_iter().flatten().collect()
}

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
pub fn uneven(form: Form, parts: usize, serials: usize) -> String {
    format!(
        "{} counted, {} named: find out why before anything is signed.",
        count(form, whole(parts), "part is", "parts are"),
        count(
            form,
            whole(serials),
            "serial number is",
            "serial numbers are"
        ),
    )
}

/// Pieces beyond those that have a line.
pub fn more_pieces(form: Form, more: usize) -> String {
    format!(
        "{} no line here: make a further record for them.",
        count(form, whole(more), "more piece has", "more pieces have")
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

fn whole(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// What the sizes on the page are in.
pub fn sizes_in(unit: &str) -> String {
    format!("sizes in {unit}")
}
