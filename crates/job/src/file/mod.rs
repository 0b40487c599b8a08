//! Files: reading and writing of jobs, and what every file of ours has in common.

pub(crate) mod text;

pub use text::{LARGEST_FILE, TextError};
