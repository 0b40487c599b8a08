//! In which order the directions of a clamping are drilled.

use alloc::vec::Vec;

use super::cover::{Clamping, runs};
use super::spots::{Spot, Spots};
use super::tool::Tool;
use crate::mount::{Angles, Mount};
use crate::vector::{Vector, across, cross, dot, opposite};

/// Spots drilled with one tube in one direction of one clamping.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Run {
    /// What is drilled, in the table's order.
    pub(crate) spots: Vec<Spot>,
    /// Where the spots with places lie square to this direction [mm].
    pub(crate) points: Vec<[f64; 2]>,
    /// Which of the clamping's stretches with one tube at one tilt it is in.
    pub(crate) pass: u32,
}

impl Run {
    /// Rows of its spots, one for each spot.
    pub(crate) fn rows(&self) -> impl Iterator<Item = usize> {
        self.spots.iter().map(|spot| spot.row as usize)
    }

    /// Holes drilled in it.
    pub(crate) fn holes(&self) -> u32 {
        self.spots
            .iter()
            .fold(0, |sum, spot| sum.saturating_add(spot.holes))
    }
}

/// The order of a clamping's runs and what changes between them, for one part.
pub(super) struct Sequence {
    pub(super) runs: Vec<Run>,
    pub(super) index_moves: u32,
    pub(super) tilts: u32,
    pub(super) guide_changes: u32,
    pub(super) passes: u32,
}

/// Where one direction and one tool stand among the others: tool, tilt, turn.
struct Key {
    tool: Tool,
    /// Index of the direction.
    direction: usize,
    tilt: usize,
    index_deg: f64,
}

/// Groups a clamping's spots by tool, then tilt, then turn; every other tool and tilt goes through
/// the next level backward, so that what stays the same need not move.
pub(super) fn sequence(clamping: &Clamping, parts: &Spots) -> Sequence {
    let mut keyed: Vec<(Key, &[Spot])> = Vec::new();
    for (direction, tilt, seat) in seats(clamping, &parts.directions) {
        for group in parts.of(direction).chunk_by(|a, b| a.tool == b.tool) {
            let key = Key {
                tool: group[0].tool,
                direction,
                tilt,
                index_deg: seat.index_deg,
            };
            keyed.push((key, group));
        }
    }
    keyed.sort_by(|(a, _), (b, _)| {
        (a.tool, a.tilt)
            .cmp(&(b.tool, b.tilt))
            .then(a.index_deg.total_cmp(&b.index_deg))
            .then(a.direction.cmp(&b.direction))
    });
    // Backward through every other tube, and within a tube through every other tilt.
    for (at, tube) in keyed.chunk_by_mut(|a, b| a.0.tool == b.0.tool).enumerate() {
        for (at, tilt) in tube.chunk_by_mut(|a, b| a.0.tilt == b.0.tilt).enumerate() {
            if at % 2 == 1 {
                tilt.reverse();
            }
        }
        if at % 2 == 1 {
            tube.reverse();
        }
    }
    let [mut index_moves, mut tilts, mut guide_changes, mut passes] = [0, 0, 0, 1];
    let mut in_pass: Vec<u32> = keyed.first().map(|_| 1).into_iter().collect();
    for pair in keyed.windows(2) {
        let [(before, _), (after, _)] = pair else {
            continue;
        };
        let guide = before.tool.changes_guide(after.tool);
        let tilt = before.tilt != after.tilt;
        guide_changes += u32::from(guide);
        tilts += u32::from(tilt);
        passes += u32::from(guide || tilt);
        in_pass.push(passes);
        index_moves += u32::from(!tilt && before.direction != after.direction);
    }
    let runs = (keyed.into_iter().zip(in_pass))
        .map(|((key, spots), pass)| Run {
            points: points(clamping.mount, spots, parts.directions[key.direction]),
            spots: spots.to_vec(),
            pass,
        })
        .collect();
    Sequence {
        runs,
        index_moves,
        tilts,
        guide_changes,
        passes,
    }
}

/// Directions of a clamping by rising tilt, with the number of their tilt among its tilts.
fn seats(clamping: &Clamping, directions: &[Vector]) -> Vec<(usize, usize, Angles)> {
    let mut seats: Vec<(usize, usize, Angles)> = clamping
        .directions
        .iter()
        .map(|&direction| (direction, 0, clamping.mount.angles(directions[direction])))
        .collect();
    seats.sort_by(|a, b| a.2.tilt_deg.total_cmp(&b.2.tilt_deg));
    let lengths: Vec<usize> = runs(&seats, |(.., seat)| seat.tilt_deg)
        .map(<[_]>::len)
        .collect();
    let mut start = 0;
    for (tilt, length) in lengths.into_iter().enumerate() {
        for seat in &mut seats[start..start + length] {
            seat.1 = tilt;
        }
        start += length;
    }
    seats
}

/// Places square to a direction, for their distances: one coordinate along the index axis where there
/// is one, so that a turn about it leaves that coordinate alone.
fn points(mount: Mount, spots: &[Spot], direction: Vector) -> Vec<[f64; 2]> {
    let up = opposite(direction);
    let axis = match mount {
        Mount::Upright(axis) | Mount::Lying(axis) => Some(axis),
        Mount::Inclined { about, .. } => about,
        Mount::Face { .. } => None,
    };
    let first = axis
        .and_then(|axis| crate::vector::unit(crate::vector::along(axis, up, -dot(axis, up))))
        .unwrap_or(across(up)[0]);
    let second = cross(up, first);
    spots
        .iter()
        .filter_map(|spot| spot.point)
        .map(|point| [dot(point, first), dot(point, second)])
        .collect()
}
