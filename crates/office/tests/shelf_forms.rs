//! What every form of the shelf promises: the same tests for a folder, for memory and for a single
//! file, with three desks at each.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper that fails is a failed test"
)]

#[path = "common/shelf.rs"]
mod common;
mod shelf_forms {
    mod beside;
    mod changes;
    mod commits;
    mod holds;
    mod marks;
    mod numbers;
}
