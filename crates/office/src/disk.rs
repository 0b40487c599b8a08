//! What the shelf asks of a disk: few steps, each of which can fail. None of them follows a link that
//! stands under the last name of its path; folders on the way are entered whatever they are.

mod real;
mod steps;

pub use real::RealDisk;
pub use steps::{Disk, Found, Held, Kind, Lock, Look, Stamp};
