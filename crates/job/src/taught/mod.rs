//! What the run records of a job say: each held against what the start values say of the same holes.

mod of_job;
mod reading;
mod why;

pub use of_job::{Taught, taught};
pub use why::Why;
