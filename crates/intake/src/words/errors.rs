//! Why a table could not be taken.

use std::error::Error;
use std::fmt;

use super::columns::{holds, question};
use super::in_quotes;
use crate::column::{Holds, Question};
use crate::delimited::{MOST_CELLS, MOST_CELLS_IN_ALL, MOST_LINES, TooManyCells};
use crate::error::IntakeError;
use crate::workbook::WorkbookError;

/// Columns that nobody has said the meaning of.
fn not_understood(questions: &[Question]) -> String {
    let all: Vec<String> = questions.iter().map(question).collect();
    let verb = if all.len() == 1 { "is" } else { "are" };
    let text = format!("{} {verb} not understood", all.join(", "));
    text.replacen("column", "Column", 1)
}

/// Names of sheets in a sentence.
fn sheets(names: &[String]) -> String {
    let names: Vec<String> = names.iter().map(|name| in_quotes(name)).collect();
    names.join(", ")
}

const STOPPED: &str = "read it again when there is time";

impl WorkbookError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NoWorkbook => "give the workbook itself, or the hole table as CSV",
            Self::Locked => "open it with its password and save a copy without one",
            Self::OldKind => "open it in a spreadsheet program and save it as .xlsx, .ods or CSV",
            Self::Damaged(_) => {
                "open it in a spreadsheet program and save it anew; where that fails, ask for it again"
            }
            Self::Stopped => STOPPED,
            Self::TooLarge | Self::TooManyCells(_) => {
                "copy the lines and columns that describe holes into a workbook of their own"
            }
        }
    }
}

impl Error for WorkbookError {}

impl fmt::Display for WorkbookError {
    /// One sentence: why a workbook can't be read.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoWorkbook => f.write_str("This is a packed file, and no workbook"),
            Self::Locked => f.write_str("The workbook asks for a password"),
            Self::OldKind => {
                f.write_str("This is an old binary workbook (.xls), which is not read")
            }
            Self::Damaged(why) => write!(f, "The workbook is damaged ({why})"),
            Self::Stopped => f.write_str("Reading the workbook was stopped"),
            Self::TooLarge => {
                f.write_str("Unpacked, the workbook is far larger than a hole table is")
            }
            Self::TooManyCells(sheet) => write!(
                f,
                "The sheet {} has more than {MOST_CELLS} columns, or far more lines and cells than a hole table has",
                in_quotes(sheet)
            ),
        }
    }
}

impl IntakeError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NotText => {
                "give the hole table as a workbook (.xlsx, .ods), as CSV or as tab-separated text"
            }
            Self::Workbook(error) => error.hint(),
            Self::NoSuchSheet(..) | Self::WhichSheet(_) => "name the sheet with --worksheet NAME",
            Self::TooMany(_) => {
                "see whether this is the hole table's file; if it is, save the columns and lines that describe holes to a file of their own"
            }
            Self::OtherPart(_) => {
                "ask for it as STEP, DXF or PDF, or for the hole table as CSV or workbook"
            }
            Self::NoTable => "copy the table out of it into a workbook, and give that",
            Self::NoSizes => {
                "see whether this is the hole table; if it is, say which column holds the sizes (--column \"HEAD=size\")"
            }
            Self::Stopped => STOPPED,
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
            Self::OtherPart(ending) => write!(
                f,
                "This is a part or a drawing (.{ending}) of a kind that is not read"
            ),
            Self::NoTable => f.write_str("This is marked-up or packed text, and no table"),
            Self::NoSizes => {
                f.write_str("Nothing in the file looks like sizes or locations of holes")
            }
            Self::Stopped => f.write_str("Reading the table was stopped"),
            Self::TooMany(TooManyCells::InLine(line)) => write!(
                f,
                "Line {line} has more than {MOST_CELLS} cells, which no hole table has"
            ),
            Self::TooMany(TooManyCells::Lines) => write!(
                f,
                "There are more than {MOST_LINES} lines with anything in them, which no hole table has"
            ),
            Self::TooMany(TooManyCells::InAll) => write!(
                f,
                "There are more than {MOST_CELLS_IN_ALL} cells, which no hole table has"
            ),
            Self::Workbook(error) => error.fmt(f),
            Self::NoSuchSheet(name, there) => {
                let name = in_quotes(name);
                match there.as_slice() {
                    [] => write!(f, "There is no sheet {name}: the file is no workbook"),
                    there => write!(f, "There is no sheet {name}, only {}", sheets(there)),
                }
            }
            Self::WhichSheet(there) => {
                write!(f, "Several sheets may be the hole table: {}", sheets(there))
            }
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
