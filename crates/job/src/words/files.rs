//! What is said when a file can't be read or written.

use std::fmt;

use crate::file::parts::Unfit;
use crate::file::read::ReadError;
use crate::ground::limits::LONGEST_TEXT;
use crate::ground::text::{LARGEST_FILE_MB, TextError};
use crate::pinned::report::{MOST_REPORTS, MOST_TOLD};

impl fmt::Display for TextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&text(self))
    }
}

/// One sentence: why a file is not one of ours.
fn text(why: &TextError) -> String {
    match why {
        TextError::Empty => "The file is empty".to_owned(),
        TextError::TooLarge => format!("The file is larger than {LARGEST_FILE_MB} MB"),
        TextError::Binary { at } => format!("The file is not text: byte {at} is zero"),
        TextError::NotUtf8 { line } => format!("Line {line} of the file is not UTF-8 text"),
        TextError::NoFormat => {
            "The file does not begin with a format number such as (format: 1, ...)".to_owned()
        }
        TextError::NewerFormat { found, newest } => {
            format!(
                "The file has format {found} and was written by a newer version: this version, \
                 which reads formats up to {newest}, would lose parts of it"
            )
        }
        TextError::UnknownKey { line, column, key } => format!(
            "Line {line}, column {column} of the file says {key:?}, a name that was written by a \
             newer version: this version would lose parts of it"
        ),
        TextError::MissingKey { line, column, key } => {
            format!("What ends at line {line}, column {column} of the file does not say {key:?}")
        }
        TextError::KeyTwice { line, column, key } => {
            format!("Line {line}, column {column} of the file says {key:?} a second time")
        }
        TextError::UnknownFormat { found } => {
            format!("The file says format {found}, which never existed")
        }
        TextError::Truncated { line, column } => {
            format!("The file ends in the middle, at line {line}, column {column}")
        }
        TextError::Broken { line, column, what } => {
            format!("Line {line}, column {column} of the file can't be read: {what}")
        }
    }
}

impl TextError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            TextError::Empty | TextError::Truncated { .. } => {
                "Take the version before the last save, previous.ron in the folder of the same name that ends in .files."
            }
            TextError::TooLarge
            | TextError::Binary { .. }
            | TextError::NotUtf8 { .. }
            | TextError::NoFormat => "Choose a file that this program has written.",
            TextError::NewerFormat { .. } => {
                "Open it with a newer version of the program; the file was left as it is."
            }
            TextError::UnknownKey { .. } => {
                "Open it with a newer version of the program, or correct the name if somebody wrote it by hand; the file was left as it is."
            }
            TextError::UnknownFormat { .. }
            | TextError::MissingKey { .. }
            | TextError::KeyTwice { .. }
            | TextError::Broken { .. } => {
                "Correct it in a text editor, or take the version before the last save."
            }
        }
    }
}

impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&unfit(self))
    }
}

/// Half a sentence: what a part of a job's file can't be.
fn unfit(why: &Unfit) -> String {
    match why {
        Unfit::KeyTwice { what, key } => format!("the {what} {key:?} appears twice"),
        Unfit::Place { number } => {
            format!("hole location {number} has no usable point or direction")
        }
        Unfit::Day { text } => format!("{text:?} is not a date like 2026-01-31"),
        Unfit::Hash { text } => format!("{text:?} is not a hash of 64 hexadecimal digits"),
        Unfit::Amount { text } => format!("{text:?} is not an amount of money"),
        Unfit::ReportTooLong => format!("a report has more than {MOST_TOLD} lines"),
        Unfit::ReportText => {
            format!("a text of a report is longer than {LONGEST_TEXT} characters")
        }
        Unfit::NotFinite => "a number is infinite or not a number".to_owned(),
        Unfit::ReasonMissing => "an overruled figure has no reason".to_owned(),
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&read(self))
    }
}

/// One sentence: why a file holds no job.
fn read(why: &ReadError) -> String {
    match why {
        ReadError::Text(why) => text(why),
        ReadError::RowTwice { id } => format!("Two rows of the job have the identity {id}"),
        ReadError::RowTooLarge { id, next } => {
            format!("A row has the identity {id}, but the next one to be given out is {next}")
        }
        ReadError::PlaceTwice { row, number } => {
            format!("Hole location {number} of the row with the identity {row} appears twice")
        }
        ReadError::SlipTwice { id } => format!("Two slips of the job have the identity {id}"),
        ReadError::SlipTooLarge { id, next } => {
            format!("A slip has the identity {id}, but the next one to be given out is {next}")
        }
        ReadError::LineElsewhere { id, line } => format!(
            "The slip with the identity {id} has a line {:?} that was written by a newer version: \
             this version would lose parts of it",
            line.key()
        ),
        ReadError::PaperTwice { number } => format!("The issued paper {number:?} appears twice"),
        ReadError::InputsTooDeep { number } => {
            format!("The issued paper {number:?} holds slips, papers or reports among its inputs")
        }
        ReadError::TooManyReports { reports } => format!(
            "The job has {reports} reports of pasted tables, and keeps {MOST_REPORTS} at most"
        ),
        ReadError::FigureTwice => "One figure of the job is overruled twice".to_owned(),
        ReadError::AnswerTwice { row } => {
            format!("One check of the row with identity {row} has two answers")
        }
    }
}

impl ReadError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            ReadError::Text(why) => why.hint(),
            ReadError::LineElsewhere { .. } => {
                "Open it with a newer version of the program; the file was left as it is."
            }
            ReadError::RowTwice { .. }
            | ReadError::RowTooLarge { .. }
            | ReadError::PlaceTwice { .. }
            | ReadError::SlipTwice { .. }
            | ReadError::SlipTooLarge { .. }
            | ReadError::PaperTwice { .. }
            | ReadError::InputsTooDeep { .. }
            | ReadError::TooManyReports { .. }
            | ReadError::AnswerTwice { .. }
            | ReadError::FigureTwice => {
                "Correct it in a text editor, or take the version before the last save."
            }
        }
    }
}
