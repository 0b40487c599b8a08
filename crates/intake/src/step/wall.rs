//! Faces about an axis, unrolled: where lines along the axis, or away from it, enter and leave them.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::{PI, TAU};

use super::body::Body;
use super::curve::Curve;
use super::vector::{V, across, dot, is_parallel, length, sub, times};

/// Lines around the axis, evenly.
pub(super) const LINES: usize = 48;
/// Further lines, between the corners of the edges.
const MOST_CORNERS: usize = 256;
/// Corners that are no further apart are one, by the digits that a file writes: nobody makes a slit so slim.
const SLIVER: f64 = 1e-3;

/// An axis with a direction to count angles from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Axis {
    /// A point of it.
    pub(super) p: V,
    /// Its direction, one long.
    pub(super) d: V,
    u: V,
    v: V,
}

/// What is counted on a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// How far along the axis.
    Along,
    /// How far from the axis.
    Outward,
}

/// Faces about an axis, unrolled.
pub(super) struct Wall<'b> {
    body: &'b Body,
    axis: Axis,
    way: Way,
    rim: Vec<Rim>,
}

/// One edge of the faces, unrolled.
struct Rim {
    edge: usize,
    face: usize,
    /// Angle and height of its points; the angle runs on past a full turn.
    points: Vec<[f64; 2]>,
    /// Its height, where that is the same all along.
    level: Option<f64>,
}

/// Where a line meets the rim.
#[derive(Clone, Copy, Debug)]
pub(super) struct Crossing {
    /// How high on the line.
    pub(super) t: f64,
    /// The edge.
    pub(super) edge: usize,
    /// The face that it is an edge of.
    pub(super) face: usize,
}

impl Axis {
    /// The one through a point.
    pub(super) fn new(p: V, d: V) -> Self {
        let [u, v] = across(d);
        Self { p, d, u, v }
    }

    /// Angle about it, height along it and distance from it.
    pub(super) fn polar(&self, q: V) -> [f64; 3] {
        let from = sub(q, self.p);
        let (x, y) = (dot(from, self.u), dot(from, self.v));
        [libm::atan2(y, x), dot(from, self.d), libm::hypot(x, y)]
    }

    /// The direction away from it at an angle.
    pub(super) fn out(&self, angle: f64) -> V {
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        [0, 1, 2].map(|at| self.u[at] * cos + self.v[at] * sin)
    }

    /// The direction away from it at a point.
    pub(super) fn radial(&self, q: V) -> V {
        let from = sub(q, self.p);
        sub(from, times(self.d, dot(from, self.d)))
    }

    /// True where another line is the same one, within a length.
    pub(super) fn is_same(&self, p: V, d: V, within: f64) -> bool {
        is_parallel(self.d, d) && length(self.radial(p)) <= within
    }
}

impl<'b> Wall<'b> {
    /// Some faces of a body, unrolled.
    pub(super) fn new(body: &'b Body, axis: Axis, faces: &[usize], way: Way) -> Self {
        let mut uses: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for face in faces {
            for used in body.faces[*face].rim.iter().filter(|used| !used.seam) {
                uses.entry(used.edge).or_default().push(*face);
            }
        }
        let mut wall = Self {
            body,
            axis,
            way,
            rim: Vec::new(),
        };
        // An edge between two of the faces is none of their rim.
        for (edge, faces) in uses {
            if let [face] = faces[..] {
                wall.take(edge, face);
            }
        }
        wall
    }

    fn take(&mut self, edge: usize, face: usize) {
        let mut points: Vec<[f64; 2]> = Vec::new();
        for p in &self.body.edges[edge].points {
            let [angle, height] = self.unrolled(*p);
            let angle = points
                .last()
                .map_or(angle, |[last, _]| last + turned(angle - last));
            points.push([angle, height]);
        }
        let heights = || points.iter().map(|[_, height]| *height);
        let (low, high) = heights().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        });
        let size = self.body.edges[edge]
            .points
            .first()
            .map_or(1.0, |p| 1.0 + length(*p));
        let level = (high - low <= 1e-11 * size).then_some(low);
        // A line along the axis is crossed by no other.
        let straight = matches!(self.body.edges[edge].arc.curve, Curve::Line { .. });
        let angles = points.iter().map(|[angle, _]| *angle);
        let first = points.first().map_or(0.0, |[angle, _]| *angle);
        if straight && angles.into_iter().all(|angle| (angle - first).abs() < 1e-9) {
            return;
        }
        self.rim.push(Rim {
            edge,
            face,
            points,
            level,
        });
    }

    fn unrolled(&self, q: V) -> [f64; 2] {
        let [angle, along, out] = self.axis.polar(q);
        match self.way {
            Way::Along => [angle, along],
            Way::Outward => [angle, out],
        }
    }

    /// The angles of lines that miss nothing: evenly around, and between any two corners.
    pub(super) fn angles(&self) -> Vec<f64> {
        let even = (0..LINES).map(|at| -PI + TAU * (at as f64 + 0.382) / LINES as f64);
        let ends = self.rim.iter().flat_map(|rim| {
            let ends = [rim.points.first(), rim.points.last()];
            ends.into_iter().flatten().map(|[angle, _]| turned(*angle))
        });
        let mut corners: Vec<f64> = ends.collect();
        corners.sort_by(f64::total_cmp);
        corners.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        corners.truncate(MOST_CORNERS);
        let around = corners.first().map(|first| first + TAU);
        let next = corners.iter().skip(1).copied().chain(around);
        // Corners above each other stand at one angle but for the file's digits; nothing is between them.
        let pairs = corners.iter().zip(next).filter(|(a, b)| *b - **a > SLIVER);
        let between = pairs.map(|(a, b)| turned((a + b) / 2.0));
        let mut angles: Vec<f64> = even.chain(between).collect();
        angles.sort_by(f64::total_cmp);
        angles.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        angles
    }

    /// Where the line at an angle meets the rim, least first.
    pub(super) fn crossings(&self, angle: f64) -> Vec<Crossing> {
        let mut found = Vec::new();
        for rim in &self.rim {
            let segments = rim.points.windows(2).enumerate();
            for (at, pair) in segments {
                let &[[a, from], [b, to]] = pair else {
                    continue;
                };
                let (low, high) = (a.min(b), a.max(b));
                // Whole turns bring the angle to the first place behind the lower end; rounded, they may bring
                // it a hair before it, where it belongs to the piece that ends there.
                let turns = libm::ceil((low - angle) / TAU);
                let mut there = [turns, turns + 1.0]
                    .map(|turns| angle + TAU * turns)
                    .into_iter();
                let Some(wanted) = there.find(|at| (low..high).contains(at)) else {
                    continue;
                };
                let rough = from + (to - from) * (wanted - a) / (b - a);
                let t = rim
                    .level
                    .unwrap_or_else(|| self.refined(rim, at, wanted, rough));
                let (edge, face) = (rim.edge, rim.face);
                found.push(Crossing { t, edge, face });
            }
        }
        found.sort_by(|a, b| a.t.total_cmp(&b.t));
        found
    }

    /// The height of an edge exactly at an angle, on one of the pieces that it is drawn in.
    fn refined(&self, rim: &Rim, piece: usize, angle: f64, rough: f64) -> f64 {
        let arc = &self.body.edges[rim.edge].arc;
        let count = rim.points.len().saturating_sub(1).max(1) as f64;
        let share = |at: usize| at as f64 / count;
        let off = |s: f64| turned(self.unrolled(arc.at(s))[0] - angle);
        let (mut low, mut high) = (share(piece), share(piece + 1));
        let (mut at_low, mut at_high) = (off(low), off(high));
        if at_low.is_nan() || at_high.is_nan() || at_low * at_high > 0.0 {
            return rough;
        }
        // The Illinois kind of false position: an end that stays counts half.
        let mut best = rough;
        for _ in 0..40 {
            let s = low + (high - low) * at_low / (at_low - at_high);
            let there = off(s);
            best = self.unrolled(arc.at(s))[1];
            if there.abs() < 1e-13 || !s.is_finite() {
                break;
            }
            if (there < 0.0) == (at_high < 0.0) {
                at_low *= 0.5;
            } else {
                (low, at_low) = (high, at_high);
            }
            (high, at_high) = (s, there);
            if (high - low).abs() < 1e-15 {
                break;
            }
        }
        if best.is_finite() { best } else { rough }
    }

    /// From where to where the line at an angle runs on the faces; `None` where that can't be told.
    pub(super) fn spans(&self, angle: f64) -> Option<Vec<[Crossing; 2]>> {
        // Exactly through a corner a line may count one edge too few, or slip between two edges whose ends
        // the file's digits part.
        let mut between = None;
        for aside in [0.0, 1e-5, -1.7e-5, SLIVER, -1.7 * SLIVER] {
            let found = self.crossings(angle + aside);
            if !found.len().is_multiple_of(2) {
                continue;
            }
            if !found.is_empty() {
                let pairs = found.chunks_exact(2).map(|pair| [pair[0], pair[1]]);
                return Some(pairs.filter(|[a, b]| b.t - a.t > 1e-9).collect());
            }
            between = Some(Vec::new());
        }
        between
    }

    /// The edges that lines meet last, outward or along the axis by its sign; empty where one of them
    /// meets none.
    pub(super) fn last_edges(&self, sign: f64) -> BTreeSet<usize> {
        let mut found = BTreeSet::new();
        for angle in self.angles() {
            let crossings = self.crossings(angle);
            let last = if sign < 0.0 {
                crossings.first()
            } else {
                crossings.last()
            };
            match last {
                Some(crossing) => found.insert(crossing.edge),
                None => return BTreeSet::new(),
            };
        }
        found
    }
}

/// An angle, less whole turns: from -180 to 180 degrees.
pub(super) fn turned(angle: f64) -> f64 {
    let less = angle - TAU * libm::round(angle / TAU);
    if less.is_finite() { less } else { 0.0 }
}
