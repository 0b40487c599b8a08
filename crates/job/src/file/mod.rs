//! Files: reading and writing of jobs, and what every file of ours has in common.

mod format;
#[cfg(test)]
mod keys;
pub(crate) mod parts;
pub(crate) mod read;
mod report;
mod v2;
pub(crate) mod write;

pub use crate::ground::hash::{Hash, hash};
pub use crate::ground::text::{LARGEST_FILE, LARGEST_FILE_MB, TextError};
pub use format::FORMAT;
pub use read::{ReadError, read_job};
pub use write::write_job;
