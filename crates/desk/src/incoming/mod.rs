//! A customer's file on its way into the hole table: what was understood of it lies over the sheet until it
//! lands, and nothing of the job changes before.

mod compared;
mod drawn;
mod file;
mod kinds;
mod page;
mod pages;
mod picture;

pub use drawn::drawn_ui;
pub use file::{Choosing, FromFile, Lands, Offering, Reckoned};
pub use page::Shown;
pub use pages::offered_ui;
pub use picture::Seen;

pub(crate) use compared::{file_ui, lands_ui};
