//! Days as sentences of the office say them.

use chrono::{Datelike as _, NaiveDate};

/// A day: `27 Nov 2026`.
pub(crate) fn day(day: NaiveDate) -> String {
    day.format("%-d %b %Y").to_string()
}

/// From one day to another, what they have in common said once: `23 to 27 Nov 2026`.
pub(crate) fn range(from: NaiveDate, to: NaiveDate) -> String {
    let form = if from.year() != to.year() {
        "%-d %b %Y"
    } else if from.month() != to.month() {
        "%-d %b"
    } else {
        "%-d"
    };
    format!("{} to {}", from.format(form), day(to))
}

/// A number of days: `1 day`, `6 days`.
pub(crate) fn days(count: u64) -> String {
    counted(count, "day", "days")
}

/// A number of things, by the name of one and of several.
pub(crate) fn counted(count: u64, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}
