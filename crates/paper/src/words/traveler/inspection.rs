//! Words of the traveler's blanks for measured holes.

/// Inspection check.
pub const INSPECTED_CHECK: &str =
    "Checked as noted above; what did not pass is listed and reported to the office.";
/// Lead of what the customer asks of the inspection.
pub const ASKED_FOR: &str = "Required: ";
/// Lead of the recast limit.
pub const RECAST: &str = "Recast at most: ";
/// Name of the section.
pub const NAME: &str = "Inspection";
/// Head of limits and depth.
pub const LIMITS: &str = "Limits, depth";
/// Name of the line of serial numbers.
pub const SERIAL: &str = "serial";

/// Pieces that the traveler has no columns for.
pub fn further_pieces(from: usize, to: usize) -> String {
    format!(
        "pieces {from} to {to}: on copies of this page, or on blank pages of the hole inspection record"
    )
}

/// How it is filled in.
pub fn remark(unit: &str) -> String {
    format!("measured size over number of holes that passed; in {unit}")
}

/// What proves each hole open.
pub fn open_by(proof: &str) -> String {
    format!("open: {proof}")
}

/// A piece by its number.
pub fn piece(number: usize) -> String {
    format!("Piece {number}")
}
