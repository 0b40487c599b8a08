//! Days and lines of slips as papers show them.

use quillbore_job::slip::{Has, TypedLine, View, holds};
use quillbore_job::{Entry, Value};

use crate::shown;

/// A day as papers show it; what can't be read stands as it was typed.
pub(crate) fn day<K: Has<L>, L: TypedLine<Holds = holds::Date>>(
    slip: View<'_, K>,
    line: L,
) -> String {
    typed(slip.entry(line))
}

/// What was typed in a line as papers show it: a day as such, everything else as it stands.
pub(crate) fn typed(entry: &Entry<Value>) -> String {
    match entry.value().and_then(Value::date) {
        Some(day) => shown::date(day),
        None => entry.text().trim().to_owned(),
    }
}
