//! Drawing signs as the lines that they are drawn with.

use super::item::{Item, Path, StraightLine};
use super::sign::{COUNTERBORE, POSITION};
use super::style::{Stroke, Style};

/// The lines of a sign that stands on the baseline `y`.
pub(super) fn of(ch: char, x: f64, y: f64, style: Style) -> Vec<Item> {
    let size = style.size;
    let stroke = Stroke::new(size * 0.07, style.ink);
    let (left, right) = (x + size * 0.08, x + size * 0.82);
    let (top, middle) = (y - size * 0.73, y - size * 0.36);
    let center = (left + right) / 2.0;
    let line = |from, to| Item::Line(StraightLine { from, to, stroke });
    match ch {
        POSITION => vec![
            Item::Path(Path::circle(
                (center, middle),
                size * 0.24,
                None,
                Some(stroke),
            )),
            line((left, middle), (right, middle)),
            line((center, top), (center, y)),
        ],
        COUNTERBORE => vec![
            line((left, top), (left, y)),
            line((left, y), (right, y)),
            line((right, y), (right, top)),
        ],
        _ => vec![
            line((left, top), (center, y)),
            line((center, y), (right, top)),
        ],
    }
}
