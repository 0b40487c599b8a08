//! What is said of foreign tables: heads, values, what was guessed and left out.

use quillbore_job::words::english;

use crate::columns::Meaning;
use crate::foreign::{Holds, Question};

/// Words that leave a column out.
pub const LEAVE_OUT: &str = "leave it out";

/// What a column holds, by word.
#[must_use]
pub fn holds(holds: Holds) -> &'static str {
    match holds {
        Holds::LeftOut => LEAVE_OUT,
        Holds::A(Meaning::Ours(column)) => english::column(column),
        Holds::A(Meaning::Tolerance) => "tolerance",
        Holds::A(Meaning::Lower) => "lower limit",
        Holds::A(Meaning::Upper) => "upper limit",
        Holds::A(Meaning::Point(0)) => "x",
        Holds::A(Meaning::Point(1)) => "y",
        Holds::A(Meaning::Point(_)) => "z",
        Holds::A(Meaning::Axis(0)) => "axis i",
        Holds::A(Meaning::Axis(1)) => "axis j",
        Holds::A(Meaning::Axis(_)) => "axis k",
    }
}

/// A column by its number and head, with what stands in it.
#[must_use]
pub fn question(question: &Question) -> String {
    let head = match question.head.as_str() {
        "" => " without a head".to_owned(),
        head => format!(" \u{201c}{head}\u{201d}"),
    };
    let more = if question.more { "; \u{2026}" } else { "" };
    format!(
        "column {}{head} ({}{more})",
        question.column + 1,
        question.values.join("; ")
    )
}

/// Columns that nobody has said the meaning of.
pub(crate) fn not_understood(questions: &[Question]) -> String {
    let all: Vec<String> = questions.iter().map(question).collect();
    let verb = if all.len() == 1 { "is" } else { "are" };
    let text = format!("{} {verb} not understood", all.join(", "));
    text.replacen("column", "Column", 1)
}

/// The first line is a head.
pub(crate) fn head_taken(known: &[&str]) -> String {
    format!(
        "The first line was taken as the head: {}.",
        known.join(", ")
    )
}

/// A column was said to hold something.
pub(crate) fn said(question: &Question, what: Holds) -> String {
    match what {
        Holds::LeftOut => format!("Left out: {}.", self::question(question)),
        Holds::A(_) => format!("Taken as {}: {}.", holds(what), self::question(question)),
    }
}

/// A cell of a line that is left out.
pub(crate) fn cell_left_out(head: &str, cell: &str) -> String {
    let head = if head.is_empty() {
        String::new()
    } else {
        format!("{head} ")
    };
    format!("left out: \u{201c}{head}{cell}\u{201d}")
}

/// A cell that can't be read.
pub(crate) fn unread(column: quillbore_job::Column, text: &str, why: &str) -> String {
    let why = why.trim_end_matches('.');
    format!("{} \u{201c}{text}\u{201d}: {why}", english::column(column))
}
