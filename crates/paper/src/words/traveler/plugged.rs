//! Words of the lines for plugged holes.

/// Name of the section.
pub const NAME: &str = "Plugged holes";
/// How it is filled in.
pub const REMARK: &str = "a line for each hole: write the pieces whose hole the check found plugged; left empty where none is";

/// A row with more holes than have a line each.
pub fn many(mark: &str, holes: &str) -> String {
    format!("{mark} has {holes} holes: write the piece and the numbers of those found plugged.")
}
