//! What the run records of a job say: each held against what the start values say of the same holes.

mod of_job;
mod reading;

pub use crate::life::untaught::Why;
pub use of_job::{Taught, taught};
