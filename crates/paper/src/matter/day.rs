//! Days and lines of slips as papers show them.

use quillbore_job::slip::{Has, TypedLine, View, holds};
use quillbore_job::{Entry, Form, Value};

/// A day as papers show it; what can't be read stands as it was typed.
pub(crate) fn day<K: Has<L>, L: TypedLine<Holds = holds::Date>>(
    form: Form,
    slip: View<'_, K>,
    line: L,
) -> String {
    typed(form, slip.entry(line))
}

/// What was typed in a line as papers show it: a day as such, everything else as it stands.
pub(crate) fn typed(form: Form, entry: &Entry<Value>) -> String {
    match entry.value().and_then(Value::date) {
        Some(day) => form.day(day),
        None => entry.text().trim().to_owned(),
    }
}
