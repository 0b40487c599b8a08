//! Everything that can be done to a job.

pub mod apply;
pub mod edit;
pub mod prefilled;
pub mod run_lines;
