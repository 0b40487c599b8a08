//! Files: reading and writing of jobs, and what every file of ours has in common.

mod format;
pub(crate) mod hash;
#[cfg(test)]
mod keys;
mod read;
mod report;
pub(crate) mod text;
mod v2;
mod write;

pub use format::FORMAT;
pub use hash::{Hash, hash};
pub use read::{ReadError, read_job};
pub use text::{LARGEST_FILE, TextError};
pub(crate) use v2::Unfit;
pub use write::write_job;
