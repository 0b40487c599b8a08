//! Papers that left the house: numbered, dated, known by the hash of their PDF, with what they said
//! and what they rested on, so that nothing that changes later can change them.

pub(crate) mod seal;
mod standing;
mod withdrawal;

pub use crate::job::{Issued, IssuedLine, Seal};
pub use crate::pinned::number::is_number;
pub use crate::pinned::paper::Paper;
pub use seal::SealState;
