//! Places of holes: patterns, and lists as they are pasted.

mod pattern;
mod read;
pub(crate) mod refused;
mod split;
mod vector;

pub use pattern::{Grid, HoleLine, Ring, grid, line, ring};
pub use read::{AxisPoints, PlacesGiven, PlacesRead, RefusedLine, read_places};
pub use refused::{PatternRefused, PlacesUnreadable};
pub use split::split_lines;
