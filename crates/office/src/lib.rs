//! What a front office does with jobs, without a screen.

pub mod clock;
pub mod digest;
pub mod disk;
pub mod listing;
pub mod names;
pub mod numbers;
pub mod save;
pub mod shelf;
pub mod words;
