//! Drawings from files.

use quillbore_intake::dxf::{self, DxfError};
use quillbore_intake::seen::Seen;

/// Whatever the bytes: one sentence, or holes that have a place, a direction and a size, twice the same.
pub(super) fn dxf(bytes: &[u8]) {
    let seen = match dxf::read(bytes, &|_| false) {
        Ok(seen) => seen,
        Err(error) => return is_sentence(&error),
    };
    are_holes(&seen);
    let again = dxf::read(bytes, &|_| false);
    assert!(again.as_ref() == Ok(&seen), "not the same twice");
    let stopped = dxf::read(bytes, &|_| true);
    assert!(stopped == Err(DxfError::Cancelled), "not to be stopped");
}

fn is_sentence(error: &DxfError) {
    let (says, hint) = (error.to_string(), error.hint());
    assert!(
        says.len() < 300 && !says.contains(char::is_control),
        "{says:?}"
    );
    assert!(!hint.is_empty(), "no hint for {says}");
}

fn are_holes(seen: &Seen) {
    for hole in &seen.holes {
        let all = [hole.entry, hole.axis].concat();
        assert!(all.iter().all(|number| number.is_finite()), "{hole:?}");
        assert!(hole.diameter.is_finite() && hole.diameter > 0.0, "{hole:?}");
        let long = hole.axis.iter().map(|along| along * along).sum::<f64>();
        assert!((long - 1.0).abs() < 1e-9, "{hole:?}");
        assert!(hole.axis[2] <= 1e-9, "{hole:?} comes out of the paper");
        assert!(!hole.from.is_empty() && hole.from.iter().all(|from| !from.is_empty()));
    }
    for refused in &seen.refused {
        assert!(!refused.from.is_empty(), "{refused:?}");
    }
    if let Some([least, most]) = seen.extents {
        assert!(
            (0..3).all(|axis| least[axis] <= most[axis]),
            "{:?}",
            seen.extents
        );
    }
    for ring in &seen.outline {
        assert!(ring.len() > 1, "a ring of {} points", ring.len());
        assert!(ring.iter().flatten().all(|along| along.is_finite()));
    }
}
