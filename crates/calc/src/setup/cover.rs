//! Fewest clampings that reach a set of directions.

use alloc::collections::BinaryHeap;
use alloc::vec::Vec;
use core::cmp::Reverse;

use crate::mount::{Mount, SAME_DEG, within};
use crate::quantity::Limits;
use crate::vector::{Vector, angle_deg, azimuth_deg, opposite};

/// One clamping and the directions that are drilled in it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Clamping {
    pub(super) mount: Mount,
    /// Indexes of directions.
    pub(super) directions: Vec<usize>,
}

/// Clampings that reach all `directions` on a machine that tilts from `tilt[0]` to `tilt[1]`
/// [deg], with the part turned about `index`, where an index axis is used.
pub(super) fn cover(directions: &[Vector], index: Option<Vector>, tilt: Limits) -> Vec<Clamping> {
    match index {
        Some(axis) => by_index(directions, axis, tilt),
        None => by_face(directions, tilt),
    }
}

/// With an index axis the turn about it is free, so only the angle to it counts. The axis stands
/// upright or lies, either way round: four intervals of that angle, so the best few of them are
/// found by trying all sixteen sets. What none reaches is clamped inclined, one angle at a time.
fn by_index(directions: &[Vector], axis: Vector, tilt: Limits) -> Vec<Clamping> {
    let mounts = [
        Mount::Lying(axis),
        Mount::Upright(axis),
        Mount::Upright(opposite(axis)),
        Mount::Lying(opposite(axis)),
    ];
    let angles: Vec<f64> = directions
        .iter()
        .map(|&direction| angle_deg(opposite(direction), axis))
        .collect();
    let reached: Vec<u8> = angles
        .iter()
        .map(|&angle| {
            (0..mounts.len()).fold(0, |set, at| {
                set | u8::from(index_reaches(mounts[at], axis, angle, tilt)) << at
            })
        })
        .collect();
    // The fewest mounts that reach everything any mount reaches; the first of equals.
    let best = (0_u8..16)
        .filter(|set| reached.iter().all(|&by| by == 0 || by & set != 0))
        .min_by_key(|set| set.count_ones())
        .unwrap_or(15);
    let mut clampings = Vec::new();
    for (at, &mount) in mounts.iter().enumerate() {
        let mine = |&direction: &usize| {
            let by = reached[direction] & best;
            by != 0 && by.trailing_zeros() as usize == at
        };
        let directions: Vec<usize> = (0..directions.len()).filter(mine).collect();
        if !directions.is_empty() {
            clampings.push(Clamping { mount, directions });
        }
    }
    let mut left: Vec<usize> = (0..directions.len())
        .filter(|&direction| reached[direction] == 0)
        .collect();
    left.sort_by(|&a, &b| angles[a].total_cmp(&angles[b]));
    for run in runs(&left, |&direction| angles[direction]) {
        clampings.push(Clamping {
            mount: Mount::Inclined {
                about: Some(axis),
                up: opposite(directions[run[0]]),
            },
            directions: run.to_vec(),
        });
    }
    clampings
}

/// Whether an index axis mounted like this brings a direction at `angle` to it under the tool.
fn index_reaches(mount: Mount, axis: Vector, angle: f64, tilt: Limits) -> bool {
    let same_way = |vector: Vector| crate::vector::dot(vector, axis) > 0.0;
    let within = within(tilt);
    match mount {
        Mount::Lying(way) if same_way(way) => within(90.0 - angle),
        Mount::Lying(_) => within(angle - 90.0),
        // With the turn free, tilting to one side or to the other is the same.
        Mount::Upright(way) => {
            let tilt = if same_way(way) { angle } else { 180.0 - angle };
            within(tilt) || within(-tilt)
        }
        Mount::Face { .. } | Mount::Inclined { .. } => false,
    }
}

/// Without an index axis the part lies on one of its six faces, and a tilt reaches what lies in one
/// plane upright to that face. The largest such set of directions is taken again and again; what no
/// face reaches is clamped inclined, one direction at a time.
fn by_face(directions: &[Vector], tilt: Limits) -> Vec<Clamping> {
    let faces: [Vector; 6] = [
        [0.0, 0.0, 1.0],
        [0.0, 0.0, -1.0],
        [0.0, -1.0, 0.0],
        [0.0, 1.0, 0.0],
        [1.0, 0.0, 0.0],
        [-1.0, 0.0, 0.0],
    ];
    let sets: Vec<Clamping> = faces
        .into_iter()
        .flat_map(|face| sets_on(face, directions, tilt))
        .collect();
    let mut clampings = Vec::new();
    let mut left = alloc::vec![true; directions.len()];
    let mut heap: BinaryHeap<(usize, Reverse<usize>)> = sets
        .iter()
        .enumerate()
        .map(|(at, set)| (set.directions.len(), Reverse(at)))
        .collect();
    while let Some((promised, Reverse(at))) = heap.pop() {
        let still: Vec<usize> = sets[at]
            .directions
            .iter()
            .copied()
            .filter(|&direction| left[direction])
            .collect();
        if still.is_empty() {
            continue;
        }
        // A set that shrank since it was ranked goes back to where it belongs now.
        if still.len() < promised {
            heap.push((still.len(), Reverse(at)));
            continue;
        }
        for &direction in &still {
            left[direction] = false;
        }
        let drilled: Vec<Vector> = still.iter().map(|&at| directions[at]).collect();
        clampings.push(Clamping {
            mount: sets[at].mount.with_plane_of(&drilled, tilt),
            directions: still,
        });
    }
    for direction in (0..directions.len()).filter(|&direction| left[direction]) {
        clampings.push(Clamping {
            mount: Mount::Inclined {
                about: None,
                up: opposite(directions[direction]),
            },
            directions: alloc::vec![direction],
        });
    }
    clampings
}

/// Sets of directions that one clamping on a face reaches, one per plane of tilting.
fn sets_on(face: Vector, directions: &[Vector], tilt: Limits) -> Vec<Clamping> {
    let furthest = tilt.upper.max(-tilt.lower);
    let within = within(tilt);
    let mut square = Vec::new();
    // Directions of tool and the plane's azimuth that brings each to a tilt in range.
    let mut tilted: Vec<(f64, usize)> = Vec::new();
    for (at, &direction) in directions.iter().enumerate() {
        let up = opposite(direction);
        let tilt = angle_deg(up, face);
        if tilt <= SAME_DEG {
            if within(0.0) {
                square.push(at);
            }
        } else if tilt <= furthest + SAME_DEG {
            let azimuth = azimuth_deg(up, face);
            if within(tilt) {
                tilted.push((around(azimuth), at));
            }
            if within(-tilt) {
                tilted.push((around(azimuth + 180.0), at));
            }
        }
    }
    tilted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut sets: Vec<Clamping> = runs(&tilted, |&(azimuth, _)| azimuth)
        .map(|run| {
            let mut members: Vec<usize> = run.iter().map(|&(_, at)| at).collect();
            members.extend(&square);
            members.sort_unstable();
            Clamping {
                mount: Mount::on_face(face),
                directions: members,
            }
        })
        .collect();
    if sets.is_empty() && !square.is_empty() {
        sets.push(Clamping {
            mount: Mount::on_face(face),
            directions: square,
        });
    }
    sets
}

/// An angle brought into one turn that starts a little below 0, so that rounding never parts zero.
fn around(angle: f64) -> f64 {
    libm::fmod(angle + SAME_DEG, 360.0) - SAME_DEG
}

/// Runs of sorted items whose angles lie within [`SAME_DEG`] of the run's first.
pub(super) fn runs<T>(sorted: &[T], angle: impl Fn(&T) -> f64) -> impl Iterator<Item = &[T]> {
    let mut rest = sorted;
    core::iter::from_fn(move || {
        let first = angle(rest.first()?);
        let length = rest.partition_point(|item| angle(item) <= first + SAME_DEG);
        let (run, after) = rest.split_at(length);
        rest = after;
        Some(run)
    })
}
