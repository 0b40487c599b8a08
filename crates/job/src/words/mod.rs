//! Everything that is said to the user, in one place: a second language is a second set of files.

pub mod edits;
pub mod names;
pub mod refusals;
