//! What knows nothing of jobs: lists of names, limits, hashes, what every file has in common.

pub(crate) mod hash;
pub mod keyed_list;
pub mod limits;
pub(crate) mod list;
pub mod same_name;
pub(crate) mod stands_in;
pub(crate) mod text;
