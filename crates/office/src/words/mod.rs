//! Every sentence of the office, so that a second language is a second folder.

pub(crate) mod digest;
pub(crate) mod names;
pub(crate) mod save;
pub(crate) mod shelf;
