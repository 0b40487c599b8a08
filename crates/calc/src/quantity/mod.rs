//! The quantities of the trade, each with only the products that occur.

mod angle;
mod band;
mod length;
mod limits;
mod same;
mod spread;

pub use angle::Angle;
pub use band::Band;
pub use length::{Length, MM_PER_INCH};
pub use limits::Limits;
pub use same::{ROUNDING_MM, SAME_SIZE_MM};
pub use spread::{Pace, Spread, Z90};
