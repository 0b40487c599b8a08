//! What the head says: which job, where it stands, and what is still missing.

use quillbore_job::life::Deed;
use quillbore_job::results::{Missing, NextStep};
use quillbore_job::{Form, Paper};

/// What a job is called that has no number yet.
pub const NEW_JOB: &str = "new job";

/// That the job is not saved.
pub const NOT_SAVED: &str = "not saved";

/// What is missing where the table is empty.
pub const HOLES: &str = "holes";

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
        Missing::Exchange => "currency or exchange rate",
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
    format!(";  also open at {desk}: whoever saves second is asked to merge")
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

/// Customer and part in one line.
#[must_use]
pub fn who(customer: &str, part: &str) -> String {
    match (customer.trim(), part) {
        (customer, "") => customer.to_owned(),
        ("", part) => part.to_owned(),
        (customer, part) => format!("{customer}   {part}"),
    }
}

/// What is done next; the paper that it issues may be on the screen already.
#[must_use]
pub fn deed(deed: Deed, part_here: Option<u32>, seen: Option<Paper>) -> String {
    let paper = |paper: Paper, show: &str, issue: &str| {
        if seen == Some(paper) { issue } else { show }.to_owned()
    };
    match deed {
        Deed::Quote => paper(Paper::Quotation, "preview quotation", "issue quotation"),
        Deed::RecordOrder => "record order".to_owned(),
        Deed::Confirm => paper(
            Paper::Confirmation,
            "preview confirmation",
            "issue confirmation",
        ),
        Deed::ReceiveParts(_) => "receive parts".to_owned(),
        Deed::Release => match part_here {
            Some(here) => format!("release these {here}"),
            None => paper(Paper::Traveler, "preview traveler", "release traveler"),
        },
        Deed::RecordRun => "record run".to_owned(),
        Deed::Deliver(_) => "deliver".to_owned(),
        Deed::Pack => paper(Paper::Packing, "preview packing list", "issue packing list"),
        Deed::Reorder => "reorder".to_owned(),
    }
}

/// That there is nothing to take back, or to do again.
pub const NOTHING_TO_UNDO: &str = "nothing was changed yet";

/// How many more are missing.
#[must_use]
pub fn and_more(more: usize) -> String {
    format!(" and {more} more")
}

/// How many stops and checks wait for somebody.
#[must_use]
pub fn counts(stops: usize, checks: usize) -> String {
    let count = |one: &str, several: &str, count: usize| match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        count => Some(format!("{count} {several}")),
    };
    let said = [
        count("stop", "stops", stops),
        count("check", "checks", checks),
    ];
    said.into_iter().flatten().collect::<Vec<_>>().join("  ")
}

/// What an action takes back or does again, with its keys.
#[must_use]
pub fn hint(action: &str, label: &str, keys: &str) -> String {
    format!("{action}: {label}  {keys}")
}

/// What leads to the things that a job lacks before its next step, or what is said where it lacks none.
#[must_use]
pub const fn lead(next: &NextStep, lacks: bool) -> &'static str {
    match (next, lacks) {
        (NextStep::Quote { .. }, true) => "to quote: ",
        (NextStep::Quote { .. }, false) => "ready to quote",
        (NextStep::Release(_), true) => "to the floor: ",
        (NextStep::Release(_), false) => "ready for the floor",
        (NextStep::Deliver { .. }, true) => "to deliver: ",
        (NextStep::Deliver { .. }, false) | (NextStep::Nothing, _) => "",
    }
}

/// That fewer electrodes lie in the drawer than the kit takes.
pub const ELECTRODES_SHORT: &str = "electrodes are short";

/// That fewer guides lie in the drawer than the job takes.
pub const GUIDES_SHORT: &str = "guides are short";

/// Where an order stands of which no part was delivered, and none will be.
pub const NOTHING_TO_DELIVER: &str = "nothing to deliver";

/// How many parts are still to be delivered.
#[must_use]
pub fn left_to_deliver(left: u32, form: Form) -> String {
    match left {
        1 => "1 part".to_owned(),
        left => format!("{} parts", form.count(f64::from(left))),
    }
}

/// That somebody wants to ask what became of the quotation.
#[must_use]
pub fn ask_about_quotation(is_due: bool, day: &str) -> String {
    let due = if is_due { "today" } else { "on" };
    format!(";  ask about the quotation {due} {day}")
}

/// Where the job stands, with the price each that was said, and today's where it is another one.
#[must_use]
pub fn at_price(state: &str, each: &str, today: Option<&str>) -> String {
    let today = today.map_or_else(String::new, |today| format!(" (today {today})"));
    format!("{state} at {each} each{today}")
}

/// Where the job stands and how it ended, and what leads to what comes next.
#[must_use]
pub fn stands(state: &str, outcome: Option<&str>, lead: &str) -> String {
    let ended = outcome.map_or_else(String::new, |how| format!(", {how}"));
    match lead {
        "" => format!("{state}{ended}"),
        lead => format!("{state}{ended};  {lead}"),
    }
}
