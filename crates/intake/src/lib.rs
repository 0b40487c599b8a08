//! Foreign formats of hole tables, read into one edit and a report.
//!
//! This crate knows nothing of windows or paper. It never drops a line or a column by itself: a
//! column that it doesn't understand is asked about, and what somebody leaves out the report says.

mod column;
pub mod columns;
pub mod delimited;
pub mod encoding;
mod error;
mod foreign;
mod line;
mod lines;
mod quotes;
pub mod table;
pub mod words;

pub use column::{Holds, Question};
pub use columns::Meaning;
pub use error::IntakeError;
pub use foreign::{Foreign, holds_of};
pub use lines::{Line, Lines};
pub use table::Taken;
