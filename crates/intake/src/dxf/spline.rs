//! Free curves as points upon them.

use super::fields::Fields;
use super::place::{Point, add, is_sound, times};

/// Points of a spline: along its knots, or those that it was laid through. `None` where its numbers make none.
pub(super) fn points(fields: &Fields<'_>) -> Option<Vec<Point>> {
    let control = fields.points(10)?;
    if control.is_empty() {
        return fields.points(11).filter(|points| points.len() > 1);
    }
    let degree = usize::try_from(fields.whole(71)).ok()?;
    let knots = fields.numbers(40)?;
    let mut weights = fields.numbers(41)?;
    weights.resize(control.len(), 1.0);
    if degree == 0 || degree > MOST_DEGREE || knots.len() != control.len() + degree + 1 {
        return None;
    }
    if knots.windows(2).any(|pair| pair[1] < pair[0]) {
        return None;
    }
    let curve = Spline {
        degree,
        knots: &knots,
        control: &control,
        weights: &weights,
    };
    let mut points = Vec::new();
    for span in degree..control.len() {
        let (from, to) = (knots[span], knots[span + 1]);
        if to <= from {
            continue;
        }
        for step in 0..STEPS {
            points.push(curve.at(
                span,
                from + (to - from) * f64::from(step) / f64::from(STEPS),
            ));
        }
        if span + 1 == control.len() || knots[span + 1] >= knots[control.len()] {
            points.push(curve.at(span, to));
        }
    }
    (points.len() > 1 && points.iter().all(|point| is_sound(*point))).then_some(points)
}

/// Points on each span.
const STEPS: u32 = 8;

/// No drawing program goes so far.
const MOST_DEGREE: usize = 15;

struct Spline<'a> {
    degree: usize,
    knots: &'a [f64],
    control: &'a [Point],
    weights: &'a [f64],
}

impl Spline<'_> {
    /// The point at a parameter in a span, by de Boor's algorithm in homogeneous coordinates.
    fn at(&self, span: usize, t: f64) -> Point {
        let first = span - self.degree;
        let mut points: Vec<(Point, f64)> = (first..=span)
            .map(|at| (times(self.control[at], self.weights[at]), self.weights[at]))
            .collect();
        for level in 1..=self.degree {
            for at in (level..=self.degree).rev() {
                let low = self.knots[first + at];
                let high = self.knots[first + at + self.degree + 1 - level];
                let part = if high > low {
                    (t - low) / (high - low)
                } else {
                    0.0
                };
                let (before, behind) = (points[at - 1], points[at]);
                points[at] = (
                    add(times(before.0, 1.0 - part), times(behind.0, part)),
                    before.1 * (1.0 - part) + behind.1 * part,
                );
            }
        }
        let (point, weight) = points[self.degree];
        times(point, 1.0 / weight)
    }
}
