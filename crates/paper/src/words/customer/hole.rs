//! What papers say of a row of holes as the drawing has it.

use quillbore_calc::input::{HoleEnd, Proof};

/// A row of holes as the drawing has it.
#[derive(Clone, Copy, Debug)]
pub struct Hole {
    /// Where a hole ends.
    pub end: fn(HoleEnd) -> &'static str,
    /// The surface at the entry.
    pub entry: fn(&str) -> String,
    /// The broken tool that sits in it.
    pub broken: fn(&str) -> String,
    /// How deep below the face a broken tool begins.
    pub below: fn(&str) -> String,
    /// What was tried to get it out.
    pub tried: fn(&str) -> String,
    /// Its depth as the drawing has it.
    pub depth_drawn: fn(&str) -> String,
    /// The recess that it begins in.
    pub recess: fn(&str) -> String,
    /// The wire that is threaded through it.
    pub wire: fn(&str) -> String,
    /// The smallest that its exit may be.
    pub least_exit: fn(&str) -> String,
    /// From its center to the finished profile.
    pub to_profile: fn(&str) -> String,
    /// What proves it open, by kind.
    pub proof: fn(Proof) -> &'static str,
    /// Each hole is proved open by that.
    pub proved: fn(&str) -> String,
    /// The surface at the exit.
    pub exit: fn(&str) -> String,
    /// The layers of a hole.
    pub layers: fn(&str) -> String,
    /// The clearance behind an exit.
    pub clearance: fn(&str) -> String,
}
