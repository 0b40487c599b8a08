//! Drawings of the papers; the window paints the same ones.

pub mod face;
pub mod hatch;
pub mod map;
pub mod section;
pub mod spread;
mod stub;
pub mod tubes;
