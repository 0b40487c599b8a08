//! B-spline curves and surfaces, rational or not (L. Piegl and W. Tiller, The NURBS Book, 2nd ed. 1997,
//! algorithms A2.1 and A2.3 for the first derivative, A4.1, A4.3).

use super::vector::{V, add, sub, times};

/// No degree is higher.
pub(super) const MOST_DEGREE: usize = 25;

/// A knot vector with its degree.
#[derive(Clone, Debug)]
pub(super) struct Knots {
    degree: usize,
    knots: Vec<f64>,
}

/// A curve.
#[derive(Clone, Debug)]
pub(super) struct SplineCurve {
    knots: Knots,
    /// Control points, each with its weight.
    control: Vec<(V, f64)>,
}

/// A surface.
#[derive(Clone, Debug)]
pub(super) struct SplineSurface {
    u: Knots,
    v: Knots,
    /// Control points, each with its weight, row by row along v.
    control: Vec<(V, f64)>,
}

/// Values and slopes of the basis functions that are not 0 somewhere.
struct Basis {
    /// The first of them.
    first: usize,
    values: [f64; MOST_DEGREE + 1],
    slopes: [f64; MOST_DEGREE + 1],
}

impl Knots {
    /// Knots that fit so many control points; `None` where they don't.
    pub(super) fn new(degree: usize, points: usize, times: &[f64], values: &[f64]) -> Option<Self> {
        let wanted = points.checked_add(degree)?.checked_add(1)?;
        if !(1..=MOST_DEGREE).contains(&degree) || points <= degree || times.len() != values.len() {
            return None;
        }
        let mut knots = Vec::new();
        for (times, value) in times.iter().zip(values) {
            let room = wanted - knots.len();
            let fits = *times >= 1.0 && times.fract() == 0.0 && *times <= room as f64;
            let rises = knots.last().is_none_or(|last| last <= value);
            if !fits || !rises {
                return None;
            }
            let mut left = *times;
            while left > 0.0 {
                knots.push(*value);
                left -= 1.0;
            }
        }
        let found = Self { degree, knots };
        let [from, to] = (found.knots.len() == wanted).then(|| found.range())?;
        (from < to).then_some(found)
    }

    /// From where to where they go.
    pub(super) fn range(&self) -> [f64; 2] {
        let last = self.knots.len() - 1 - self.degree;
        [self.knots[self.degree], self.knots[last]]
    }

    /// How many pieces they have, and the degree.
    pub(super) fn pieces(&self) -> (usize, usize) {
        let inner = &self.knots[self.degree..self.knots.len() - self.degree];
        let rising = inner.windows(2).filter(|pair| pair[0] < pair[1]).count();
        (rising, self.degree)
    }

    fn basis(&self, at: f64) -> Basis {
        let (degree, knots) = (self.degree, &self.knots);
        let [from, to] = self.range();
        let at = at.clamp(from, to);
        let last = knots.len() - degree - 2;
        let span = knots.partition_point(|knot| *knot <= at).saturating_sub(1);
        let mut span = span.clamp(degree, last);
        // At the very end the last piece that has a length.
        while span > degree && knots[span] >= knots[span + 1] {
            span -= 1;
        }
        let mut values = [0.0; MOST_DEGREE + 1];
        let mut lower = values;
        values[0] = 1.0;
        for order in 1..=degree {
            lower = values;
            values = [0.0; MOST_DEGREE + 1];
            for (at_value, below) in lower.iter().take(order).enumerate() {
                let right = knots[span + at_value + 1];
                let left = knots[span + at_value + 1 - order];
                let share = below / (right - left);
                values[at_value] += (right - at) * share;
                values[at_value + 1] += (at - left) * share;
            }
        }
        let mut slopes = [0.0; MOST_DEGREE + 1];
        for (at_value, below) in lower.iter().take(degree).enumerate() {
            let width = knots[span + at_value + 1] - knots[span + at_value + 1 - degree];
            let slope = degree as f64 * below / width;
            slopes[at_value] -= slope;
            slopes[at_value + 1] += slope;
        }
        Basis {
            first: span - degree,
            values,
            slopes,
        }
    }
}

impl SplineCurve {
    /// The curve over control points with weights.
    pub(super) const fn new(knots: Knots, control: Vec<(V, f64)>) -> Self {
        Self { knots, control }
    }

    /// Its knots.
    pub(super) const fn knots(&self) -> &Knots {
        &self.knots
    }

    /// A point of it and its slope there.
    pub(super) fn at(&self, t: f64) -> (V, V) {
        let basis = self.knots.basis(t);
        let (mut sum, mut slope) = (Sum::default(), Sum::default());
        for order in 0..=self.knots.degree {
            let control = &self.control[basis.first + order];
            sum.take(control, basis.values[order]);
            slope.take(control, basis.slopes[order]);
        }
        let p = sum.point();
        (p, sum.slope(p, &slope))
    }
}

impl SplineSurface {
    /// The surface over control points with weights, row by row along v.
    pub(super) const fn new(u: Knots, v: Knots, control: Vec<(V, f64)>) -> Self {
        Self { u, v, control }
    }

    /// Its knots along u and v.
    pub(super) const fn knots(&self) -> [&Knots; 2] {
        [&self.u, &self.v]
    }

    /// A point of it and its slopes along u and v there.
    pub(super) fn at(&self, u: f64, v: f64) -> (V, V, V) {
        let (u, v) = (self.u.basis(u), self.v.basis(v));
        let row = self.v.knots.len() - self.v.degree - 1;
        let (mut sum, mut by_u, mut by_v) = (Sum::default(), Sum::default(), Sum::default());
        for a in 0..=self.u.degree {
            for b in 0..=self.v.degree {
                let control = &self.control[(u.first + a) * row + v.first + b];
                sum.take(control, u.values[a] * v.values[b]);
                by_u.take(control, u.slopes[a] * v.values[b]);
                by_v.take(control, u.values[a] * v.slopes[b]);
            }
        }
        let p = sum.point();
        (p, sum.slope(p, &by_u), sum.slope(p, &by_v))
    }
}

/// A sum of weighted points.
#[derive(Default)]
struct Sum {
    points: V,
    weights: f64,
}

impl Sum {
    fn take(&mut self, (p, weight): &(V, f64), share: f64) {
        self.points = add(self.points, times(*p, weight * share));
        self.weights += weight * share;
    }

    fn point(&self) -> V {
        times(self.points, 1.0 / self.weights)
    }

    /// The slope of the quotient, by its numerator's and denominator's.
    fn slope(&self, p: V, slope: &Self) -> V {
        times(
            sub(slope.points, times(p, slope.weights)),
            1.0 / self.weights,
        )
    }
}
