//! Curves as the file writes them.

use super::args::Args;
use super::curve::Curve;
use super::motion::{Frame, direction, point};
use super::scan::Exchange;
use super::spline::{Knots, MOST_DEGREE, SplineCurve};
use super::units::Units;
use super::vector::{V, times};
use crate::seen::Why;

/// No curve stands in others deeper than this.
const MOST_NESTED: usize = 16;
/// No curve is put together from more.
const MOST_SEGMENTS: usize = 10_000;
/// Points on a segment of a curve that is put together from several.
const POINTS: usize = 64;

/// The file with what its numbers mean, in one representation.
#[derive(Clone, Copy)]
pub(super) struct Reading<'f, 'a> {
    /// The file.
    pub(super) file: &'f Exchange<'a>,
    /// What lengths are multiplied by.
    pub(super) length: f64,
    /// What angles are multiplied by.
    pub(super) angle: f64,
}

/// A curve, and whether it runs along the one that was asked for.
pub(super) struct Directed {
    /// The curve.
    pub(super) curve: Curve,
    /// False where it runs the other way.
    pub(super) along: bool,
}

impl<'f, 'a> Reading<'f, 'a> {
    /// The file by the units of a representation.
    pub(super) fn new(file: &'f Exchange<'a>, units: Units) -> Self {
        Self {
            file,
            length: units.length_mm.unwrap_or(1.0),
            angle: units.angle,
        }
    }

    /// A point.
    pub(super) fn point(&self, number: u64) -> Result<V, Why> {
        let found = point(self.file, number).map(|p| times(p, self.length));
        found.ok_or_else(|| self.missing(number))
    }

    /// A coordinate system.
    pub(super) fn frame(&self, number: Option<u64>) -> Result<Frame, Why> {
        let number = number.ok_or(Why::NotALength)?;
        let frame = Frame::read(self.file, number).ok_or_else(|| self.missing(number))?;
        Ok(Frame {
            origin: times(frame.origin, self.length),
            ..frame
        })
    }

    /// A length above 0.
    pub(super) fn size(&self, args: &mut Args<'_>) -> Result<f64, Why> {
        let size = args.real().map(|size| size * self.length);
        size.filter(|size| *size > 0.0 && *size < 1e12)
            .ok_or(Why::NotALength)
    }

    /// Why what an instance names can't be had: it is not there, or it is of a kind that isn't read.
    pub(super) fn missing(&self, number: u64) -> Why {
        if self.file.has(number) {
            let name = self.file.name(number);
            let name = if name.is_empty() {
                format!("#{number}")
            } else {
                name.to_owned()
            };
            Why::NotRead(name, 1)
        } else {
            Why::Missing(format!("#{number}"))
        }
    }

    /// A curve.
    pub(super) fn curve(&self, mut number: u64) -> Result<Directed, Why> {
        let mut along = true;
        for _ in 0..MOST_NESTED {
            let name = self.file.name(number);
            let mut args = self.file.args(number, name);
            let curve = match (name, &mut args) {
                (
                    "SURFACE_CURVE" | "SEAM_CURVE" | "INTERSECTION_CURVE" | "BOUNDED_SURFACE_CURVE",
                    Some(args),
                ) => {
                    number = args
                        .skip(1)
                        .reference()
                        .ok_or_else(|| self.missing(number))?;
                    continue;
                }
                ("TRIMMED_CURVE", Some(args)) => {
                    along ^= args.skip(4).flag() == Some(false);
                    number = args
                        .skip(1)
                        .reference()
                        .ok_or_else(|| self.missing(number))?;
                    continue;
                }
                ("COMPOSITE_CURVE", _) => self.composite(number)?,
                _ => self.simple(number)?,
            };
            return Ok(Directed { curve, along });
        }
        Err(Why::TooDeep(MOST_NESTED))
    }

    /// A curve that is not made of others.
    fn simple(&self, number: u64) -> Result<Curve, Why> {
        let missing = || self.missing(number);
        let name = self.file.name(number);
        if name.is_empty()
            || name.ends_with("_CURVE_WITH_KNOTS")
            || name.ends_with("BEZIER_CURVE")
            || name.ends_with("UNIFORM_CURVE")
        {
            return self.spline(number);
        }
        let mut args = self.file.args(number, name).ok_or_else(missing)?.skip(1);
        match name {
            "LINE" => {
                let p = self.point(args.reference().ok_or_else(missing)?)?;
                let vector = args.reference().ok_or_else(missing)?;
                let way = self
                    .file
                    .args(vector, "VECTOR")
                    .and_then(|args| args.skip(1).reference());
                let d = way.and_then(|way| direction(self.file, way));
                let d = d.ok_or_else(|| self.missing(vector))?;
                Ok(Curve::Line { p, d })
            }
            "CIRCLE" => {
                let frame = self.frame(args.reference())?;
                let radius = self.size(&mut args)?;
                Ok(Curve::Ellipse {
                    frame,
                    half: [radius, radius],
                })
            }
            "ELLIPSE" | "HYPERBOLA" => {
                let frame = self.frame(args.reference())?;
                let half = [self.size(&mut args)?, self.size(&mut args)?];
                Ok(if name == "ELLIPSE" {
                    Curve::Ellipse { frame, half }
                } else {
                    Curve::Hyperbola { frame, half }
                })
            }
            "PARABOLA" => {
                let frame = self.frame(args.reference())?;
                let focal = self.size(&mut args)?;
                Ok(Curve::Parabola { frame, focal })
            }
            "POLYLINE" => {
                let points: Result<Vec<V>, Why> = args
                    .references()
                    .into_iter()
                    .map(|at| self.point(at))
                    .collect();
                let points = points?;
                if points.len() < 2 {
                    Err(missing())
                } else {
                    Ok(Curve::Chain(points))
                }
            }
            _ => Err(missing()),
        }
    }

    fn spline(&self, number: u64) -> Result<Curve, Why> {
        let missing = || self.missing(number);
        let name = self.file.name(number);
        let mut args = if name.is_empty() {
            self.file.args(number, "B_SPLINE_CURVE")
        } else {
            self.file.args(number, name).map(|args| args.skip(1))
        }
        .ok_or_else(missing)?;
        let degree = args.whole().ok_or_else(missing)?;
        let points = args.references();
        let knots = self.file.args(number, "B_SPLINE_CURVE_WITH_KNOTS");
        let knots = knots.map(|knots| knots.skip(if name.is_empty() { 0 } else { 6 }));
        let knots = match knots {
            Some(mut knots) => {
                let times = knots.reals().ok_or_else(missing)?;
                Knots::new(
                    degree,
                    points.len(),
                    &times,
                    &knots.reals().ok_or_else(missing)?,
                )
            }
            None => self.implied(number, "CURVE", degree, points.len()),
        };
        let knots = knots.ok_or(Why::NotALength)?;
        let weights = self.file.args(number, "RATIONAL_B_SPLINE_CURVE");
        let weights = weights
            .map(|mut args| args.reals().ok_or_else(missing))
            .transpose()?;
        let control = self.control(&points, weights.as_deref())?;
        Ok(Curve::Spline(Box::new(SplineCurve::new(knots, control))))
    }

    /// Control points with their weights, 1 where the file has none.
    pub(super) fn control(
        &self,
        points: &[u64],
        weights: Option<&[f64]>,
    ) -> Result<Vec<(V, f64)>, Why> {
        let weight = |at: usize| weights.map_or(Some(1.0), |weights| weights.get(at).copied());
        let each = points.iter().enumerate();
        each.map(|(at, number)| {
            let weight = weight(at).filter(|weight| *weight > 1e-12 && *weight < 1e12);
            Ok((self.point(*number)?, weight.ok_or(Why::NotALength)?))
        })
        .collect()
    }

    /// The knots of a B-spline that doesn't write them, by its kind.
    pub(super) fn implied(
        &self,
        number: u64,
        of: &str,
        degree: usize,
        points: usize,
    ) -> Option<Knots> {
        if !(1..=MOST_DEGREE).contains(&degree) || points <= degree {
            return None;
        }
        let is = |kind: &str| self.file.args(number, &format!("{kind}_{of}")).is_some();
        let ends = (degree + 1) as f64;
        let pieces = if is("BEZIER") {
            (points - 1) / degree
        } else {
            points - degree
        };
        let (inner, ends) = if is("BEZIER") {
            (degree as f64, ends)
        } else if is("QUASI_UNIFORM") {
            (1.0, ends)
        } else if is("UNIFORM") {
            let values: Vec<f64> = (0..points + degree + 1).map(|at| at as f64).collect();
            return Knots::new(degree, points, &vec![1.0; values.len()], &values);
        } else {
            return None;
        };
        let values: Vec<f64> = (0..=pieces).map(|at| at as f64).collect();
        let times: Vec<f64> = (0..=pieces)
            .map(|at| if at == 0 || at == pieces { ends } else { inner })
            .collect();
        Knots::new(degree, points, &times, &values)
    }

    /// Points along a curve that is put together from others.
    fn composite(&self, number: u64) -> Result<Curve, Why> {
        let missing = || self.missing(number);
        // What is still to be drawn, the next one last; a segment may be put together itself.
        let mut open = vec![(number, true, 0)];
        let (mut points, mut drawn): (Vec<V>, usize) = (Vec::new(), 0);
        while let Some((next, along, depth)) = open.pop() {
            drawn += 1;
            if depth > MOST_NESTED || drawn > MOST_SEGMENTS {
                return Err(Why::TooDeep(MOST_NESTED));
            }
            if let Some(args) = self.file.args(next, "COMPOSITE_CURVE") {
                let segments = args.skip(1).references();
                let mut inner = Vec::new();
                for segment in segments {
                    let args = self.file.args(segment, "COMPOSITE_CURVE_SEGMENT");
                    let mut args = args.ok_or_else(|| self.missing(segment))?.skip(1);
                    let same = args.flag().ok_or_else(missing)?;
                    let parent = args.reference().ok_or_else(missing)?;
                    inner.push((parent, same == along, depth + 1));
                }
                if along {
                    inner.reverse();
                }
                open.extend(inner);
                if open.len() > MOST_SEGMENTS {
                    return Err(Why::TooDeep(MOST_NESTED));
                }
                continue;
            }
            let mut piece = self.bounded(next)?;
            if !along {
                piece.reverse();
            }
            points.extend(piece);
        }
        points.dedup();
        if points.len() < 2 {
            Err(missing())
        } else {
            Ok(Curve::Chain(points))
        }
    }

    /// Points along a curve that has ends of its own.
    fn bounded(&self, number: u64) -> Result<Vec<V>, Why> {
        let Directed { curve, along } = self.curve(number)?;
        let [from, to] = match (&curve, self.file.args(number, "TRIMMED_CURVE")) {
            (_, Some(args)) => self.trimmed(&curve, args)?,
            (Curve::Spline(spline), None) => spline.knots().range(),
            (Curve::Chain(points), None) => return Ok(points.clone()),
            (Curve::Ellipse { .. }, None) => [0.0, std::f64::consts::TAU],
            _ => return Err(self.missing(number)),
        };
        let share = |at: usize| at as f64 / POINTS as f64;
        let mut points: Vec<V> = (0..=POINTS)
            .map(|at| curve.at(from + (to - from) * share(at)).0)
            .collect();
        if !along {
            points.reverse();
        }
        Ok(points)
    }

    /// Where on its curve a trimmed one begins and ends, along the curve.
    fn trimmed(&self, curve: &Curve, args: Args<'_>) -> Result<[f64; 2], Why> {
        let mut args = args.skip(2);
        let mut end = || -> Option<f64> {
            let mut list = args.list()?;
            let mut by_value = None;
            while !list.is_over() {
                let mut there = list;
                if let Some(number) = there.reference() {
                    let p = self.point(number).ok()?;
                    return Some(curve.nearest(p));
                }
                by_value = list.real();
            }
            let by_value = by_value?;
            Some(match curve {
                Curve::Line { .. } => by_value * self.length,
                Curve::Ellipse { .. } => by_value * self.angle,
                _ => by_value,
            })
        };
        let (first, second) = (end(), end());
        let ends = first.zip(second).ok_or(Why::NotALength)?;
        let along = args.flag() != Some(false);
        let (from, mut to) = if along { ends } else { (ends.1, ends.0) };
        if matches!(curve, Curve::Ellipse { .. }) && to <= from {
            to += std::f64::consts::TAU;
        }
        Ok([from, to])
    }
}
