//! Files: reading and writing of jobs, and what every file of ours has in common.

mod format;
pub(crate) mod hash;
#[cfg(test)]
mod keys;
pub(crate) mod parts;
pub(crate) mod read;
mod report;
pub(crate) mod text;
mod v2;
pub(crate) mod write;

pub use format::FORMAT;
pub use hash::{Hash, hash};
pub use read::{ReadError, read_job};
pub use text::{LARGEST_FILE, TextError};
pub use write::write_job;
