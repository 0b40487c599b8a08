//! What is written at the table of the run records.

pub use quillbore_job::words::runs::WHICH_MINUTES;

/// What a line of the table is called.
pub const ROW: &str = "run";

/// Adds a line for each mark that has none.
pub const OF_MARKS: &str = "a line for each mark";

/// Deletes the line.
pub const DELETE_LINE: &str = "delete line";

/// Shows every column.
pub const ALL_COLUMNS: &str = "all columns of runs";

/// Said where every mark has a line.
pub const NONE_TO_ADD: &str = "Every mark of the hole table has a run record.";

/// Lays out what a line has besides its columns.
#[must_use]
pub fn more_of(row: usize) -> String {
    format!("trouble, settings, next time of line {}", row + 1)
}
