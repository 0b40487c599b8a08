//! What is written at the map of the holes.

/// In its place where no hole has a location.
pub const NONE: &str = "no map: no hole has a location";
/// Shows all of the map again.
pub const WHOLE: &str = "whole";
/// Goes nearer.
pub const NEARER: &str = "nearer";
/// Shows the next clamping that the row is drilled in.
pub const NEXT_SETUP: &str = "next setup";
/// Shows the map in the place of the picture.
pub const MAP: &str = "map";
/// Shows the picture in the place of the map.
pub const PICTURE: &str = "picture";

/// What the map shows.
#[must_use]
pub fn told(setup: usize, of: usize, holes: usize) -> String {
    let holes = if holes == 1 {
        "1 hole".to_owned()
    } else {
        format!("{holes} holes")
    };
    if of > 1 {
        format!("setup {setup} of {of}: {holes}")
    } else {
        holes
    }
}

/// A hole of the map, by its mark, number and location.
#[must_use]
pub fn spot(mark: &str, number: u32, [x, y, z]: &[String; 3]) -> String {
    format!("{mark} {number}: x {x}, y {y}, z {z}")
}
