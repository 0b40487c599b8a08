//! Circles, as themselves, as ellipses, and as chains that close.

use super::drawn::As;
use super::entity::Chain;
use super::place::{
    FARTHEST, Place, Point, SHORTEST, add, cross, dot, is_sound, length, less, sin_cos, times, unit,
};

/// A circle or an ellipse by its center and two halves of it at right angles to each other, as they stood
/// before anything was stretched.
#[derive(Clone, Copy, Debug)]
pub(super) struct Halves {
    pub(super) center: Point,
    pub(super) first: Point,
    pub(super) second: Point,
}

/// What such halves make.
pub(super) enum Made {
    /// A circle: center, radius, normal.
    Circle(Point, f64, Point),
    /// No circle any more.
    Stretched,
    /// Nothing that has a length.
    NoLength,
}

/// How much longer one half may be than the other, and how far from a right angle.
const SAME: f64 = 1e-6;

impl Halves {
    /// Of a circle in its own plane.
    pub(super) fn of_circle(center: Point, radius: f64) -> Self {
        Self {
            center,
            first: [radius, 0.0, 0.0],
            second: [0.0, radius, 0.0],
        }
    }

    /// Of an ellipse in the drawing's coordinates.
    pub(super) fn of_ellipse(
        center: Point,
        major: Point,
        ratio: f64,
        normal: Point,
    ) -> Option<Self> {
        Some(Self {
            center,
            first: major,
            second: times(cross(unit(normal)?, major), ratio),
        })
    }

    /// As they stand once they are placed.
    pub(super) fn placed(&self, place: &Place) -> Self {
        Self {
            center: place.point(self.center),
            first: place.vector(self.first),
            second: place.vector(self.second),
        }
    }

    /// What they make.
    pub(super) fn made(&self) -> Made {
        let (first, second) = (length(self.first), length(self.second));
        let is_length = |length: f64| (SHORTEST..=FARTHEST).contains(&length);
        if !is_length(first) || !is_length(second) || !is_sound(self.center) {
            return Made::NoLength;
        }
        let Some(normal) = unit(cross(
            times(self.first, 1.0 / first),
            times(self.second, 1.0 / second),
        )) else {
            return Made::Stretched;
        };
        let leans = dot(
            times(self.first, 1.0 / first),
            times(self.second, 1.0 / second),
        )
        .abs();
        if (first - second).abs() > SAME * first.max(second) || leans > SAME {
            return Made::Stretched;
        }
        Made::Circle(self.center, first.midpoint(second), normal)
    }

    /// From the center to the point at a parameter in degrees.
    pub(super) fn toward(&self, degrees: f64) -> Point {
        let (sin, cos) = sin_cos(degrees);
        add(times(self.first, cos), times(self.second, sin))
    }
}

impl Chain {
    /// Each two points that are joined, and the bulge between them.
    pub(super) fn links(&self) -> impl Iterator<Item = (Point, Point, f64)> {
        let count = self.points.len();
        let links = if self.closed {
            count
        } else {
            count.saturating_sub(1)
        };
        (0..links).map(move |at| {
            let (from, bulge) = self.points[at];
            (from, self.points[(at + 1) % count].0, bulge)
        })
    }
}

/// A chain that is a circle, in its own coordinates: center, radius, and as what it is drawn.
pub(super) fn of_chain(chain: &Chain) -> Option<(Point, f64, As)> {
    let mut points = chain.points.as_slice();
    let (first, last) = (points.first()?, points.last()?);
    let size = points
        .iter()
        .map(|(point, _)| length(less(*point, first.0)))
        .fold(0.0, f64::max);
    let meets = points.len() > 2 && length(less(first.0, last.0)) <= MEETS * size;
    if !(size > 0.0 && (chain.closed || meets)) {
        return None;
    }
    if meets {
        points = &points[..points.len() - 1];
    }
    let level = points
        .iter()
        .all(|(point, _)| (point[2] - first.0[2]).abs() <= MEETS * size);
    if !level {
        return None;
    }
    if points.iter().all(|(_, bulge)| *bulge == 0.0) {
        let corners: Vec<Point> = points.iter().map(|(point, _)| *point).collect();
        return of_corners(&corners).map(|(center, radius, _)| (center, radius, As::Closed));
    }
    of_bulges(points).map(|(center, radius)| (center, radius, As::Closed))
}

/// A free curve that is a circle, by points upon it, level in the drawing.
pub(super) fn of_curve(points: &[Point]) -> Option<(Point, f64, As)> {
    let (first, last) = (points.first()?, points.last()?);
    let size = points
        .iter()
        .map(|point| length(less(*point, *first)))
        .fold(0.0, f64::max);
    let level = points
        .iter()
        .all(|point| (point[2] - first[2]).abs() <= MEETS * size);
    if !(size > 0.0 && level && length(less(*first, *last)) <= MEETS * size) {
        return None;
    }
    let (center, radius, off) = of_corners(&points[..points.len() - 1])?;
    Some((center, radius, As::Curve(off)))
}

/// How near ends must be to meet, in parts of the whole.
const MEETS: f64 = 1e-4;

/// So many corners at least make a circle of lines; fewer are a polygon that somebody meant.
const FEWEST_CORNERS: usize = 12;

/// How far a corner may be off the circle, in parts of its radius.
const OFF: f64 = 5e-4;

/// The circle through corners that go round once: center, radius, how far the farthest is off.
fn of_corners(corners: &[Point]) -> Option<(Point, f64, f64)> {
    let count = corners.len();
    if count < FEWEST_CORNERS {
        return None;
    }
    let (center, radius) = through(corners[0], corners[count / 3], corners[2 * count / 3])?;
    let off = corners
        .iter()
        .map(|corner| (length(less(*corner, center)) - radius).abs())
        .fold(0.0, f64::max);
    if off > OFF * radius {
        return None;
    }
    let mut turned = 0.0;
    for (at, corner) in corners.iter().enumerate() {
        let next = corners[(at + 1) % count];
        let turn = turn(less(*corner, center), less(next, center));
        if turn.abs() > std::f64::consts::TAU / 8.0 {
            return None;
        }
        turned += turn;
    }
    is_once(turned).then_some((center, radius, off))
}

/// The circle of arcs that have it in common and go round once.
fn of_bulges(points: &[(Point, f64)]) -> Option<(Point, f64)> {
    let mut common: Option<(Point, f64)> = None;
    let mut turned = 0.0;
    for (at, (from, bulge)) in points.iter().enumerate() {
        let to = points[(at + 1) % points.len()].0;
        let (center, radius) = center_of_bulge(*from, to, *bulge)?;
        let (first_center, first_radius) = *common.get_or_insert((center, radius));
        let apart = length(less(center, first_center)).max((radius - first_radius).abs());
        if apart > OFF * first_radius {
            return None;
        }
        turned += 4.0 * libm::atan(*bulge);
    }
    common.filter(|_| is_once(turned))
}

/// Center and radius of what a bulge joins two points by; `None` where that is a line.
pub(super) fn center_of_bulge(from: Point, to: Point, bulge: f64) -> Option<(Point, f64)> {
    let chord = less(to, from);
    let size = libm::hypot(chord[0], chord[1]);
    if bulge == 0.0 || size == 0.0 || !size.is_finite() {
        return None;
    }
    // Of an arc over the chord c with the bulge b: radius c (1 + b^2) / 4 |b|, the center c (1 - b^2) / 4 b
    // to the left of the chord's middle.
    let side = (1.0 - bulge * bulge) / (4.0 * bulge);
    let center = [
        from[0].midpoint(to[0]) - chord[1] * side,
        from[1].midpoint(to[1]) + chord[0] * side,
        from[2],
    ];
    let radius = size * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
    (radius.is_finite() && is_sound(center)).then_some((center, radius))
}

fn is_once(turned: f64) -> bool {
    (turned.abs() - std::f64::consts::TAU).abs() < 1e-3
}

/// By how much one vector is turned from another, seen along z, in radians.
fn turn(from: Point, to: Point) -> f64 {
    libm::atan2(
        from[0] * to[1] - from[1] * to[0],
        from[0] * to[0] + from[1] * to[1],
    )
}

/// The circle through three points, seen along z.
fn through(a: Point, b: Point, c: Point) -> Option<(Point, f64)> {
    let (b, c) = (less(b, a), less(c, a));
    let twice = 2.0 * (b[0] * c[1] - b[1] * c[0]);
    let (b2, c2) = (b[0] * b[0] + b[1] * b[1], c[0] * c[0] + c[1] * c[1]);
    let x = (c[1] * b2 - b[1] * c2) / twice;
    let y = (b[0] * c2 - c[0] * b2) / twice;
    let radius = libm::hypot(x, y);
    (radius.is_finite() && radius > 0.0).then_some(([a[0] + x, a[1] + y, a[2]], radius))
}
