//! Solids in files of other programs.

use quillbore_intake::seen::{Seen, SeenHole};
use quillbore_intake::step;

/// Whatever the bytes: holes whose numbers are numbers, the same each time, or one sentence.
pub(super) fn step(bytes: &[u8]) {
    let seen = match step::read(bytes, &|_| false) {
        Ok(seen) => seen,
        Err(error) => {
            assert!(!error.to_string().is_empty() && !error.hint().is_empty());
            return;
        }
    };
    holds(&seen);
    assert!(
        step::read(bytes, &|_| false).as_ref() == Ok(&seen),
        "read twice, it is not the same"
    );
}

/// What must hold of anything that was seen.
fn holds(seen: &Seen) {
    if let Some([low, high]) = seen.extents {
        let in_order = low
            .iter()
            .zip(high)
            .all(|(low, high)| *low <= high && high.is_finite());
        assert!(in_order, "extents from {low:?} to {high:?}");
    }
    let mut corners = seen.outline.iter().flatten().flatten();
    assert!(
        corners.all(|part| part.is_finite()),
        "an outline of no numbers"
    );
    for hole in &seen.holes {
        assert!(is_hole(hole), "{hole:?}");
    }
}

fn is_hole(hole: &SeenHole) -> bool {
    let length: f64 = hole.axis.iter().map(|part| part * part).sum();
    let depth = hole.depth.is_none_or(|depth| {
        let all = [depth.least, depth.on_axis, depth.most];
        all.iter().all(|depth| depth.is_finite()) && depth.least <= depth.most
    });
    let surfaces = [hole.begins, hole.leaves];
    let tilts = surfaces
        .iter()
        .flatten()
        .filter_map(|surface| surface.tilt_deg)
        .all(|tilt| (0.0..=90.0).contains(&tilt));
    let lengths = hole
        .behind
        .into_iter()
        .chain(hole.recess.into_iter().flatten());
    hole.diameter > 0.0
        && hole.diameter.is_finite()
        && hole.entry.iter().all(|part| part.is_finite())
        && (length - 1.0).abs() < 1e-6
        && depth
        && tilts
        && lengths
            .into_iter()
            .all(|length| length >= 0.0 && length.is_finite())
        && !hole.from.is_empty()
}
