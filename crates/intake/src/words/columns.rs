//! Columns: what they hold, how that is known, what is asked.

use quillbore_job::words::english;

use super::in_quotes;
use crate::column::{Holds, How, Question, Why};
use crate::meaning::Meaning;

/// Words that leave a column out.
pub const LEAVE_OUT: &str = "leave it out";

/// What a column holds, by word.
#[must_use]
pub fn holds(holds: Holds) -> &'static str {
    match holds {
        Holds::LeftOut => LEAVE_OUT,
        Holds::A(Meaning::Ours(column)) => english::column(column).head,
        Holds::A(Meaning::Tolerance) => "tolerance",
        Holds::A(Meaning::Lower) => "lower limit",
        Holds::A(Meaning::Upper) => "upper limit",
        Holds::A(Meaning::LowerDeviation) => "lower deviation",
        Holds::A(Meaning::UpperDeviation) => "upper deviation",
        Holds::A(Meaning::DepthTolerance) => "depth tolerance",
        Holds::A(Meaning::Point(0)) => "x",
        Holds::A(Meaning::Point(1)) => "y",
        Holds::A(Meaning::Point(_)) => "z",
        Holds::A(Meaning::Axis(0)) => "axis i",
        Holds::A(Meaning::Axis(1)) => "axis j",
        Holds::A(Meaning::Axis(_)) => "axis k",
        Holds::A(Meaning::Unit) => "unit",
    }
}

/// How it is known what a column holds, behind what it holds.
#[must_use]
pub const fn how(how: How) -> &'static str {
    match how {
        How::Head => "by its head",
        How::Place => "by where it lies",
        How::Guess(why) => self::why(why),
        How::Memory => "as said of this customer's tables before",
        How::Said => "as you said",
        How::NotUnderstood => "not understood",
    }
}

/// Why a column is guessed.
pub(super) const fn why(why: Why) -> &'static str {
    match why {
        Why::Values => "guessed by its values",
        Why::HeadAndValues => "guessed by its head and values",
        Why::Beside => "guessed by its values and the columns beside it",
        Why::RowNumber => "a running number beside the marks",
    }
}

/// A column by its number and head, with what stands in it.
#[must_use]
pub fn question(question: &Question) -> String {
    let head = match question.head.as_str() {
        "" => " without a head".to_owned(),
        head => format!(" {}", in_quotes(head)),
    };
    let more = if question.more { "; \u{2026}" } else { "" };
    format!(
        "column {}{head} ({}{more})",
        question.column + 1,
        question.values.join("; ")
    )
}

/// How many columns of those with something in them are asked about: `3 of 9 columns not understood:
/// which are they?`
#[must_use]
pub fn not_understood_of(open: usize, of: usize) -> String {
    match (open, of) {
        (1, 1) => "1 column not understood: which is it?".to_owned(),
        (1, of) => format!("1 of {of} columns not understood: which is it?"),
        (open, of) => format!("{open} of {of} columns not understood: which are they?"),
    }
}

/// How many columns are guessed, where all are understood: `9 columns understood, 2 of them guessed:
/// see whether they are right`.
#[must_use]
pub fn understood(guessed: usize, of: usize) -> String {
    let columns = super::count(of as u64, "column", "columns");
    match (guessed, of) {
        (0, _) => format!("{columns} understood"),
        (1, 1) => "1 column guessed: see whether it is right".to_owned(),
        (1, _) => format!("{columns} understood, 1 of them guessed: see whether it is right"),
        (guessed, _) => {
            format!("{columns} understood, {guessed} of them guessed: see whether they are right")
        }
    }
}
