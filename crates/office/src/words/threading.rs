//! What is said of threading lists.

use quillbore_job::Unit;

use crate::failure::Failure;

/// The heads of the list's columns, with the unit of their lengths.
pub(crate) fn heads(unit: Unit) -> [String; 7] {
    let of = |head: &str| format!("{head} ({})", unit.symbol());
    [
        "number".to_owned(),
        "mark".to_owned(),
        of("x"),
        of("y"),
        of("smallest exit"),
        of("expected exit"),
        of("wire"),
    ]
}

/// A row that has no mark.
pub(crate) fn row(number: usize) -> String {
    format!("row {number}")
}

/// That no hole has a wire.
pub(crate) fn no_wire(job: &str) -> Failure {
    let job = match job.trim() {
        "" => "The job".to_owned(),
        job => format!("Job {job}"),
    };
    Failure::new(
        format!("{job} has no hole that a wire goes into, so there is nothing to thread"),
        "type the wire's diameter in the hole table",
    )
}

/// That holes of a row have no locations.
pub(crate) fn without_locations(row: &str, holes: u32) -> String {
    match holes {
        1 => format!(
            "{row}: its hole has no location, its line in the threading list has no x and y."
        ),
        holes => format!(
            "{row}: its {holes} holes have no locations, their lines in the threading list have no x and y."
        ),
    }
}

/// That a row's holes lean.
pub(crate) fn leaning(row: &str) -> String {
    format!("{row}: holes lean, x and y of the threading list are where they begin.")
}

/// That nobody knows how wide a row's holes end.
pub(crate) fn exit_unknown(row: &str) -> String {
    format!(
        "{row}: how wide its holes end is not known yet, its lines in the threading list leave it open."
    )
}

/// That a row's wire can't be read.
pub(crate) fn wire_unread(row: &str, typed: &str) -> String {
    format!(
        "{row}: its wire, \u{201c}{typed}\u{201d}, can't be read, so it is not in the threading list."
    )
}
