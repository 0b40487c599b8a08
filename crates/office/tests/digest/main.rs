//! What is known of a shelf: digests, the following of a shelf, search, the window's list.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod asking;
mod crash;
mod follow;
mod found;
mod jobs;
mod joint;
mod listing;
mod nothing_lost;
mod orders;
mod says;
mod search;
mod today;
