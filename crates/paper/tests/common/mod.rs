//! Invented jobs with figures set by hand, for tests of the papers.
#![allow(
    dead_code,
    unreachable_pub,
    unused_imports,
    reason = "each test file uses another part of it"
)]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "helpers of tests may panic"
)]

mod build;
mod figures;
mod jobs;
mod life;
mod logos;
mod plate;
mod printed;
mod ring;
mod sample;
mod spec;

pub use jobs::{all, hard};
pub use life::{delivered, issue, pin};
pub use logos::{PAINTED, PLAIN, logo, png, svg};
pub use plate::{plate, rows};
pub use printed::{answer, printed, prose};
pub use ring::ring;
pub use sample::{Sample, day};
