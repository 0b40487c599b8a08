//! Why two desks' work can't be put together.

/// Why two desks' work can't be put together; nothing of it is lost.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MergeRefused {
    /// The table would have more rows than it can.
    TooManyRows {
        /// Most rows of a table.
        most: usize,
    },
    /// The job would have more slips than it can.
    TooManySlips {
        /// Most slips of a job.
        most: usize,
    },
    /// The job would have more reports of pasted tables than it keeps.
    TooManyReports {
        /// Most reports of a job.
        most: usize,
    },
    /// Every identity of rows or slips has been given out.
    IdentitiesRunOut,
    /// The file would be larger than any that is read.
    TooLarge,
}
