//! Surfaces that have no formula for where a line meets them: a net of points, then Newton's steps.

use std::f64::consts::TAU;

use super::curve::Curve;
use super::motion::Frame;
use super::spline::{Knots, SplineSurface};
use super::vector::{V, add, along, cross, distance, dot, length, sub, times, unit};

/// How a surface is made.
#[derive(Clone, Debug)]
pub(super) enum Make {
    /// A B-spline.
    Spline(SplineSurface),
    /// A curve turned about the z axis of a frame; u is the angle.
    Turned(Frame, Curve),
    /// A curve drawn along a direction, one long; u runs on the curve.
    Drawn(Curve, V),
}

/// A surface between bounds of its two parameters, and a net of points on it.
#[derive(Clone, Debug)]
pub(super) struct Patch {
    make: Make,
    range: [[f64; 2]; 2],
    /// How many meshes the net has along u and v.
    meshes: [usize; 2],
    /// The points, row by row along v.
    net: Vec<V>,
}

impl Patch {
    /// A surface with its net; `v` or `u` is where a curve begins and ends on what is drawn or turned.
    pub(super) fn new(make: Make, range: [[f64; 2]; 2]) -> Option<Self> {
        let fits = |[from, to]: [f64; 2]| from.is_finite() && to.is_finite() && from < to;
        if !range.into_iter().all(fits) {
            return None;
        }
        let count = |knots: &Knots| {
            let (pieces, degree) = knots.pieces();
            (pieces * (degree + 1)).clamp(2, 64)
        };
        let of_curve = |curve: &Curve| match curve {
            Curve::Spline(spline) => count(spline.knots()),
            Curve::Line { .. } => 2,
            _ => 32,
        };
        let meshes = match &make {
            Make::Spline(spline) => spline.knots().map(count),
            Make::Turned(_, curve) => [32, of_curve(curve)],
            Make::Drawn(curve, _) => [of_curve(curve), 2],
        };
        let mut patch = Self {
            make,
            range,
            meshes,
            net: Vec::with_capacity((meshes[0] + 1) * (meshes[1] + 1)),
        };
        for a in 0..=meshes[0] {
            for b in 0..=meshes[1] {
                let [u, v] = patch.parameters(a, b);
                let p = patch.at(u, v).0;
                if !super::vector::is_finite(p) {
                    return None;
                }
                patch.net.push(p);
            }
        }
        Some(patch)
    }

    /// The points of its net.
    pub(super) fn net(&self) -> &[V] {
        &self.net
    }

    /// Points of it with their normals, so many along u and v.
    pub(super) fn sampled(&self, count: usize) -> impl Iterator<Item = (V, Option<V>)> {
        let share = move |at: usize| (at as f64 + 0.5) / count as f64;
        (0..count * count).map(move |at| {
            let (a, b) = (share(at / count), share(at % count));
            let [u, v] = self.within([a, b]);
            let (p, by_u, by_v) = self.at(u, v);
            (p, unit(cross(by_u, by_v)))
        })
    }

    /// A point of it and its slopes there.
    pub(super) fn at(&self, u: f64, v: f64) -> (V, V, V) {
        match &self.make {
            Make::Spline(spline) => spline.at(u, v),
            Make::Turned(frame, curve) => {
                let (p, slope) = curve.at(v);
                let (sin, cos) = (libm::sin(u), libm::cos(u));
                let turn = |d: V| {
                    let [x, y, z] = [frame.x, frame.y, frame.z].map(|axis| dot(axis, d));
                    let flat = add(
                        times(frame.x, x * cos - y * sin),
                        times(frame.y, x * sin + y * cos),
                    );
                    along(flat, frame.z, z)
                };
                let from = turn(sub(p, frame.origin));
                (add(frame.origin, from), cross(frame.z, from), turn(slope))
            }
            Make::Drawn(curve, d) => {
                let (p, slope) = curve.at(u);
                (along(p, *d, v), slope, *d)
            }
        }
    }

    /// Its normal at a point near it.
    pub(super) fn normal(&self, q: V) -> Option<V> {
        let (u, v) = self.nearest(q)?;
        let (_, by_u, by_v) = self.at(u, v);
        let whole = length(by_u) * length(by_v);
        let normal = cross(by_u, by_v);
        if length(normal) > 1e-9 * whole {
            return unit(normal);
        }
        // At a pole one slope is nothing: a step aside it is not.
        let [[u0, u1], [v0, v1]] = self.range;
        let toward = |at: f64, from: f64, to: f64| at + ((from + to) / 2.0 - at) * 1e-3;
        let (_, by_u, by_v) = self.at(toward(u, u0, u1), toward(v, v0, v1));
        unit(cross(by_u, by_v))
    }

    /// The parameters of its point nearest to another.
    pub(super) fn nearest(&self, q: V) -> Option<(f64, f64)> {
        let each = self.net.iter().map(|p| distance(*p, q)).enumerate();
        let (at, mut away) = each.min_by(|a, b| a.1.total_cmp(&b.1))?;
        let [mut u, mut v] = self.parameters(at / (self.meshes[1] + 1), at % (self.meshes[1] + 1));
        for _ in 0..20 {
            let (p, by_u, by_v) = self.at(u, v);
            let left = sub(q, p);
            let step = solved(
                [dot(by_u, by_u), dot(by_u, by_v), dot(by_v, by_v)],
                [dot(left, by_u), dot(left, by_v)],
            );
            let [du, dv] = step?;
            // Half of a step that leads away, and half of that.
            let mut better = None;
            let mut share = 1.0;
            for _ in 0..6 {
                let next = self.cut(u + du * share, v + dv * share);
                let there = distance(self.at(next.0, next.1).0, q);
                if there < away {
                    better = Some((next, there));
                    break;
                }
                share *= 0.5;
            }
            let Some((next, there)) = better else { break };
            ((u, v), away) = (next, there);
        }
        Some((u, v))
    }

    /// Where a line meets it.
    pub(super) fn met_by(&self, p: V, d: V) -> Vec<f64> {
        let mut met: Vec<f64> = Vec::new();
        let row = self.meshes[1] + 1;
        for a in 0..self.meshes[0] {
            for b in 0..self.meshes[1] {
                let at = a * row + b;
                let corners = [at, at + 1, at + row + 1, at + row].map(|at| self.net[at]);
                let half = [[0, 1, 2], [0, 2, 3]];
                let hit = half
                    .iter()
                    .find_map(|three| triangle(three.map(|at| corners[at]), p, d));
                let Some(rough) = hit else { continue };
                let [u, v] = self.within([
                    (a as f64 + 0.5) / self.meshes[0] as f64,
                    (b as f64 + 0.5) / self.meshes[1] as f64,
                ]);
                let t = self.refined(p, d, [u, v, rough]).unwrap_or(rough);
                let size = distance(corners[0], corners[2]);
                if !met.iter().any(|other| (other - t).abs() < 1e-6 * size) {
                    met.push(t);
                }
            }
        }
        met
    }

    /// Where exactly a line meets it, from somewhere near.
    fn refined(&self, p: V, d: V, [mut u, mut v, mut t]: [f64; 3]) -> Option<f64> {
        for _ in 0..20 {
            let (s, by_u, by_v) = self.at(u, v);
            let off = sub(along(p, d, t), s);
            let size = length(by_u).max(length(by_v));
            if length(off) < 1e-12 * (1.0 + length(s)) {
                return Some(t);
            }
            let whole = dot(d, cross(by_u, by_v));
            if whole.abs() < 1e-12 * size * size {
                return None;
            }
            // Cramer's rule for off = du by_u + dv by_v - dt d.
            let du = dot(d, cross(off, by_v)) / whole;
            let dv = dot(d, cross(by_u, off)) / whole;
            t -= dot(off, cross(by_u, by_v)) / whole;
            (u, v) = self.cut(u + du, v + dv);
        }
        let off = distance(along(p, d, t), self.at(u, v).0);
        (off < 1e-7 * (1.0 + length(p))).then_some(t)
    }

    fn cut(&self, u: f64, v: f64) -> (f64, f64) {
        let [[u0, u1], [v0, v1]] = self.range;
        let turns = matches!(self.make, Make::Turned(..));
        let u = if turns {
            u.rem_euclid(TAU)
        } else {
            u.clamp(u0, u1)
        };
        (u, v.clamp(v0, v1))
    }

    fn parameters(&self, a: usize, b: usize) -> [f64; 2] {
        let share = |at: usize, of: usize| at as f64 / of as f64;
        self.within([share(a, self.meshes[0]), share(b, self.meshes[1])])
    }

    /// Parameters by shares of their range.
    fn within(&self, [a, b]: [f64; 2]) -> [f64; 2] {
        let [[u0, u1], [v0, v1]] = self.range;
        [u0 + (u1 - u0) * a, v0 + (v1 - v0) * b]
    }
}

/// Two unknowns of a symmetric pair of equations; of a flat one the shortest answer.
fn solved([aa, ab, bb]: [f64; 3], [a, b]: [f64; 2]) -> Option<[f64; 2]> {
    // A touch of damping makes a pole no exception.
    let damp = 1e-12 * (aa + bb);
    let (aa, bb) = (aa + damp, bb + damp);
    let whole = aa * bb - ab * ab;
    (whole > 0.0).then(|| [(a * bb - b * ab) / whole, (b * aa - a * ab) / whole])
}

/// Where a line meets a triangle, its rim belonging to it (T. Moeller and B. Trumbore 1997).
fn triangle([a, b, c]: [V; 3], p: V, d: V) -> Option<f64> {
    let (ab, ac) = (sub(b, a), sub(c, a));
    let across = cross(d, ac);
    let whole = dot(ab, across);
    if whole.abs() < 1e-14 * length(ab) * length(ac) * length(d) || whole == 0.0 {
        return None;
    }
    let from = sub(p, a);
    let u = dot(from, across) / whole;
    let v = dot(d, cross(from, ab)) / whole;
    let slack = 1e-4;
    let inside = u >= -slack && v >= -slack && u + v <= 1.0 + slack;
    inside.then(|| dot(ac, cross(from, ab)) / whole)
}
