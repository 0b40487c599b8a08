//! How far a body reaches, and its outline seen along z.

use std::collections::BTreeSet;
use std::f64::consts::TAU;

use super::body::{Body, Face};
use super::curve::Curve;
use super::motion::Motion;
use super::surface::Surface;
use super::vector::{Bounds, V, add, distance, dot, sub, times, unit};

/// Directions of x, y and z, and against them.
const WAYS: [V; 6] = [
    [1.0, 0.0, 0.0],
    [-1.0, 0.0, 0.0],
    [0.0, 1.0, 0.0],
    [0.0, -1.0, 0.0],
    [0.0, 0.0, 1.0],
    [0.0, 0.0, -1.0],
];

/// Points of a body, brought to its place, that reach as far as it does and show its outline.
pub(super) fn reach(body: &Body, motion: &Motion) -> Vec<V> {
    let back = motion.undone();
    let ways = WAYS.map(|way| back.direction(way));
    let mut points = Vec::new();
    for edge in &body.edges {
        points.extend(edge.points.iter().map(|p| motion.point(*p)));
        if let Curve::Ellipse {
            frame,
            half: [a, b],
        } = &edge.arc.curve
        {
            let (low, high) = (
                edge.arc.from.min(edge.arc.to),
                edge.arc.from.max(edge.arc.to),
            );
            for way in ways {
                let most = libm::atan2(b * dot(frame.y, way), a * dot(frame.x, way));
                let there = most + TAU * libm::ceil((low - most) / TAU);
                if there <= high {
                    points.push(motion.point(edge.arc.curve.at(there).0));
                }
            }
        }
    }
    for (at, face) in body.faces.iter().enumerate() {
        let bulges = bulges(face, &ways);
        let held = bulges.into_iter().filter(|p| body.holds(at, *p));
        points.extend(held.map(|p| motion.point(p)));
    }
    points
}

/// Points of a face's surface that may lie further out than the face's edges.
fn bulges(face: &Face, ways: &[V]) -> Vec<V> {
    // The wall of something hollow reaches nowhere further than its edges.
    let is_hollow = face.sense * face.outward < 0.0;
    match &face.surface {
        Surface::Ball { .. } | Surface::Ring { .. } if is_hollow => Vec::new(),
        Surface::Ball { frame, radius } => ways
            .iter()
            .map(|way| add(frame.origin, times(*way, *radius)))
            .collect(),
        Surface::Ring {
            frame,
            major,
            minor,
        } => {
            let reach = ways.iter().map(|way| {
                let flat = sub(*way, times(frame.z, dot(*way, frame.z)));
                let center = unit(flat).map_or([0.0; 3], |out| times(out, *major));
                add(add(frame.origin, center), times(*way, *minor))
            });
            reach.collect()
        }
        Surface::Patch(patch) => patch.net().to_vec(),
        Surface::Plane(_) | Surface::Cylinder { .. } | Surface::Cone { .. } => Vec::new(),
    }
}

/// What a face on a surface lies within, by the points of its edges.
pub(super) fn face_bounds(surface: &Surface, points: &[V]) -> Bounds {
    let mut bounds = Bounds::EMPTY;
    points.iter().for_each(|p| bounds.take(*p));
    let around = |center: V, axis: V, radius: f64, bounds: &mut Bounds| {
        let out = axis.map(|part| radius * (1.0 - part * part).max(0.0).sqrt());
        bounds.take(sub(center, out));
        bounds.take(add(center, out));
    };
    match surface {
        Surface::Plane(_) => {}
        Surface::Cylinder { frame, .. } | Surface::Cone { frame, .. } => {
            for p in points {
                let z = dot(sub(*p, frame.origin), frame.z);
                let center = add(frame.origin, times(frame.z, z));
                around(center, frame.z, distance(center, *p), &mut bounds);
            }
        }
        Surface::Ball { frame, radius } => around(frame.origin, [0.0; 3], *radius, &mut bounds),
        Surface::Ring {
            frame,
            major,
            minor,
        } => {
            around(frame.origin, frame.z, *major, &mut bounds);
            bounds = bounds.wider(*minor);
        }
        Surface::Patch(patch) => patch.net().iter().for_each(|p| bounds.take(*p)),
    }
    bounds.wider(1e-3 * bounds.size() + 1e-9)
}

/// The outline of a body alone: the rims of a flat face that lies square to z and reaches as far as the
/// body, without the mouths of its holes. `None` where there is no such face.
pub(super) fn flat_outline(
    body: &Body,
    motion: &Motion,
    bounds: &Bounds,
    holes: &BTreeSet<usize>,
) -> Option<Vec<Vec<[f64; 2]>>> {
    let near = 1e-6 * bounds.size();
    for (at, face) in body.faces.iter().enumerate() {
        let Surface::Plane(frame) = &face.surface else {
            continue;
        };
        if motion.direction(frame.z)[2].abs() < 1.0 - 1e-9 {
            continue;
        }
        let mut whole = Bounds::EMPTY;
        let edges = face
            .rim
            .iter()
            .flat_map(|used| &body.edges[used.edge].points);
        edges.for_each(|p| whole.take(motion.point(*p)));
        let same = |at: usize| {
            (whole.low[at] - bounds.low[at]).abs() <= near
                && (whole.high[at] - bounds.high[at]).abs() <= near
        };
        if same(0) && same(1) {
            return Some(rims(body, at, motion, holes));
        }
    }
    None
}

/// The rims of a face seen along z, the outer one first.
fn rims(body: &Body, at: usize, motion: &Motion, holes: &BTreeSet<usize>) -> Vec<Vec<[f64; 2]>> {
    let face = &body.faces[at];
    let mut rims: Vec<(f64, Vec<[f64; 2]>)> = Vec::new();
    for rim in face.rim.chunk_by(|a, b| a.bound == b.bound) {
        let mut ring: Vec<[f64; 2]> = Vec::new();
        for used in rim {
            let points = body.edges[used.edge].points.iter();
            let seen = points.map(|p| motion.point(*p)).map(|[x, y, _]| [x, y]);
            let mut seen: Vec<[f64; 2]> = seen.collect();
            if !used.along {
                seen.reverse();
            }
            // Each edge begins where the one before it ends.
            seen.pop();
            ring.extend(seen);
        }
        let mouth = rim.iter().all(|used| {
            body.other_face(used.edge, at)
                .is_some_and(|other| holes.contains(&other))
        });
        let next = ring.iter().cycle().skip(1);
        let area = ring
            .iter()
            .zip(next)
            .map(|(a, b)| a[0] * b[1] - a[1] * b[0])
            .sum::<f64>();
        if !mouth && ring.len() > 2 {
            rims.push((area.abs(), ring));
        }
    }
    rims.sort_by(|a, b| b.0.total_cmp(&a.0));
    rims.into_iter().map(|(_, ring)| ring).collect()
}

/// The convex outline of points seen along z (A. M. Andrew 1979).
pub(super) fn around(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    let turn = |a: [f64; 2], b: [f64; 2], c: [f64; 2]| {
        (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    };
    let half = |points: &mut dyn Iterator<Item = [f64; 2]>| {
        let mut side: Vec<[f64; 2]> = Vec::new();
        for p in points {
            while let [.., a, b] = side[..]
                && turn(a, b, p) <= 0.0
            {
                side.pop();
            }
            side.push(p);
        }
        side.pop();
        side
    };
    let mut outline = half(&mut points.iter().copied());
    outline.extend(half(&mut points.iter().rev().copied()));
    if outline.len() < 3 {
        Vec::new()
    } else {
        outline
    }
}
