//! Everything that is said to the user, in one place: a second language is a second set of files.

pub mod answers;
pub(crate) mod depth;
pub mod edits;
pub mod english;
mod files;
pub mod findings;
pub(crate) mod foot;
pub mod issued;
pub mod life;
mod limits;
mod marks;
pub mod merge;
mod misread;
pub mod names;
pub mod own;
mod places;
pub mod price;
pub mod promise;
mod refusals;
pub mod reports;
pub(crate) mod run_notes;
pub mod runs;
mod shop;
pub mod slips;
pub mod speaker;
pub mod taught;
pub mod workings;
