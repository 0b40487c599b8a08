//! What every form of the shelf promises: the same tests for a folder, for memory and for a single
//! file, with three desks at each.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
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
