//! A round part as the head meets it: on its curved side, at an end or at a rim.

use super::line::{Found, Line};
use super::shape::Stretch;
use super::stand_off::Shape;
use crate::vector::{Vector, across, along, cross, dot, opposite, unit};

/// Narrowings by the golden section: 200 mm to a millionth of a micrometer.
const NARROWED: u32 = 56;

/// What a golden section keeps.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Steps around a circle in which its highest point is looked for before it is narrowed.
const STEPS: u32 = 72;

/// A solid cylinder, as seen from the mouth.
pub(super) struct Turned {
    /// Unit vector out of the hole.
    out: Vector,
    /// Unit vector along its axis, upward for the tool.
    axis: Vector,
    /// Unit vector square to the axis, upward for the tool.
    upward: Vector,
    /// Unit vector square to both and to the way out.
    side: Vector,
    /// Its middle, from the mouth [mm].
    middle: Vector,
    /// Its radius [mm].
    radius: f64,
    /// Half of its length [mm].
    half: f64,
}

impl Turned {
    /// The cylinder about an axis of the part.
    pub(super) fn new(axis: Vector, middle: Vector, radius: f64, half: f64, out: Vector) -> Self {
        // A hole along the axis is cut into slices in any direction.
        let side = unit(cross(out, axis)).unwrap_or(across(axis)[0]);
        let rising = |vector: Vector| {
            if dot(vector, out) < 0.0 {
                opposite(vector)
            } else {
                vector
            }
        };
        Self {
            out,
            axis: rising(axis),
            upward: rising(cross(axis, side)),
            side,
            middle,
            radius,
            half,
        }
    }

    /// Edges of a slice that look toward the tool, so far aside of the mouth: along the curved side and
    /// across the end.
    fn slice(&self, aside: f64) -> [Line; 2] {
        let off = aside - dot(self.middle, self.side);
        let reach = libm::sqrt((self.radius * self.radius - off * off).max(0.0));
        let middle = along(self.middle, self.side, off);
        let top = along(along(middle, self.axis, -self.half), self.upward, reach);
        let end = along(along(middle, self.axis, self.half), self.upward, -reach);
        let line = |from, direction, length: f64| {
            Line::new(from, along([0.0; 3], direction, length), self.out)
        };
        [
            line(top, self.axis, 2.0 * self.half),
            line(end, self.upward, 2.0 * reach),
        ]
    }

    /// Height of its top over a point of the mouth's level; `None` beside it.
    fn top_over(&self, point: Vector) -> Option<f64> {
        let from = along(point, self.middle, -1.0);
        let (rise, lean) = (dot(self.out, self.upward), dot(self.out, self.axis));
        let (high, ahead) = (dot(from, self.upward), dot(from, self.axis));
        let off = dot(from, self.side);
        let left = self.radius * self.radius - off * off;
        if left.is_nan() || left < 0.0 {
            return None;
        }
        let reach = libm::sqrt(left);
        // Where the line along the tool enters and leaves the curved side, and the two ends.
        let crossed = |at: f64, by: f64, half: f64| {
            if by > 0.0 {
                Some([(-half - at) / by, (half - at) / by])
            } else {
                (at.abs() <= half).then_some([f64::NEG_INFINITY, f64::INFINITY])
            }
        };
        let [low, high] = crossed(high, rise, reach)?;
        let [from, to] = crossed(ahead, lean, self.half)?;
        let top = high.min(to);
        (top >= low.max(from)).then_some(top)
    }
}

impl Shape for Turned {
    /// In a slice along the axes of tool and part the cylinder is a rectangle. From slice to slice what is
    /// needed is concave, as cylinder and stretch are convex, so a golden section finds its greatest.
    fn highest(&self, stretch: &Stretch) -> Option<Found> {
        let in_slice = |aside: f64| {
            let [top, end] = self.slice(aside);
            Found::more(top.highest(stretch), end.highest(stretch))
        };
        let center = dot(self.middle, self.side);
        let nearest = 0.0_f64.max(center - self.radius).min(center + self.radius);
        let low = (center - self.radius).max(-stretch.outer_mm).min(nearest);
        let high = (center + self.radius).min(stretch.outer_mm).max(nearest);
        Found::more(
            greatest(in_slice, nearest, low),
            greatest(in_slice, nearest, high),
        )
    }

    fn on_circle(&self, radius_mm: f64) -> Option<f64> {
        let [first, second] = across(self.out);
        let top = |turn: f64| {
            let at = along([0.0; 3], first, radius_mm * libm::cos(turn));
            let at = along(at, second, radius_mm * libm::sin(turn));
            // A height is what a head without any of its own would need.
            self.top_over(at).map(|height| Found {
                needed_mm: height,
                from_axis_mm: radius_mm,
            })
        };
        let step = core::f64::consts::TAU / f64::from(STEPS);
        let turns = (0..STEPS).map(|index| f64::from(index) * step);
        let best = turns
            .map(|turn| (turn, Found::needed(top(turn))))
            .reduce(|one, other| if other.1 > one.1 { other } else { one })?;
        let sides = [best.0 - step, best.0 + step].map(|to| greatest(top, best.0, to));
        Found::more(sides[0], sides[1]).map(|found| found.needed_mm)
    }
}

/// The greatest of a concave function from a place where there is one to another where there may be none.
fn greatest(of: impl Fn(f64) -> Option<Found>, from: f64, to: f64) -> Option<Found> {
    let (mut from, mut to) = (from, to);
    let mut most = of(from);
    let inner = |from: f64, to: f64| to + (from - to) * GOLDEN;
    let outer = |from: f64, to: f64| from + (to - from) * GOLDEN;
    let (mut near, mut far) = (of(inner(from, to)), of(outer(from, to)));
    for _ in 0..NARROWED {
        // Where there is nothing on either place, what there is lies nearer.
        if Found::needed(far) > Found::needed(near) {
            from = inner(from, to);
            most = Found::more(most, far);
            near = far;
            far = of(outer(from, to));
        } else {
            to = outer(from, to);
            most = Found::more(most, near);
            far = near;
            near = of(inner(from, to));
        }
    }
    most
}
