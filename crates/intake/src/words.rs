//! What is said of foreign tables: heads, values, what was guessed and left out.

use std::error::Error;
use std::fmt;

use quillbore_job::words::english;
use quillbore_job::{Column, Unit};

use crate::column::{Holds, Question};
use crate::columns::Meaning;
use crate::delimited::{MOST_CELLS, MOST_CELLS_IN_ALL, TooManyCells};
use crate::error::IntakeError;

/// Longest text of a cell that the report of a line repeats, in characters.
const QUOTED: usize = 200;

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

/// Columns with a head and nothing below it.
pub(crate) fn nothing_under(heads: &[&str]) -> String {
    let heads: Vec<String> = heads.iter().map(|head| in_quotes(head)).collect();
    format!("There is nothing under {}.", heads.join(", "))
}

/// What separates the cells of a file.
pub(crate) fn separator(separator: char) -> String {
    let separated_by = match separator {
        '\t' => "tabs",
        ';' => "semicolons",
        _ => "commas",
    };
    format!("The cells are separated by {separated_by}.")
}

/// The letters of a file were taken as a code page that it doesn't name.
pub(crate) fn encoding_guessed(encoding: &str) -> String {
    format!(
        "The file does not say how its letters are stored; {encoding} was taken: check characters such as the diameter sign and \u{b1}."
    )
}

/// The unit that bare lengths were read in, and the heads that name another one.
pub(crate) fn units(unit: Unit, others: &[(&str, Unit)]) -> String {
    let others = others
        .iter()
        .map(|(head, unit)| format!(", those under {} in {}", in_quotes(head), named(*unit)));
    let others: String = others.collect();
    format!(
        "Lengths without a unit were read in {}{others}.",
        named(unit)
    )
}

const fn named(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

fn in_quotes(head: &str) -> String {
    format!("\u{201c}{head}\u{201d}")
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

/// A cell that can't be read; the table keeps its whole text.
pub(crate) fn unread(column: Column, text: &str, why: &str) -> String {
    let mut start: String = text.chars().take(QUOTED).collect();
    if start.len() < text.len() {
        start.push('\u{2026}');
    }
    let why = why.trim_end_matches('.');
    format!(
        "{} {}: {why}",
        english::column(column).head,
        in_quotes(&start)
    )
}

impl IntakeError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NotText => {
                "save the hole table from the spreadsheet as CSV or as tab-separated text"
            }
            Self::TooMany(_) => {
                "see whether this is the hole table's file; if it is, save the columns and lines that describe holes to a file of their own"
            }
            Self::Empty | Self::HeadAlone => {
                "give a table with one hole, or one kind of hole, per line"
            }
            Self::NotUnderstood(_) => {
                "say what it is with --column \"HEAD=note\" (or depth, tolerance, x ...), or leave it out with --column \"HEAD=leave it out\"; a column without a head goes by its number"
            }
            Self::NoSuchColumn(_) => "name it by its head, or by its number from 1",
            Self::Twice(_) => "give one of the two another meaning, or leave it out",
        }
    }
}

impl Error for IntakeError {}

impl fmt::Display for IntakeError {
    /// One sentence: why a table could not be taken.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotText => f.write_str("This is not a text file"),
            Self::TooMany(TooManyCells::InLine(line)) => write!(
                f,
                "Line {line} has more than {MOST_CELLS} cells, which no hole table has"
            ),
            Self::TooMany(TooManyCells::InAll) => write!(
                f,
                "There are more than {MOST_CELLS_IN_ALL} cells, which no hole table has"
            ),
            Self::Empty => f.write_str("There is no line with anything in it"),
            Self::HeadAlone => f.write_str("There is a head, but no line below it"),
            Self::NotUnderstood(questions) => f.write_str(&not_understood(questions)),
            Self::NoSuchColumn(name) => {
                write!(f, "The table has no column \u{201c}{name}\u{201d}")
            }
            Self::Twice(meaning) => write!(
                f,
                "Two columns can't both be \u{201c}{}\u{201d}",
                holds(Holds::A(*meaning))
            ),
        }
    }
}

/// Line ends inside the quoted cells of a line.
pub(crate) fn line_breaks(breaks: usize) -> String {
    let more = match breaks {
        1 => "the line after it belongs".to_owned(),
        breaks => format!("the {breaks} lines after it belong"),
    };
    format!("{more} to it: a cell in quotes goes on there")
}

/// That a line was taken as it is.
pub(crate) const TAKEN: &str = "taken";

/// That a line is a further hole location of the row before.
pub(crate) const FURTHER_PLACE: &str = "taken as a further hole location of the row before";

/// That a size stood beside its tolerance and limits in no known way.
pub(crate) const SIZE_AND_LIMITS: &str = "the size and its limits could not be told apart";

/// That a hole location lacks a coordinate.
pub(crate) const HALF_A_PLACE: &str =
    "a hole location needs x and y at least: what there was went into the note";

/// That an axis has no length.
pub(crate) const NO_DIRECTION: &str = "the direction has no length: it went into the note";

/// That both limits count and the size beside them doesn't.
pub(crate) fn left_for_limits(nominal: &str, lower: &str, upper: &str) -> String {
    format!("the limits {lower} and {upper} were taken, not the size {nominal}")
}

/// That a hole location can't be read.
pub(crate) fn place_unread(why: &str) -> String {
    format!("the hole location went into the note: {why}")
}
