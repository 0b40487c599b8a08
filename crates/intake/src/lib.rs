//! Foreign formats of hole tables, read into one edit and a report.
//!
//! This crate knows nothing of windows or paper. It never drops a line: what it can't place goes
//! into the row's note, and the report says so.

pub mod columns;
pub mod delimited;
pub mod encoding;
pub mod report;
pub mod table;

pub use report::{Line, Outcome, Report};
pub use table::{Taken, take_block, take_file};
