//! Free forms that are a plane or a cylinder.

use super::motion::Frame;
use super::patch::Patch;
use super::surface::Surface;
use super::vector::{Bounds, V, across, add, dot, length, sub, times};

/// A free form that is no further than this share of its radius from a cylinder is one.
const ROUND_WITHIN: f64 = 0.01;
/// Points along each of its parameters that are looked at.
const POINTS: usize = 12;

/// What a free form is.
pub(super) struct Known {
    /// A plane or a cylinder.
    pub(super) surface: Surface,
    /// 1 where the free form's normal is that of the surface, -1 where it is against it.
    pub(super) sense: f64,
    /// How far it is from a cylinder.
    pub(super) off: Option<f64>,
}

/// The plane or the cylinder that a free form is.
pub(super) fn round_patch(patch: &Patch) -> Option<Known> {
    let sampled: Vec<(V, V)> = patch
        .sampled(POINTS)
        .filter_map(|(p, normal)| Some((p, normal?)))
        .collect();
    let (first, first_normal) = *sampled.first()?;
    let mut bounds = Bounds::EMPTY;
    patch.net().iter().for_each(|p| bounds.take(*p));
    let size = bounds.size();
    let flat = |p: &V| dot(sub(*p, first), first_normal).abs() <= 1e-9 * size;
    if patch.net().iter().all(flat) && sampled.iter().all(|(p, _)| flat(p)) {
        return Some(Known {
            surface: Surface::Plane(Frame::about(first, first_normal)),
            sense: 1.0,
            off: None,
        });
    }
    let axis = axis_of(&sampled)?;
    let (center, radius) = circle_through(&sampled, axis)?;
    if !(radius.is_finite() && radius < 10.0 * size) {
        return None;
    }
    let mut off: f64 = 0.0;
    let mut facing = 0.0;
    for (p, normal) in &sampled {
        let from = sub(*p, center);
        let out = sub(from, times(axis, dot(from, axis)));
        off = off.max((length(out) - radius).abs());
        facing += dot(*normal, out);
        // A wall of a taper has normals that lean.
        if dot(*normal, axis).abs() > 0.02 {
            return None;
        }
    }
    (off <= ROUND_WITHIN * radius).then(|| Known {
        surface: Surface::Cylinder {
            frame: Frame::about(center, axis),
            radius,
        },
        sense: if facing < 0.0 { -1.0 } else { 1.0 },
        off: Some(off),
    })
}

/// The direction that all normals are most nearly square to.
fn axis_of(sampled: &[(V, V)]) -> Option<V> {
    let mut spread = [[0.0; 3]; 3];
    for (_, normal) in sampled {
        for (row, a) in spread.iter_mut().zip(normal) {
            for (cell, b) in row.iter_mut().zip(normal) {
                *cell += a * b;
            }
        }
    }
    let (values, vectors) = turned_to_axes(spread);
    let least = (0..3).min_by(|a, b| values[*a].total_cmp(&values[*b]))?;
    let mut others = (0..3).filter(|at| *at != least).map(|at| values[at]);
    // Normals that hardly differ tell no axis.
    let enough = others.all(|value| value > 1e-3 * sampled.len() as f64);
    enough.then_some(vectors[least])
}

/// Eigenvalues and eigenvectors of a symmetric matrix (C. G. J. Jacobi 1846).
fn turned_to_axes(mut a: [[f64; 3]; 3]) -> (V, [V; 3]) {
    let mut axes = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
    for _ in 0..30 {
        for (p, q) in [(0, 1), (0, 2), (1, 2)] {
            if a[p][q].abs() < 1e-300 {
                continue;
            }
            let theta = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
            let t = 1.0_f64.copysign(theta) / (theta.abs() + libm::hypot(theta, 1.0));
            let c = 1.0 / libm::hypot(t, 1.0);
            let s = t * c;
            for row in &mut a {
                (row[p], row[q]) = (c * row[p] - s * row[q], s * row[p] + c * row[q]);
            }
            for at in 0..3 {
                (a[p][at], a[q][at]) = (c * a[p][at] - s * a[q][at], s * a[p][at] + c * a[q][at]);
                (axes[p][at], axes[q][at]) = (
                    c * axes[p][at] - s * axes[q][at],
                    s * axes[p][at] + c * axes[q][at],
                );
            }
        }
    }
    ([a[0][0], a[1][1], a[2][2]], axes)
}

/// The circle through points as seen along an axis: its center and radius (I. Kasa 1976, least squares of
/// the squared distances).
fn circle_through(sampled: &[(V, V)], axis: V) -> Option<(V, f64)> {
    let [u, v] = across(axis);
    let count = sampled.len() as f64;
    let mean = sampled
        .iter()
        .fold([0.0; 3], |sum, (p, _)| add(sum, times(*p, 1.0 / count)));
    let (mut uu, mut uv, mut vv, mut u3, mut v3) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (p, _) in sampled {
        let from = sub(*p, mean);
        let (x, y) = (dot(from, u), dot(from, v));
        (uu, uv, vv) = (uu + x * x, uv + x * y, vv + y * y);
        let square = x * x + y * y;
        (u3, v3) = (u3 + x * square, v3 + y * square);
    }
    let whole = uu * vv - uv * uv;
    if whole.is_nan() || whole <= 0.0 {
        return None;
    }
    let a = 0.5 * (u3 * vv - v3 * uv) / whole;
    let b = 0.5 * (v3 * uu - u3 * uv) / whole;
    let center = add(mean, add(times(u, a), times(v, b)));
    let radius = (a * a + b * b + (uu + vv) / count).sqrt();
    Some((center, radius))
}

/// Whether a free form bends around its own hollow side by half a turn or more: the wall of something like
/// a hole. `outward` is the sign by which its normals point out of the material.
pub(super) fn bends_around(patch: &Patch, outward: f64) -> bool {
    let sampled: Vec<(V, V)> = patch
        .sampled(POINTS)
        .filter_map(|(p, normal)| Some((p, times(normal?, outward))))
        .collect();
    let count = sampled.len() as f64;
    let mean = sampled
        .iter()
        .fold([0.0; 3], |sum, (_, n)| add(sum, times(*n, 1.0 / count)));
    let apart: Vec<(V, V)> = sampled
        .iter()
        .map(|(p, normal)| (*p, sub(*normal, mean)))
        .collect();
    let Some(axis) = axis_of(&apart) else {
        return false;
    };
    let Some((center, _)) = circle_through(&sampled, axis) else {
        return false;
    };
    let [u, v] = across(axis);
    let mut angles = Vec::new();
    for (p, normal) in &sampled {
        let from = sub(*p, center);
        let out = sub(from, times(axis, dot(from, axis)));
        // Seen from the axis a hollow wall faces it, and leans little.
        if dot(*normal, out) > -0.7 * length(out) {
            return false;
        }
        angles.push(libm::atan2(dot(from, v), dot(from, u)));
    }
    angles.sort_by(f64::total_cmp);
    let around = angles.first().map(|first| first + std::f64::consts::TAU);
    let next = angles.iter().skip(1).copied().chain(around);
    let gap = angles
        .iter()
        .zip(next)
        .map(|(a, b)| b - a)
        .fold(0.0, f64::max);
    gap < std::f64::consts::PI * 1.05
}
