//! Why an edit can't be done.

use quillbore_calc::RowId;

use crate::pinned::answer::How;
use crate::pinned::slip::lists::Line;
use crate::typed::row::Column;

/// Why an edit was refused; the job stays as it was.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditRefused {
    /// The row is not in the table.
    NoSuchRow {
        /// The row asked for.
        row: RowId,
    },
    /// The place is below the empty row under the table.
    BelowTheTable {
        /// The row asked for, from 0.
        row: usize,
        /// Rows in the table.
        rows: usize,
    },
    /// The block reaches past the last column.
    PastLastColumn {
        /// The column it starts in.
        from: Column,
        /// Columns that the block has.
        columns: usize,
        /// Columns from there to the table's end.
        room: usize,
    },
    /// The block reaches past the last column of the run records.
    PastLastLine {
        /// The column it starts in.
        from: Line,
        /// Columns that the block has.
        columns: usize,
        /// Columns from there to the table's end.
        room: usize,
    },
    /// The table would have more rows than it can.
    TooManyRows {
        /// Most rows of a table.
        most: usize,
    },
    /// A text is longer than any cell needs.
    TextTooLong {
        /// Most characters of a text.
        most: usize,
    },
    /// More places than a row can have.
    TooManyPlaces {
        /// Most places of a row.
        most: usize,
    },
    /// A place has no usable point or direction.
    PlaceUnusable {
        /// Its number.
        number: u32,
    },
    /// Two places have the same number.
    PlaceTwice {
        /// The number.
        number: u32,
    },
    /// The job would keep more reports than it can.
    TooManyReports {
        /// Most reports of a job.
        most: usize,
    },
    /// The report of a table has more to tell than a job keeps.
    ReportTooLong {
        /// Most sentences and lines of a report.
        most: usize,
    },
    /// The job would have more slips than it can.
    TooManySlips {
        /// Most slips of a job.
        most: usize,
    },
    /// The slip is not on the sheet.
    NoSuchSlip,
    /// A slip of that kind has no such line.
    NoSuchLine {
        /// The line asked for.
        line: Line,
    },
    /// A slip that withdrew a paper of this job: it stays, and so does the number on it.
    WithdrawalStays {
        /// The paper's number.
        number: String,
    },
    /// An overrule without a reason.
    ReasonMissing,
    /// An overrule without a value.
    ValueMissing,
    /// There is no overrule to withdraw.
    NotOverruled,
    /// An answer that doesn't say who agreed, or why it is accepted.
    AnswerMissing {
        /// Which of both it should say.
        how: How,
    },
    /// An answer that is too long or can't be printed.
    AnswerUnfit {
        /// Most characters of it.
        most: usize,
    },
    /// An answer whose facts are no numbers: no file could hold it.
    FactsUnusable,
    /// There is no answer to withdraw.
    NotAnswered,
}
