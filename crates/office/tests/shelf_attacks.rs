//! A folder that many people may write to, as a shelf on the machine's own disk: whatever somebody
//! puts there, nothing outside of it changes, nothing hangs, and what is made can be shared.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]
#![cfg(unix)]

#[path = "common/shelf.rs"]
mod common;
mod shelf_attacks {
    pub(crate) mod place;

    mod adopted;
    mod beside;
    mod devices;
    mod jobs;
    mod names;
    mod rights;
    mod stamps;
    mod swapped;
}
