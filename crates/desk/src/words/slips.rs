//! What is written at the slips pinned to the sheet.

use quillbore_job::life::HoursEach;

/// The head of order and parts.
pub const ORDER: &str = "Order and parts";

/// The head of what happened.
pub const RECORDS: &str = "Run records";

/// The head of calls and replies.
pub const CALLS: &str = "Calls";

/// Before the kinds that can be pinned.
pub const ADD: &str = "add:";

/// Takes a slip off the sheet.
pub const DELETE: &str = "delete";

/// Minutes of a part on record, and as planned by what is known today.
#[must_use]
pub fn minutes_each(took: &str, recorded: HoursEach, planned: Option<String>) -> String {
    let what = if recorded.by_clock {
        "by the clock"
    } else {
        "sparking"
    };
    let scaled = if recorded.scaled {
        ", some rows reckoned by the others"
    } else {
        ""
    };
    let planned = planned.map_or_else(String::new, |planned| {
        format!("; by what is known today it takes {planned}")
    });
    format!("A part took {took} min {what} by the records{scaled}{planned}.")
}

/// Where the ordered parts are.
#[must_use]
pub fn parts([ordered, here, gone]: &[String; 3]) -> String {
    format!("{ordered} ordered, {here} here, {gone} delivered")
}

/// A slip by its kind and its place among all.
#[must_use]
pub fn slip(kind: &str, id: u32) -> String {
    format!("{kind} {}", id + 1)
}

/// What a line says, with its label.
#[must_use]
pub fn labeled(label: &str, text: &str) -> String {
    format!("{label} {text}")
}
