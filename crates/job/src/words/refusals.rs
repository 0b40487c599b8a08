//! Why an edit can't be done, and what to do instead.

use std::fmt;

use super::{english, slips};
use crate::edits::apply::refused::EditRefused;
use crate::pinned::answer::How;

impl fmt::Display for EditRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&edit(self))
    }
}

/// One sentence: what can't be done.
fn edit(why: &EditRefused) -> String {
    match why {
        EditRefused::NoSuchRow { .. } => "That row is no longer in the table".to_owned(),
        EditRefused::BelowTheTable { row, rows } => {
            format!(
                "Row {} is below the table, which has {rows} rows",
                row.saturating_add(1)
            )
        }
        EditRefused::PastLastColumn {
            from,
            columns,
            room,
        } => format!(
            "The block has {columns} columns, but from {} on the table has only {room}",
            english::column(*from).name
        ),
        EditRefused::PastLastLine {
            from,
            columns,
            room,
        } => format!(
            "The block has {columns} columns, but from \u{201c}{}\u{201d} on the run records have only \
             {room}",
            slips::line(*from)
        ),
        EditRefused::TooManyRows { most } => format!("A table can't have more than {most} rows"),
        EditRefused::TextTooLong { most } => {
            format!("A text in it is longer than {most} characters")
        }
        EditRefused::TooManyPlaces { most } => {
            format!("A row can't have more than {most} hole locations")
        }
        EditRefused::PlaceUnusable { number } => {
            format!("Hole location {number} has no usable point or direction")
        }
        EditRefused::PlaceTwice { number } => format!("Hole location {number} is there twice"),
        EditRefused::TooManyReports { most } => {
            format!("A job can't keep more than {most} reports of pasted tables")
        }
        EditRefused::ReportTooLong { most } => {
            format!("The report on that table would have more than {most} lines")
        }
        EditRefused::TooManySlips { most } => format!("A job can't have more than {most} slips"),
        EditRefused::NoSuchSlip => "That slip is no longer on the sheet".to_owned(),
        EditRefused::NoSuchLine { line } => {
            format!("A slip of that kind has no line for {}", slips::line(*line))
        }
        EditRefused::WithdrawalStays { number } => {
            format!("The slip that withdraws {number} stays on the sheet, with that number on it")
        }
        EditRefused::ReasonMissing => "An overruled figure needs a reason".to_owned(),
        EditRefused::ValueMissing => "An overruled figure needs a value".to_owned(),
        EditRefused::NotOverruled => "That figure is not overruled".to_owned(),
        EditRefused::AnswerMissing { how: How::Agreed } => "It doesn't say who agreed".to_owned(),
        EditRefused::AnswerMissing { how: How::Accepted } => {
            "It doesn't say why it is accepted".to_owned()
        }
        EditRefused::AnswerUnfit { most } => {
            format!("An answer has at most {most} characters, all of which can be printed")
        }
        EditRefused::FactsUnusable => {
            "What the check says of this row is not a number, so there is nothing to answer"
                .to_owned()
        }
        EditRefused::NotAnswered => "That check has no answer".to_owned(),
    }
}

impl EditRefused {
    /// What to do instead.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            EditRefused::NoSuchRow { .. } => "Choose the row in the table as it is now.",
            EditRefused::BelowTheTable { .. } => "Start at the empty row below the last one.",
            EditRefused::PastLastColumn { .. } | EditRefused::PastLastLine { .. } => {
                "Start further left, or leave out the columns that don't belong to the table."
            }
            EditRefused::TooManyRows { .. } => {
                "Put holes of one specification into one row with hole locations, or make a second job."
            }
            EditRefused::TextTooLong { .. } => "Check what was copied: a cell holds a short text.",
            EditRefused::TooManyPlaces { .. } => "Spread the hole locations over several rows.",
            EditRefused::PlaceUnusable { .. } => {
                "Check its coordinates, and that its direction is not zero."
            }
            EditRefused::PlaceTwice { .. } => "Give each hole location of a row its own number.",
            EditRefused::TooManyReports { .. } => "Go on in a reorder of this job.",
            EditRefused::ReportTooLong { .. } => {
                "Take the table in several parts, or first correct what can't be read."
            }
            EditRefused::TooManySlips { .. } => "Begin another job for what comes next.",
            EditRefused::NoSuchSlip => "Choose among the slips as they are now.",
            EditRefused::NoSuchLine { .. } => "Put it into the note, or on another slip.",
            EditRefused::WithdrawalStays { .. } => {
                "Undo it if it was added just now; to make that paper valid again type why, and who says so, \
             into \u{201c}valid again because\u{201d}; another paper gets a slip of its own."
            }
            EditRefused::ReasonMissing => "Say in a few words why the figure is another one.",
            EditRefused::ValueMissing => {
                "Type the figure, or withdraw the overrule to go back to the computed one."
            }
            EditRefused::NotOverruled => "The computed figure is used already.",
            EditRefused::AnswerMissing { how: How::Agreed } => "Type the name of who agreed.",
            EditRefused::AnswerMissing { how: How::Accepted } => "Type in a few words why.",
            EditRefused::AnswerUnfit { .. } => "Put the rest into the notes.",
            EditRefused::FactsUnusable => "See what the check says first.",
            EditRefused::NotAnswered => "The check asks as it did before.",
        }
    }
}
