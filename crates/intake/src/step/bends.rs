//! Bores along an arc: hollow rings, or free forms like them, that close around their center line.

use std::collections::BTreeSet;
use std::f64::consts::TAU;

use super::body::Body;
use super::ends::Bore;
use super::motion::Frame;
use super::surface::Surface;
use super::vector::{ALIKE, V, add, along, distance, dot, sub, times, unit};

/// A wall of which no more of its round is missing is closed around its center line.
const WIDEST_GAP: f64 = 0.28 * TAU;
/// Circles that differ by no more than this share of their radius are the same.
const ROUND_WITHIN: f64 = 0.01;
/// Points along each parameter of a free form that are looked at.
const POINTS: usize = 12;

impl Bore<'_> {
    /// Whether a face is a bend in which the bore's own wall goes on.
    pub(super) fn bends_in(&self, face: usize) -> bool {
        let ring = hollow_ring(self.body, face).is_some_and(|(frame, _, minor)| {
            let across = dot(frame.z, self.axis.d).abs() < ALIKE;
            across && (minor - self.radius).abs() <= self.within
        });
        let alike = |radius: f64| (radius - self.radius).abs() <= ROUND_WITHIN * self.radius;
        ring || tube(self.body, face).is_some_and(alike)
    }
}

/// The bores along an arc, each by its faces.
pub(super) fn bends(body: &Body) -> Vec<Vec<usize>> {
    let mut known: BTreeSet<usize> = BTreeSet::new();
    let mut bends = Vec::new();
    for first in 0..body.faces.len() {
        if tube(body, first).is_some() {
            bends.push(vec![first]);
        }
        let Some(ring) = hollow_ring(body, first) else {
            continue;
        };
        if !known.insert(first) {
            continue;
        }
        let (mut faces, mut open) = (Vec::new(), vec![first]);
        while let Some(face) = open.pop() {
            faces.push(face);
            for used in &body.faces[face].rim {
                let beside = body.other_face(used.edge, face);
                let same = beside.filter(|other| {
                    hollow_ring(body, *other).is_some_and(|other| is_same(ring, other))
                });
                open.extend(same.filter(|other| known.insert(*other)));
            }
        }
        if is_closed_around(body, &faces, ring) {
            bends.push(faces);
        }
    }
    bends
}

/// The radius of a hollow free form whose every section across one of its parameters is the same circle.
fn tube(body: &Body, face: usize) -> Option<f64> {
    let face = body.faces.get(face)?;
    let Surface::Patch(patch) = &face.surface else {
        return None;
    };
    let outward = face.sense * face.outward;
    let sampled: Vec<(V, V)> = patch
        .sampled(POINTS)
        .filter_map(|(p, normal)| Some((p, times(normal?, outward))))
        .collect();
    if sampled.len() != POINTS * POINTS {
        return None;
    }
    let rows = sampled
        .chunks(POINTS)
        .map(|row| row.iter().collect::<Vec<_>>());
    let columns = (0..POINTS).map(|at| sampled.iter().skip(at).step_by(POINTS).collect());
    same_circles(rows).or_else(|| same_circles(columns))
}

/// The radius of sections, each of points with normals, that are hollow circles of one size.
fn same_circles<'s>(sections: impl Iterator<Item = Vec<&'s (V, V)>>) -> Option<f64> {
    let mut first = None;
    for section in sections {
        let share = 1.0 / section.len().max(1) as f64;
        let center = section
            .iter()
            .fold([0.0; 3], |sum, (p, _)| add(sum, times(*p, share)));
        let radius = section
            .iter()
            .map(|(p, _)| distance(*p, center))
            .sum::<f64>()
            * share;
        let known = *first.get_or_insert(radius);
        let is_round = section.iter().all(|(p, normal)| {
            let out = sub(*p, center);
            let off = (distance(*p, center) - known).abs();
            off <= ROUND_WITHIN * known && dot(*normal, out) < -0.95 * known
        });
        if !is_round {
            return None;
        }
    }
    first
}

type Ring<'b> = (&'b Frame, f64, f64);

fn hollow_ring(body: &Body, face: usize) -> Option<Ring<'_>> {
    let face = body.faces.get(face)?;
    match &face.surface {
        Surface::Ring {
            frame,
            major,
            minor,
        } if face.sense * face.outward < 0.0 => Some((frame, *major, *minor)),
        _ => None,
    }
}

fn is_same(a: Ring<'_>, b: Ring<'_>) -> bool {
    let within = 1e-4 * a.2;
    distance(a.0.origin, b.0.origin) <= within
        && dot(a.0.z, b.0.z).abs() > 1.0 - 1e-9
        && (a.1 - b.1).abs() <= within
        && (a.2 - b.2).abs() <= within
}

/// Whether the edges of some faces of a ring go all around its center line: those of a rounded corner or of
/// the floor of a groove don't.
fn is_closed_around(body: &Body, faces: &[usize], (frame, major, _): Ring<'_>) -> bool {
    let edges = faces.iter().flat_map(|face| &body.faces[*face].rim);
    let points = edges.flat_map(|used| &body.edges[used.edge].points);
    let mut angles: Vec<f64> = points
        .filter_map(|p| {
            let from = sub(*p, frame.origin);
            let out = unit(along(from, frame.z, -dot(from, frame.z)))?;
            let off = sub(from, out.map(|part| part * major));
            Some(libm::atan2(dot(off, frame.z), dot(off, out)))
        })
        .collect();
    angles.sort_by(f64::total_cmp);
    let around = angles.first().map(|first| first + TAU);
    let next = angles.iter().skip(1).copied().chain(around);
    let widest = angles.iter().zip(next).map(|(a, b)| b - a);
    !angles.is_empty() && widest.fold(0.0, f64::max) < WIDEST_GAP
}
