//! What is pinned to the sheet: slips, answers to checks, reports on tables that came from elsewhere,
//! and what papers are called.

pub mod answer;
pub mod concern;
pub(crate) mod number;
pub(crate) mod paper;
pub mod read_line;
pub mod report;
pub mod slip;
