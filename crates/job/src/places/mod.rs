//! Places of holes: patterns, and lists as they are pasted.

mod pattern;
mod read;
mod split;
mod vector;

pub use pattern::{Grid, Line, PatternRefused, Ring, grid, line, ring};
pub use read::{AxisPoints, PlacesGiven, PlacesRead, PlacesUnreadable, RefusedLine, read_places};
pub use split::split_lines;
