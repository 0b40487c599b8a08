//! Why a table could not be taken.

use std::error::Error;
use std::fmt;

use super::columns::{holds, question};
use super::in_quotes;
use crate::column::{Holds, Question};
use crate::delimited::{MOST_CELLS, MOST_CELLS_IN_ALL, TooManyCells};
use crate::error::IntakeError;

/// Columns that nobody has said the meaning of.
fn not_understood(questions: &[Question]) -> String {
    let all: Vec<String> = questions.iter().map(question).collect();
    let verb = if all.len() == 1 { "is" } else { "are" };
    let text = format!("{} {verb} not understood", all.join(", "));
    text.replacen("column", "Column", 1)
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
                "give a table with one hole, or one kind of hole, a line"
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
                write!(f, "The table has no column {}", in_quotes(name))
            }
            Self::Twice(meaning) => write!(
                f,
                "Two columns can't both be {}",
                in_quotes(holds(Holds::A(*meaning)))
            ),
        }
    }
}
