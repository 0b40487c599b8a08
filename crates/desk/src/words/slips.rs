//! What is written at the slips pinned to the sheet.

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

/// The hours on record, and those that were estimated: likely, low, high.
#[must_use]
pub fn hours(actual: &str, estimate: Option<[String; 3]>) -> String {
    let estimate = estimate.map_or_else(String::new, |[likely, low, high]| {
        format!(", {likely} were estimated ({low} to {high})")
    });
    format!("{actual} machine hours are on record{estimate}")
}

/// Where the ordered parts are.
#[must_use]
pub fn parts(ordered: u32, here: u32, gone: u32) -> String {
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
