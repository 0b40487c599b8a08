//! Numbers of days and of other things as sentences of the office say them.

use quillbore_job::Form;

/// A number of days: `1 day`, `6 days`.
pub(crate) fn days(count: u64, form: Form) -> String {
    counted(count, "day", "days", form)
}

/// A number of things, by the name of one and of several.
pub(crate) fn counted(count: u64, one: &str, several: &str, form: Form) -> String {
    let noun = if count == 1 { one } else { several };
    format!("{} {noun}", form.count(count as f64))
}
