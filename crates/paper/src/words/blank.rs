//! Words of blank forms.

use quillbore_job::Form;

use super::phrases::count;

/// What a blank page goes with once it is written on, by the travelers that stand.
pub fn goes_with(travelers: &[&str]) -> String {
    match travelers {
        [one] => format!("a further page, printed empty; it goes with traveler {one}"),
        _ => "a further page, printed empty; it goes with the traveler of its parts".to_owned(),
    }
}

/// Lines that have no room on the pages that were asked for.
pub fn more_lines(form: Form, more: usize) -> String {
    format!(
        "{} no room here: print more pages for them.",
        count(
            form,
            u32::try_from(more).unwrap_or(u32::MAX),
            "line of a piece and mark has",
            "lines of pieces and marks have"
        )
    )
}
