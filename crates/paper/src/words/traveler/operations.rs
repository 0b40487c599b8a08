//! Words of the operations.

use quillbore_job::Form;

use crate::words::kinds::Kinds;
use crate::words::phrases::count;

/// Name of the section.
pub const NAME: &str = "Operations";
/// How it is filled in.
pub const REMARK: &str = "sign when done; the next one starts only then";
/// Head of the operation's number.
pub const NUMBER: &str = "No.";
/// Head of what is done.
pub const OPERATION: &str = "Operation";
/// Head of the planned time.
pub const PLANNED: &str = "Planned";
/// Of all parts.
pub const FOR_LOT: &str = "for the lot";
/// Head of the parts that passed.
pub const GOOD: &str = "good";
/// The operation of receiving.
pub const RECEIVE: &str = "Receive: count, look over, note damage and heat";
/// The operation of the first piece.
pub const FIRST_PIECE: &str =
    "First piece: drill, measure, correct, approve (the minutes of drilling are in the next)";
/// The same, where there are several setups.
pub const FIRST_PIECES: &str = "First piece of setup 1: drill, measure, correct, approve (the minutes of drilling are in the next)";
/// The same, where it goes through several setups before the lot.
pub fn first_piece_of(setups: &[usize]) -> String {
    let setups: Vec<String> = setups.iter().map(usize::to_string).collect();
    format!(
        "First piece, through setups {}: drill, measure, correct, approve (the minutes of drilling are in the next)",
        setups.join(", ")
    )
}
/// The operation of drilling, where no setup is known.
pub const DRILL: &str = "Drill";
/// What comes before the others of a setup that follows another.
pub const AGAIN: &str = " Set up and first piece before the others, as signed above.";
/// The operation of packing.
pub const PACK: &str = "Pack as received, rust protection, papers";

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

/// Minutes.
pub fn minutes(number: &str) -> String {
    format!("{number}\u{a0}min")
}

/// The operation of masking, with the time that each part takes.
pub fn mask(what: &str, each: &str) -> String {
    let mut said = "Mask".to_owned();
    if !what.is_empty() {
        said += &format!(": {what}");
    }
    if !each.is_empty() {
        said += &format!(" ({each} a part)");
    }
    said
}

/// The operation of inspecting.
pub fn inspect(kinds: Kinds) -> &'static str {
    if !kinds.all_by_pin {
        "Inspect: each hole as its row of the hole table says"
    } else if kinds.blind {
        "Inspect: a pin in every hole, the depth of blind ones"
    } else {
        "Inspect: a pin in every hole"
    }
}

/// The hours planned for the machine, with their spread.
pub fn machine_hours(usual: &str, low: &str, high: &str) -> String {
    format!("Machine for the lot: {usual} (low {low}, high {high}).")
}

/// The operation of setting up, on a machine where one was chosen.
pub fn set_up(machine: &str) -> String {
    let machine = match machine {
        "" => String::new(),
        name => format!(" on {name}"),
    };
    format!("Set up{machine}: fixture, guide, electrode, zero")
}

/// The operation of drilling one setup.
pub fn drill(number: usize, setup: &str) -> String {
    format!("Drill setup {number}: {setup}")
}

/// A time that is planned with that of another operation.
pub fn planned_in(operation: usize) -> String {
    format!("with no.\u{a0}{operation}")
}

/// The operation that is done elsewhere, and how long the parts are away for it.
pub fn outside(form: Form, work: &str, days: Option<u32>) -> String {
    let said = match work {
        "" => "Outside work".to_owned(),
        work => format!("Outside: {work}"),
    };
    match days {
        None => format!("{said} (count out and in)"),
        Some(days) => {
            let days = count(form, days, "working day", "working days");
            format!("{said} (count out and in; away for {days})")
        }
    }
}
