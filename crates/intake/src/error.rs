//! Why a foreign table could not be taken; the sentences are in the words.

use crate::column::Question;
use crate::delimited::{NotSplit, TooManyCells};
use crate::meaning::Meaning;
use crate::workbook::WorkbookError;

/// Why a table could not be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum IntakeError {
    /// The bytes are no text.
    NotText,
    /// There are more cells than a hole table has.
    TooMany(TooManyCells),
    /// It is a workbook that can't be read.
    Workbook(WorkbookError),
    /// The workbook has no sheet of this name; those that it has.
    NoSuchSheet(String, Vec<String>),
    /// Several sheets may be the hole table, and nobody said which.
    WhichSheet(Vec<String>),
    /// It is a part or a drawing of a kind that is not read; how its name ends.
    OtherPart(String),
    /// It is marked-up text, a letter or a packed file, and no table.
    NoTable,
    /// No column can be the holes' sizes or locations.
    NoSizes,
    /// Whoever waited for it stopped it.
    Stopped,
    /// There is nothing in it.
    Empty,
    /// There is a head with nothing below it.
    HeadAlone,
    /// Columns that nobody said the meaning of.
    NotUnderstood(Vec<Question>),
    /// No column has that number or head.
    NoSuchColumn(String),
    /// Another column holds that already.
    Twice(Meaning),
}

impl From<TooManyCells> for IntakeError {
    fn from(too_many: TooManyCells) -> Self {
        Self::TooMany(too_many)
    }
}

impl From<NotSplit> for IntakeError {
    fn from(why: NotSplit) -> Self {
        match why {
            NotSplit::TooMany(too_many) => Self::TooMany(too_many),
            NotSplit::Stopped => Self::Stopped,
        }
    }
}

impl From<WorkbookError> for IntakeError {
    fn from(error: WorkbookError) -> Self {
        match error {
            WorkbookError::Stopped => Self::Stopped,
            error => Self::Workbook(error),
        }
    }
}
