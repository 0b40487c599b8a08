//! The figures of a job that can be opened to see their working, and overruled.

pub(crate) mod key;
mod working;

pub use key::{CostLine, Figure};
pub use working::{Alternative, Formula, Input, Name, Origin, Quantity, Unit, Working};
