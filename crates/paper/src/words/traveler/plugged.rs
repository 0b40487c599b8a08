//! Words of the boxes for plugged holes.

/// Name of the section.
pub const NAME: &str = "Plugged holes";
/// How it is filled in.
pub const REMARK: &str = "one box for each hole: write the piece in whose hole the check found it plugged; empty if none";

/// A row with more holes than there are boxes.
pub fn many(mark: &str, holes: &str) -> String {
    format!("{mark} has {holes} holes: write the piece and the numbers of those found plugged.")
}
