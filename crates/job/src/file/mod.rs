//! Files: reading and writing of jobs, and what every file of ours has in common.

mod hash;
#[cfg(test)]
mod keys;
mod read;
mod report;
pub(crate) mod text;
mod v2;
mod write;

pub use hash::{Hash, hash};
pub use read::{ReadError, read_job};
pub use text::{LARGEST_FILE, TextError};
pub(crate) use v2::Unfit;
pub use write::write_job;

/// The newest format of job files, the one that is written.
pub const FORMAT: u32 = 2;
