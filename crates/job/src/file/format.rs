//! The format of job files.

/// The newest format of job files, the one that is written.
pub const FORMAT: u32 = 2;
