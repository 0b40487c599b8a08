//! The state of the desk: the open job, its history, where it stands, its results, and what the
//! clerk is doing for it. No drawing here, and nothing that waits for the shelf.

mod edits;
mod errand;
mod lay;
mod news;
mod refresh;
mod replies;
mod requests;
mod state;
mod wants;

#[cfg(test)]
mod tests;

pub use errand::{Errand, Then};
pub use news::News;
pub use state::{Desk, Made};
