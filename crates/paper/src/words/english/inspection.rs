//! Words of the hole inspection record.

use quillbore_job::Form;

use super::{heads, phrases};
use crate::words::counted::count;
use crate::words::customer::{Inspection, SampleState};
use crate::words::kinds::Kinds;
use crate::words::traveler::{holes, inspection as floor};

/// What it says in English.
pub(super) const WORDS: Inspection = Inspection {
    title: "Hole inspection record",
    asked_for: floor::ASKED_FOR,
    recast: floor::RECAST,
    no_holes: holes::NO_HOLES,
    asked: "Required",
    characteristic: "Char. no.",
    zone: "Zone",
    proved_by: "open by",
    drawing_says: heads::DRAWING_SAYS,
    go: GO,
    no_go: NO_GO,
    of_the_lot: "Measured over several pieces",
    of_the_lot_remark: "smallest to largest over the pieces named; no single piece or hole is meant by it",
    hole_numbers: "Hole numbers",
    sizes_found: "Sizes found",
    pieces: "Pieces",
    no_piece_named: "no piece named",
    counted: heads::HOLES,
    checked: "checked",
    not_good: heads::NOT_GOOD,
    date: heads::DATE,
    name: heads::NAME,
    by_piece: "Piece by piece",
    by_piece_remark: "only what was measured of this piece",
    piece: "Piece, serial",
    depth_found: "Depth found",
    accepted: "Accepted",
    is_accepted: |yes| if yes { "yes" } else { "no" },
    nonconformances: "Non-conformances",
    no_nonconformances: "None is on record.",
    all_checked: "Every hole of the parts above was checked, as noted above.",
    as_noted: "Checked as far as noted above. What is not noted above was not checked.",
    sampling: |level, limit| {
        format!("ISO 2859-1, single sampling, normal inspection, level {level}, AQL {limit}")
    },
    sampled,
    all_sampled: |asked, letter| {
        format!(
            "Sample by {asked}: every part (letter {letter}; the plan asks for as many or more)."
        )
    },
    no_plan: |asked| {
        format!("{asked}: no plan is to be had by the table's rule; look it up in the standard.")
    },
    measured,
    gauge,
    without_serial: |number| format!("no serial, {number}"),
    holes_numbered: |numbers| format!("holes {numbers}"),
    how_checked,
    uneven,
    not_measured: "not measured",
    not_by_piece: |form, pieces, many| {
        let many = count(form, many, "piece", "pieces");
        format!("Not measured piece by piece: {pieces} ({many}).")
    },
    sample_so_far: |form, marks, [parts, sample]| {
        let parts = count(form, parts, "part", "parts");
        format!("{marks}: all holes checked on {parts}, the sample is {sample}")
    },
    sample_state,
    more_pieces: |form, more| {
        let pieces = count(form, more, "more piece has", "more pieces have");
        format!("{pieces} no line here: make a further record for them.")
    },
    nonconformance: |number, what| match what.trim() {
        "" => format!("non-conformance {number}"),
        what => format!("non-conformance {number}: {what}"),
    },
    sizes_in: |unit| format!("sizes in {}", phrases::unit_in_full(unit)),
};

/// A pin that must go in.
pub const GO: &str = "GO";
/// A pin that must not go in.
pub const NO_GO: &str = "NO-GO";

fn sampled(
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
         most, it doesn't with {reject}. Parts beyond the sample are not looked at for it."
    )
}

const fn sample_state(state: SampleState) -> &'static str {
    match state {
        SampleState::Open => "The sample is not complete.",
        SampleState::Passed => "The sample is complete and none is not good: the lot passes.",
        SampleState::NotPassed => "Holes are not good where none may be: the lot does not pass.",
        SampleState::ToBeCounted => {
            "The sample is complete; holes are not good: who inspects counts their parts and decides."
        }
    }
}

fn measured([depth, position, angle, gauge]: [&str; 4]) -> Vec<String> {
    let all = [
        ("depth", depth),
        ("position", position),
        ("angle", angle),
        ("gauge", gauge),
    ];
    let all = all.into_iter().filter(|(_, text)| !text.is_empty());
    all.map(|(lead, text)| format!("{lead} {text}")).collect()
}

fn gauge(number: &str, until: &str, temperature: &str) -> String {
    let mut said = number.trim().to_owned();
    if !until.is_empty() {
        said += &format!(", until {until}");
    }
    if !temperature.trim().is_empty() {
        said += &format!("; {}", degrees(temperature.trim()));
    }
    said.trim_start_matches([',', ';', ' ']).to_owned()
}

/// A bare number is one of degrees Celsius.
fn degrees(typed: &str) -> String {
    let is_bare = typed
        .chars()
        .all(|ch| ch.is_ascii_digit() || ".,".contains(ch));
    if is_bare {
        format!("{typed}\u{a0}\u{b0}C")
    } else {
        typed.to_owned()
    }
}

fn how_checked(kinds: Kinds) -> Vec<&'static str> {
    let mut said = Vec::new();
    if kinds.proved {
        said.push("Holes with a proof of their own: each hole by that, and by pin where limits are given.");
    }
    if kinds.open && kinds.some_by_pin {
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

fn uneven(form: Form, [parts, serials]: [u32; 2]) -> String {
    format!(
        "{} counted, {} named: find out why before anything is signed.",
        count(form, parts, "part is", "parts are"),
        count(form, serials, "serial number is", "serial numbers are"),
    )
}
