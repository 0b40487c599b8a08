//! Drawing signs that no embedded face has: they are drawn as lines and keep a letter's place.

/// Position tolerance: a circle with a cross.
pub const POSITION: char = '\u{2316}';
/// Counterbore: a flat-bottomed pocket.
pub const COUNTERBORE: char = '\u{2334}';
/// Countersink: a vee.
pub const COUNTERSINK: char = '\u{2335}';

/// Whether the character is one of the signs drawn here.
pub fn is_drawn(ch: char) -> bool {
    matches!(ch, POSITION | COUNTERBORE | COUNTERSINK)
}

/// Width the sign takes on the line, in points.
pub(crate) fn width(ch: char, size: f64) -> Option<f64> {
    is_drawn(ch).then_some(size * 0.9)
}
