//! Frames of sheets, told from parts by their size.

use quillbore_calc::quantity::MM_PER_INCH;

use super::outline::{MOST_LOOKED_AT, Web};
use super::rings::Ring;

/// A sheet of paper drawn around the part: it has the size of one, and another ring in it has half of its holes at
/// least.
pub(super) fn is_sheet(ring: &Ring, all: &[Ring], web: &Web<'_, '_>) -> bool {
    ring.is_box() && is_paper(ring.sides()) && has_part(ring, all, web)
}

/// The frame that is drawn in a sheet: a box that leaves the same narrow margin of it on three sides at least, two
/// of which are alike.
pub(super) fn is_margin(ring: &Ring, sheet: &Ring, all: &[Ring], web: &Web<'_, '_>) -> bool {
    let [wide, high] = sheet.sides();
    let widest = MARGIN * wide.max(high);
    let margins = [
        ring.least[0] - sheet.least[0],
        ring.least[1] - sheet.least[1],
        sheet.most[0] - ring.most[0],
        sheet.most[1] - ring.most[1],
    ];
    let narrow = margins.iter().all(|margin| (0.0..=widest).contains(margin));
    ring.is_box() && narrow && has_part(ring, all, web)
}

/// The widest margin in parts of a sheet's longer side; ISO 5457 has 20 mm of 297 mm, from memory.
const MARGIN: f64 = 0.09;

fn has_part(ring: &Ring, all: &[Ring], web: &Web<'_, '_>) -> bool {
    let held = web.held(ring);
    let mut others = all.iter().filter(|other| other.area < ring.area);
    let mut others = others.by_ref().take(MOST_LOOKED_AT);
    others.any(|other| {
        let has = web.held(other);
        has > 0 && 2 * has >= held && !is_paper(other.sides())
    })
}

/// Whether sides are those of a sheet: A4 to A0 (ISO 216) and A to E (ASME Y14.1), in millimeters or inches, the
/// former also with the part drawn to a scale, from memory.
pub(super) fn is_paper(sides: [f64; 2]) -> bool {
    let (short, long) = (sides[0].min(sides[1]), sides[0].max(sides[1]));
    let is = |[low, high]: [f64; 2], by: f64| {
        let near = |side: f64, paper: f64| (side / (paper * by) - 1.0).abs() <= ROUNDED;
        near(short, low) && near(long, high)
    };
    let a = A.iter().any(|paper| {
        let mut scales = SCALES.iter();
        scales.any(|scale| is(*paper, *scale) || is(*paper, scale / MM_PER_INCH))
    });
    let ansi = ANSI
        .iter()
        .any(|paper| is(*paper, 1.0) || is(*paper, MM_PER_INCH));
    a || ansi
}

/// Short and long sides [mm].
const A: [[f64; 2]; 5] = [
    [210.0, 297.0],
    [297.0, 420.0],
    [420.0, 594.0],
    [594.0, 841.0],
    [841.0, 1189.0],
];

/// Short and long sides [in].
const ANSI: [[f64; 2]; 5] = [
    [8.5, 11.0],
    [11.0, 17.0],
    [17.0, 22.0],
    [22.0, 34.0],
    [34.0, 44.0],
];

/// By what a sheet is larger or smaller where the part in it is drawn in its own size.
const SCALES: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 0.5, 0.2];

/// Sides of paper are rounded by so much.
const ROUNDED: f64 = 2e-3;

#[cfg(test)]
mod tests {
    use super::is_paper;

    /// ISO 216 and ASME Y14.1, from memory.
    #[test]
    fn sheets_are_told_from_plates() {
        for sides in [
            [297.0, 210.0],
            [210.0, 297.0],
            [420.0, 297.0],
            [1189.0, 841.0],
            [594.0, 420.0],
            [840.0, 594.0],
            [17.0, 11.0],
            [431.8, 279.4],
            [11.693, 8.268],
        ] {
            assert!(is_paper(sides), "{sides:?}");
        }
        for sides in [
            [100.0, 60.0],
            [300.0, 200.0],
            [297.0, 200.0],
            [11.0, 8.0],
            [0.0, 0.0],
        ] {
            assert!(!is_paper(sides), "{sides:?}");
        }
    }
}
