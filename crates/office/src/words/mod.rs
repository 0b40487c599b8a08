//! Every sentence of the office, so that a second language is a second folder.

pub(crate) mod digest;
pub mod drafts;
pub mod issue;
pub(crate) mod names;
pub mod office;
pub(crate) mod save;
pub(crate) mod shelf;
