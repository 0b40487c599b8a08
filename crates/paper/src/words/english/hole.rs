//! What papers say of a row of holes as the drawing has it.

use quillbore_calc::input::{HoleEnd, Proof};

use crate::words::customer::Hole;

/// What customers read of them in English.
pub(super) const WORDS: Hole = Hole {
    end,
    entry,
    broken: |tool| format!("Broken tool: {tool}."),
    below: |below| format!("Below the face: {below}."),
    tried: |tried| format!("Tried so far: {tried}."),
    depth_drawn,
    recess,
    wire,
    least_exit,
    to_profile,
    proof,
    proved,
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

/// Its depth as the drawing has it.
fn depth_drawn(depth: &str) -> String {
    format!("Depth as on the drawing: {depth}.")
}

/// The recess that a hole begins in.
pub fn recess(recess: &str) -> String {
    format!("In a recess: {recess}.")
}

/// The wire that is threaded through it.
pub fn wire(wire: &str) -> String {
    format!("Start hole for wire {wire}.")
}

/// The smallest that its exit may be.
pub fn least_exit(length: &str) -> String {
    format!("Free exit at least {length}.")
}

/// From its center to the finished profile.
pub fn to_profile(length: &str) -> String {
    format!("Center to profile {length}.")
}

/// What proves a hole open.
pub fn proof(proof: Proof) -> &'static str {
    match proof {
        Proof::Pin => "pin",
        Proof::Light => "light",
        Proof::Wire => "wire put through",
        Proof::Air => "airflow",
        Proof::PinThrough => "pin put through",
    }
}

/// Each hole is proved open by that.
pub fn proved(proof: &str) -> String {
    format!("Each hole proved open by: {proof}.")
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
