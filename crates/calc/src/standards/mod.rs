//! Figures of published standards that drawings refer to.

pub mod drills;
pub mod fits;
pub mod general;
pub mod sampling;
pub mod threads;
