//! Holes that a file shows more than once in one place, as of a body that stands there twice.

use std::collections::BTreeMap;

use crate::seen::{Guessed, SeenHole};

/// What share of the size of everything places may differ by, and axes by, to be the same.
const SAME: f64 = 1e-7;

/// The holes, each place once; one that was there more often says so. `size` is that of everything.
pub(super) fn once(holes: Vec<SeenHole>, size: f64) -> Vec<SeenHole> {
    let unit = if size > 0.0 { SAME * size } else { SAME };
    let mut known: BTreeMap<[u64; 7], usize> = BTreeMap::new();
    let mut kept: Vec<SeenHole> = Vec::new();
    for hole in holes {
        let ([x, y, z], [a, b, c]) = (hole.entry, hole.axis);
        let lengths = [x, y, z, hole.diameter].map(|length| length / unit);
        let [x, y, z, wide] = lengths;
        let all = [x, y, z, wide, a / SAME, b / SAME, c / SAME];
        // Adding 0 makes one of -0.
        let key = all.map(|part| (libm::round(part) + 0.0).to_bits());
        match known.get(&key).and_then(|at| kept.get_mut(*at)) {
            Some(first) if first.guessed.contains(&Guessed::DrawnTwice) => {}
            Some(first) => first.guessed.push(Guessed::DrawnTwice),
            None => {
                known.insert(key, kept.len());
                kept.push(hole);
            }
        }
    }
    kept
}
