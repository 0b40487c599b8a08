//! Curves, and the pieces of them that are the edges of faces.

use std::f64::consts::TAU;

use super::motion::Frame;
use super::spline::SplineCurve;
use super::vector::{V, add, along, cross, distance, dot, is_finite, length, sub, times};

/// A curve by its parameter.
#[derive(Clone, Debug)]
pub(super) enum Curve {
    /// A line, its parameter a length.
    Line {
        /// A point of it.
        p: V,
        /// Its direction, one long.
        d: V,
    },
    /// An ellipse or a circle, its parameter an angle.
    Ellipse {
        /// Its center and its axes.
        frame: Frame,
        /// Half axes along x and y, both the same of a circle.
        half: [f64; 2],
    },
    /// One branch of a hyperbola.
    Hyperbola {
        /// Its center and its axes.
        frame: Frame,
        /// Half axes along x and y.
        half: [f64; 2],
    },
    /// A parabola.
    Parabola {
        /// Its apex and its axes.
        frame: Frame,
        /// Distance from the apex to the focus.
        focal: f64,
    },
    /// A B-spline.
    Spline(Box<SplineCurve>),
    /// Lines from point to point, its parameter their number.
    Chain(Vec<V>),
}

/// A piece of a curve from one vertex to another.
#[derive(Clone, Debug)]
pub(super) struct Arc {
    /// The curve.
    pub(super) curve: Curve,
    /// Where on it the piece begins.
    pub(super) from: f64,
    /// Where on it the piece ends; below `from` where the piece runs against the curve.
    pub(super) to: f64,
}

impl Curve {
    /// A point of it and its slope there.
    pub(super) fn at(&self, t: f64) -> (V, V) {
        match self {
            Self::Line { p, d } => (along(*p, *d, t), *d),
            Self::Ellipse {
                frame,
                half: [a, b],
            } => {
                let (sin, cos) = (libm::sin(t), libm::cos(t));
                let slope = add(times(frame.x, -a * sin), times(frame.y, b * cos));
                (frame.at(a * cos, b * sin, 0.0), slope)
            }
            Self::Hyperbola {
                frame,
                half: [a, b],
            } => {
                let (sinh, cosh) = (libm::sinh(t), libm::cosh(t));
                let slope = add(times(frame.x, a * sinh), times(frame.y, b * cosh));
                (frame.at(a * cosh, b * sinh, 0.0), slope)
            }
            Self::Parabola { frame, focal } => {
                let slope = add(times(frame.x, 2.0 * focal * t), times(frame.y, 2.0 * focal));
                (frame.at(focal * t * t, 2.0 * focal * t, 0.0), slope)
            }
            Self::Spline(spline) => {
                let [from, to] = spline.knots().range();
                // Behind its end a closed one goes on from its beginning.
                let t = if t > to { from + (t - to) } else { t };
                spline.at(t)
            }
            Self::Chain(points) => chain(points, t),
        }
    }

    /// The piece from one point to another, along the curve or against it; a closed curve's whole round
    /// where both are the same. `None` where that is no curve.
    pub(super) fn piece(self, a: V, b: V, along_it: bool) -> Option<Arc> {
        let (first, last) = if along_it { (a, b) } else { (b, a) };
        let same = distance(a, b) <= 1e-9 * (length(a) + length(b)).max(1e-9);
        let [mut from, mut to] = [self.nearest(first), self.nearest(last)];
        match &self {
            Self::Ellipse { .. } => {
                if same || to <= from + 1e-12 {
                    to = if same { from + TAU } else { to + TAU };
                }
            }
            Self::Spline(spline) => {
                let [begin, end] = spline.knots().range();
                // A closed one may be begun at its end, and gone through again from its beginning.
                if same || to <= from {
                    from = if from >= end { begin } else { from };
                }
                if same || to <= from {
                    to = if same { from } else { to } + (end - begin);
                }
            }
            Self::Chain(points) if same => {
                (from, to) = (0.0, (points.len() - 1) as f64);
            }
            Self::Line { .. } | Self::Hyperbola { .. } | Self::Parabola { .. } | Self::Chain(_) => {
            }
        }
        let (from, to) = if along_it { (from, to) } else { (to, from) };
        let fits = from.is_finite() && to.is_finite() && from != to;
        fits.then_some(Arc {
            curve: self,
            from,
            to,
        })
    }

    /// Where on it the point nearest to another is.
    pub(super) fn nearest(&self, q: V) -> f64 {
        match self {
            Self::Line { p, d } => dot(sub(q, *p), *d),
            Self::Ellipse {
                frame,
                half: [a, b],
            } => {
                let [x, y, _] = frame.coordinates(q);
                libm::atan2(y / b, x / a)
            }
            Self::Hyperbola {
                frame,
                half: [_, b],
            } => libm::asinh(frame.coordinates(q)[1] / b),
            Self::Parabola { frame, focal } => frame.coordinates(q)[1] / (2.0 * focal),
            Self::Spline(spline) => {
                let (pieces, degree) = spline.knots().pieces();
                let count = (pieces * (degree + 1)).clamp(8, 2_000);
                self.nearest_of(q, spline.knots().range(), count)
            }
            Self::Chain(points) => {
                let last = (points.len() - 1) as f64;
                self.nearest_of(q, [0.0, last], (points.len() - 1).clamp(1, 10_000))
            }
        }
    }

    /// The same between two parameters, from the best of so many to a minimum by Newton's steps.
    fn nearest_of(&self, q: V, [from, to]: [f64; 2], count: usize) -> f64 {
        let step = (to - from) / count as f64;
        let tries = (0..=count).map(|at| from + step * at as f64);
        let mut best = (f64::INFINITY, from);
        for t in tries {
            let away = distance(self.at(t.min(to)).0, q);
            if away < best.0 {
                best = (away, t.min(to));
            }
        }
        for _ in 0..12 {
            let (p, slope) = self.at(best.1);
            let t = (best.1 + dot(sub(q, p), slope) / dot(slope, slope)).clamp(from, to);
            let away = distance(self.at(t).0, q);
            if away.is_nan() || away >= best.0 {
                break;
            }
            best = (away, t);
        }
        best.1
    }
}

impl Arc {
    /// A point of it, by a number from 0 at its beginning to 1 at its end.
    pub(super) fn at(&self, s: f64) -> V {
        self.curve.at(self.from + (self.to - self.from) * s).0
    }

    /// Where it runs to there, as long as it may be.
    pub(super) fn slope(&self, s: f64) -> V {
        let width = self.to - self.from;
        times(self.curve.at(self.from + width * s).1, width)
    }

    /// In how many straight pieces it is drawn.
    pub(super) fn pieces(&self) -> usize {
        let width = (self.to - self.from).abs();
        match &self.curve {
            Curve::Line { .. } => 1,
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "an arc is one turn at most"
            )]
            Curve::Ellipse { .. } => (libm::ceil(width / TAU * 32.0) as usize).clamp(2, 64),
            Curve::Hyperbola { .. } | Curve::Parabola { .. } => 24,
            Curve::Spline(spline) => {
                let (pieces, degree) = spline.knots().pieces();
                (pieces * (degree + 1)).clamp(4, 400)
            }
            Curve::Chain(points) => points.len().saturating_sub(1).clamp(1, 10_000),
        }
    }

    /// Points along it from end to end.
    pub(super) fn points(&self) -> Option<Vec<V>> {
        let count = self.pieces();
        let points: Vec<V> = (0..=count)
            .map(|at| self.at(at as f64 / count as f64))
            .collect();
        points.iter().all(|p| is_finite(*p)).then_some(points)
    }
}

fn chain(points: &[V], t: f64) -> (V, V) {
    let last = points.len().saturating_sub(2);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "it is cut to the chain's own numbers"
    )]
    let at = (t.max(0.0) as usize).min(last);
    match points.get(at..at + 2) {
        Some(&[a, b]) => {
            let way = sub(b, a);
            (along(a, way, t - at as f64), way)
        }
        _ => (points.first().copied().unwrap_or_default(), [0.0; 3]),
    }
}

/// The axis and the radius of a circle.
pub(super) fn circle_of(curve: &Curve) -> Option<(Frame, f64)> {
    match curve {
        Curve::Ellipse {
            frame,
            half: [a, b],
        } if a == b => Some((*frame, *a)),
        _ => None,
    }
}

/// How far a point is from a line.
pub(super) fn from_line(q: V, p: V, d: V) -> f64 {
    length(cross(sub(q, p), d))
}
