//! Points as the engine takes them.

use printpdf::Pt;

/// Points as the engine takes them, rounded to a hundredth so that numbers stay short.
#[expect(clippy::cast_possible_truncation, reason = "the engine stores f32")]
pub(super) fn point(points: f64) -> Pt {
    Pt(((points * 100.0).round() / 100.0) as f32)
}
