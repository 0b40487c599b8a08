//! Drawing signs that no embedded face has: they are drawn as lines and keep a letter's place.

use crate::page::{Page, Stroke, Style};

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

/// Draws the sign on the baseline `y` and returns the width it takes.
pub(crate) fn draw(page: &mut Page, ch: char, x: f64, y: f64, style: Style) -> f64 {
    let size = style.size;
    let stroke = Stroke::new(size * 0.07, style.ink);
    let (left, right) = (x + size * 0.08, x + size * 0.82);
    let (top, middle) = (y - size * 0.73, y - size * 0.36);
    let center = (left + right) / 2.0;
    match ch {
        POSITION => {
            page.circle((center, middle), size * 0.24, None, Some(stroke));
            page.line((left, middle), (right, middle), stroke);
            page.line((center, top), (center, y), stroke);
        }
        COUNTERBORE => {
            page.line((left, top), (left, y), stroke);
            page.line((left, y), (right, y), stroke);
            page.line((right, y), (right, top), stroke);
        }
        _ => {
            page.line((left, top), (center, y), stroke);
            page.line((center, y), (right, top), stroke);
        }
    }
    size * 0.9
}
