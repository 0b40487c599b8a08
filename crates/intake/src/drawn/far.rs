//! Drawings that stand farther from their zero than a hole table reaches.

use quillbore_job::limits::{FARTHEST_MM, is_reachable};

use super::Drawn;

impl Drawn {
    /// From where places are counted, where a chosen hole is too far from the drawing's own zero [mm]: the corner
    /// of the outline, or else the place in the middle of the holes'.
    pub(super) fn origin(&self) -> Option<[f64; 3]> {
        let chosen = || {
            let all = self.seen.holes.iter().zip(&self.taken);
            all.filter(|(_, taken)| **taken).map(|(hole, _)| hole.entry)
        };
        if chosen().all(is_reachable) {
            return None;
        }
        let middle = |axis: usize| {
            let mut all: Vec<f64> = chosen().filter_map(|at| at.get(axis).copied()).collect();
            all.sort_by(f64::total_cmp);
            all.get(all.len() / 2).copied().unwrap_or_default()
        };
        let corner = self.seen.extents.filter(|_| !self.seen.outline.is_empty());
        let [x, y] = match corner {
            Some([[x, y, _], _]) => [x, y],
            None => [middle(0), middle(1)],
        };
        // A level that can be reached stays what it is.
        let z = middle(2);
        let z = if z.abs() > FARTHEST_MM { z } else { 0.0 };
        Some([x, y, z])
    }
}

/// A point, counted from another.
pub(super) fn from(origin: Option<[f64; 3]>, point: [f64; 3]) -> [f64; 3] {
    let [x, y, z] = point;
    match origin {
        Some([from_x, from_y, from_z]) => [x - from_x, y - from_y, z - from_z],
        None => point,
    }
}
