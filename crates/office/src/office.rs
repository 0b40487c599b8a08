//! What the office does with one job at a time: opened, saved, merged, printed, looked up. Nothing
//! here knows a window, and everything waits for the disk, so the window asks through
//! [`crate::clerk`].

mod attach;
mod base;
mod beside;
mod find;
mod merge;
mod note_done;
mod print_into;
pub mod queue;
mod read;
pub mod reprint;
mod save_as;
pub mod shelf_news;
pub mod shop;
pub mod shop_lost;
mod shop_seen;
pub mod shop_watch;

pub use base::Office;
pub use beside::Attached;
pub(crate) use beside::to_open;
pub use find::Wanted;
pub(crate) use find::{Around, around};
pub use merge::MergedWork;
pub use print_into::Into;
pub(crate) use read::{read, read_or_seen};
pub use save_as::SavedAs;
