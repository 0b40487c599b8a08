//! Every sentence of the office, so that a second language is a second folder.

pub(crate) mod attach;
pub mod blank;
pub(crate) mod commands;
pub(crate) mod copy_shelf;
pub(crate) mod days;
pub(crate) mod digest;
pub(crate) mod disk;
pub mod drafts;
pub(crate) mod failure;
pub(crate) mod figures;
pub(crate) mod files;
pub(crate) mod find;
pub mod intake;
pub mod issue;
pub(crate) mod names;
pub mod office;
pub(crate) mod places;
pub(crate) mod print;
pub(crate) mod print_out;
pub(crate) mod reprint;
pub(crate) mod rests_on;
pub(crate) mod save;
#[cfg(feature = "server")]
pub(crate) mod server;
pub(crate) mod shelf;
pub mod shop;
pub(crate) mod shop_csv;
pub(crate) mod shown;
pub(crate) mod start;
mod system;
pub(crate) mod threading;
pub mod today;
