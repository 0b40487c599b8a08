//! What the head says: which job, where it stands, and what is still missing.

use std::fmt::Display;

use quillbore_job::results::Missing;

/// What a job is called that has no number yet.
pub const NEW_JOB: &str = "new job";

/// That the job is not saved.
pub const NOT_SAVED: &str = "not saved";

/// What is missing where the table is empty.
pub const HOLES: &str = "holes";

/// That nothing is in the way of the traveler.
pub const READY_TO_RELEASE: &str = "ready to release";

/// How many jobs lie on the desk.
#[must_use]
pub fn open_jobs(count: usize) -> String {
    format!("{count} jobs open")
}

/// What stands in the way of a quotation.
#[must_use]
pub const fn missing(missing: Missing) -> &'static str {
    match missing {
        Missing::Material => "material",
        Missing::Machine => "machine",
        Missing::Quantity => "quantity",
        Missing::Size => "a size",
        Missing::Depth => "a depth",
        Missing::Reading => "what can't be read",
        Missing::Name => "a name from the lists",
    }
}

/// The title of the window.
#[must_use]
pub fn title(job: &str, dirty: bool) -> String {
    let mark = if dirty { " (not saved)" } else { "" };
    format!("{job}{mark} \u{2013} Quillbore")
}

/// What a job is called among those on the desk.
#[must_use]
pub fn open_job(number: &str, part: &str, dirty: bool) -> String {
    let number = if number.is_empty() { NEW_JOB } else { number };
    let mark = if dirty { ", not saved" } else { "" };
    format!("{number} {part}").trim().to_owned() + mark
}

/// Which other desk has the job open.
#[must_use]
pub fn open_elsewhere(desk: &str) -> String {
    format!("also open at {desk}: whoever saves second is asked to merge")
}

/// A part with its revision.
#[must_use]
pub fn part(part: &str, revision: &str) -> String {
    match (part, revision) {
        ("", _) => String::new(),
        (part, "") => part.to_owned(),
        (part, revision) => format!("{part} rev {revision}"),
    }
}

/// Releases the parts that are here as a part of the order.
#[must_use]
pub fn release_part(here: u32) -> String {
    format!("release these {here}")
}

/// What an action takes back or does again, with its keys.
#[must_use]
pub fn hint(action: &str, label: &str, keys: &str) -> String {
    format!("{action}: {label}  {keys}")
}

/// What is in the way of the traveler.
#[must_use]
pub fn to_release(blockers: &[String]) -> String {
    format!("to release: {}", blockers.join("; "))
}

/// What is in the way of the quotation, if anything.
#[must_use]
pub fn to_quote(missing: &[String]) -> String {
    if missing.is_empty() {
        return "ready to quote".to_owned();
    }
    format!("to quote: {}", missing.join(", "))
}

/// How many parts are still to be delivered.
#[must_use]
pub fn left_to_deliver(left: u32) -> String {
    format!("{left} still to be delivered")
}

/// That somebody wants to ask what became of the quotation.
#[must_use]
pub fn ask_about_quotation(is_due: bool, day: impl Display) -> String {
    let due = if is_due { "today" } else { "on" };
    format!("; ask about the quotation {due} {day}")
}

/// The whole of it: where the job stands and how it ended, what comes next, whom to ask.
#[must_use]
pub fn stands(state: &str, outcome: Option<&str>, next: &str, asked: &str) -> String {
    let ended = outcome.map_or_else(String::new, |how| format!(", {how}"));
    if next.is_empty() {
        format!("{state}{ended}{asked}")
    } else {
        format!("{state}{ended}; {next}{asked}")
    }
}
