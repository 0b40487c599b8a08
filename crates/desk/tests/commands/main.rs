//! The real binary without a window: exit codes, keys of the figures, refusals.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod figures;
mod options;
mod output;
mod papers;
mod program;
mod refused;
mod tables;
mod told;
