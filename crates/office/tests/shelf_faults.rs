//! A shelf on a disk that fails or writes short at every step in turn, that loses its power there,
//! or that lets another desk in.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]

#[path = "common/shelf.rs"]
mod common;
mod shelf_faults {
    pub(crate) mod scene;

    mod adopt;
    mod another_desk;
    mod every_step;
    mod papers;
    mod power;
    mod save;
}
