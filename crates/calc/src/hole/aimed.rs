//! What a row aims at before a tube is chosen: its depth, and how often the tip is dressed.

use super::depth::blind_limits;
use crate::input::{HoleEnd, RowInput};

/// The depth that a row aims at [mm]: as typed, else the sum of its layers; a blind hole is aimed at
/// the middle of its limits.
pub(super) fn aimed_mm(row: &RowInput) -> Option<f64> {
    let layers_mm: f64 = row.layers.iter().map(|layer| layer.thickness_mm).sum();
    let depth = row.depth_mm.unwrap_or(layers_mm);
    if !(depth > 0.0 && depth.is_finite()) {
        return None;
    }
    if row.end == HoleEnd::Blind && row.depth_limits_mm.is_some() {
        return Some(blind_limits(row, depth).middle());
    }
    Some(depth)
}

/// How many dressings a hole takes. A through hole is open at its exit, so a worn tip needs none.
pub(super) fn dress_share(row: &RowInput) -> f64 {
    let every = row
        .dress_every
        .unwrap_or(u32::from(row.end == HoleEnd::Blind));
    if every == 0 {
        0.0
    } else {
        1.0 / f64::from(every)
    }
}
