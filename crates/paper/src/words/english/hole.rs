//! What papers say of a row of holes as the drawing has it.

use quillbore_calc::input::HoleEnd;

use crate::words::customer::Hole;

/// What customers read of them in English.
pub(super) const WORDS: Hole = Hole {
    end,
    entry,
    broken: |tool| format!("Broken tool: {tool}."),
    below: |below| format!("Below the face: {below}."),
    tried: |tried| format!("Tried so far: {tried}."),
    recess,
    exit,
    layers,
    clearance,
};

/// Where a hole ends, as printed.
pub fn end(end: HoleEnd) -> &'static str {
    match end {
        HoleEnd::Through => "through",
        HoleEnd::Into => "into",
        HoleEnd::Blind => "blind",
    }
}

/// The surface at the entry.
pub fn entry(surface: &str) -> String {
    format!("Entry: {surface}.")
}

/// The recess that a hole begins in.
pub fn recess(recess: &str) -> String {
    format!("In a recess: {recess}.")
}

/// The surface at the exit.
pub fn exit(surface: &str) -> String {
    format!("Exit: {surface}.")
}

/// The layers of a hole.
pub fn layers(layers: &str) -> String {
    format!("Layers from the entry: {layers}.")
}

/// The clearance behind an exit.
pub fn clearance(length: &str) -> String {
    format!("Clearance behind: {length}.")
}
