//! What the tests of the shelf have in common: a disk in memory, and the shelf in all its forms.
#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses another part of it"
)]
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests may panic"
)]

pub mod forms;
pub mod memory_disk;
#[cfg(feature = "outside")]
pub mod postgres;
#[cfg(feature = "outside")]
pub mod proxy;
pub mod random;
