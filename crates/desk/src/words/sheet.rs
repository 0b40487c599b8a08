//! What is written at the lines of the sheet and at its side notes.

use quillbore_job::answer::How;
use quillbore_job::words::answers;
use quillbore_job::{FieldKind, Unit};

/// That no choice is called so.
pub const NONE_OF_LIST: &str = "none of the list has that in its name";

/// Puts an answer to a side note down.
pub const PUT_IT_DOWN: &str = "note it";

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

/// Opens the lines of a block that a first quotation doesn't need, and how many of them are filled in.
#[must_use]
pub fn more_lines(filled: usize) -> String {
    match filled {
        0 => "more lines".to_owned(),
        filled => format!("more lines, {filled} filled"),
    }
}

/// The name of the word that opens them.
#[must_use]
pub fn lines_of(block: &str) -> String {
    format!("more lines of {block}")
}

/// Folds a block to one line, or opens it.
#[must_use]
pub const fn fold(folded: bool) -> &'static str {
    if folded { "open" } else { "fold" }
}

/// The name of the word that does.
#[must_use]
pub fn fold_block(folded: bool, block: &str) -> String {
    format!("{} {block}", fold(folded))
}

/// The label of a field, with the unit of bare numbers in it, or the currency of amounts.
#[must_use]
pub fn label(label: &str, kind: FieldKind, unit: Unit, currency: Option<&str>) -> String {
    if let Some(currency) = currency {
        return format!("{label} {currency}");
    }
    match kind {
        FieldKind::Length | FieldKind::LengthOrNone | FieldKind::Tolerance => {
            format!("{label} {}", unit.symbol())
        }
        FieldKind::RestsOn => format!("{label} {}", unit.symbol()),
        FieldKind::Pressure => match unit {
            Unit::Mm => format!("{label} bar"),
            Unit::Inch => format!("{label} psi"),
        },
        FieldKind::Mass => match unit {
            Unit::Mm => format!("{label} kg"),
            Unit::Inch => format!("{label} lb"),
        },
        _ => label.to_owned(),
    }
}

/// How many choices are not shown.
#[must_use]
pub fn more_choices(more: usize) -> String {
    format!("{more} more: type a part of the name")
}

/// How many notes are not shown.
#[must_use]
pub fn more_notes(more: usize) -> String {
    match more {
        1 => "1 more note".to_owned(),
        more => format!("{more} more notes"),
    }
}

/// Closes the list of all notes.
pub const NOTES_IN_SIGHT: &str = "close the list";

/// The key that does.
pub const ESC: &str = "Esc";

/// How many notes there are.
#[must_use]
pub fn notes(count: usize) -> String {
    match count {
        1 => "1 note".to_owned(),
        count => format!("{count} notes"),
    }
}

/// The words that answer a note, as they stand beside each other.
#[must_use]
pub fn answers_in_one() -> String {
    let all = How::ALL.iter().map(|how| answers::how(*how));
    all.collect::<Vec<_>>().join("   ")
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

/// What a machine drills and costs.
#[must_use]
pub fn machine(tubes: &str, rate: &str, currency: &str) -> String {
    format!("electrodes {tubes}, {rate} {currency} an hour")
}

/// That an answer is to other rows, too, the first of them by name.
#[must_use]
pub fn for_others(marks: &[String]) -> String {
    const SHOWN: usize = 3;
    let named = about(
        &marks[..marks.len().min(SHOWN)],
        marks.len().saturating_sub(SHOWN),
    );
    format!("also for {named}")
}
