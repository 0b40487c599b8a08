//! How much one job can hold.

/// Most rows of a table.
pub const MOST_ROWS: usize = 100_000;

/// Most places of a row.
pub const MOST_PLACES: usize = 100_000;

/// Most slips of a job.
pub const MOST_SLIPS: usize = 10_000;

/// Most characters of one text.
pub const LONGEST_TEXT: usize = 100_000;

/// Longest word of an answer, in characters: it is printed in one line or two.
pub const LONGEST_ANSWER: usize = 400;
