//! What is written at the lines of the sheet and at its side notes.

use quillbore_job::Unit;

/// That no choice is called so.
pub const NONE_OF_LIST: &str = "none of the list has that in its name";

/// Puts an answer to a side note down.
pub const PUT_IT_DOWN: &str = "put it down";

/// Leaves the answer to a side note.
pub const NOT_NOW: &str = "not now";

/// A bare number that was typed in another unit than the sheet's, with that unit behind it.
#[must_use]
pub fn with_unit(text: &str, unit: Option<Unit>) -> String {
    let bare = !text.is_empty()
        && !text
            .chars()
            .any(|letter| letter.is_alphabetic() || matches!(letter, '"' | '#' | '\u{2033}'));
    match unit.filter(|_| bare) {
        Some(Unit::Mm) => format!("{text} mm"),
        Some(Unit::Inch) => format!("{text} in"),
        None => text.to_owned(),
    }
}

/// Lays every line of a block out, or the usual ones again.
#[must_use]
pub const fn lines(all: bool) -> &'static str {
    if all { "fewer lines" } else { "more lines" }
}

/// The name of the word that lays the lines of a block out.
#[must_use]
pub fn lines_of(all: bool, block: &str) -> String {
    format!("{} of {block}", lines(all))
}

/// How many choices are not shown.
#[must_use]
pub fn more_choices(more: usize) -> String {
    format!("and {more} more: type a part of the name")
}

/// The name of a line of a slip.
#[must_use]
pub fn line_of(line: &str, slip: &str) -> String {
    format!("{line} of {slip}")
}

/// The rows that a note is about, and how many more: "A, B, C and 5 more".
#[must_use]
pub fn about(marks: &[String], more: usize) -> String {
    let marks = marks.join(", ");
    match more {
        0 => marks,
        more => format!("{marks} and {more} more"),
    }
}

/// Lines of the run records, from 0, the first of so many: "line 3", "lines 1, 2 and 5 more".
#[must_use]
pub fn lines_of_runs(shown: impl Iterator<Item = usize>, all: usize) -> String {
    let numbers: Vec<String> = shown.map(|line| (line + 1).to_string()).collect();
    let more = all.saturating_sub(numbers.len());
    let lines = if all == 1 { "line" } else { "lines" };
    format!("{lines} {}", about(&numbers, more))
}

/// What is asked of rows.
#[must_use]
pub fn asked_of(concern: &str, about: &str) -> String {
    format!("{concern} of {about}")
}

/// Something that is done about a question, by its name.
#[must_use]
pub fn about_it(word: &str, what: &str) -> String {
    format!("{word}: {what}")
}
