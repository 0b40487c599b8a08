//! Words of what must be known before the first burn.

use quillbore_job::Form;

use crate::words::phrases::{count, typed_count};

/// What the floor does first about this paper.
pub const STOP: &str = "STOP";
/// Nothing special was agreed.
pub const STOP_PLAIN: &str = "The part is the customer's and can't be bought again here. \
     When in doubt, stop and ask before the next burn.";
/// Heading of what must be asked first.
pub const ASK_BEFORE: &str = "Ask before: ";
/// Heading of hold points.
pub const HOLD: &str = "Hold: ";
/// Heading of a hold point that the yes came for.
pub const HOLD_PAST: &str = "Hold, released: ";
/// Heading of why the paper isn't valid.
pub const NOT_VALID: &str = "Preview, don't work by it: ";
/// Heading of a non-conformance of the previous job that is still open.
pub const GO_ON: &str = "A non-conformance of the previous job is open; work goes on because: ";
/// The value isn't known.
pub const VALUE_UNKNOWN: &str = "value of one part not known: treat as high value";
/// Lead of what differs in the order.
pub const OF_ORDER: &str = "Order: ";
/// Lead of what must be looked at.
pub const CHECK: &str = "Check: ";
/// Lead of a non-conformance.
pub const NONCONFORMANCE: &str = "Non-conformance ";
/// There is no part for trials.
pub const NO_SPARES: &str = "no spare part for trials";
/// Nobody said whether there is a part for trials.
pub const SPARES_UNKNOWN: &str = "no spare part for trials is on record";

/// Lead of what stops the job, with the hole that it is about.
pub fn stop_of(mark: Option<&str>) -> String {
    mark.map_or_else(
        || "Stop: ".to_owned(),
        |mark| format!("Stop, mark {mark}: "),
    )
}

/// Lead of a check that the customer or the shop has not answered yet.
pub fn unanswered(mark: &str) -> String {
    format!("No answer yet, mark {mark}: ")
}

/// Where the remarks of many rows stand.
pub const IN_HOLE_TABLE: &str = "what it is about stands at each mark in the hole table.";

/// What one part is worth.
pub fn value(amount: &str) -> String {
    format!("one part is worth {amount}")
}

/// The most of it that the shop pays.
pub fn cap(amount: &str) -> String {
    format!("the shop's liability is limited to {amount} of it")
}

/// Spare parts as they were typed.
pub fn spares_typed(text: &str) -> String {
    format!("spares: {text}")
}

/// Spare parts for trials.
pub fn spares(form: Form, number: u32) -> String {
    format!(
        "{} for trials",
        count(form, number, "spare part", "spare parts")
    )
}

/// The notice that a hold point wants.
pub fn notice(days: &str) -> String {
    match typed_count(days, "day", "days") {
        Some(days) => format!(", {days} of notice"),
        None => format!(", days of notice: {days}"),
    }
}

/// The notice that was given.
pub fn notified(day: &str) -> String {
    format!(", notice given on {day}")
}

/// The yes that came, and whose it is.
pub fn released(day: &str, by: &str) -> String {
    format!("; released on {day}, {by}")
}
