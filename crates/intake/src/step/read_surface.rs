//! Surfaces as the file writes them.

use super::curve::{Curve, circle_of, from_line};
use super::motion::{Frame, direction};
use super::patch::{Make, Patch};
use super::read_curve::{Directed, Reading};
use super::spline::{Knots, SplineSurface};
use super::surface::Surface;
use super::vector::{ALIKE, V, along, cross, dot, is_parallel, length, sub, unit};
use crate::seen::Why;

/// No surface is cut out of others deeper than this.
const MOST_NESTED: usize = 8;
/// What share of its radius a circle's center may be beside the axis that it is turned about, and yet stand on it.
const OFF_AXIS: f64 = 1e-4;

/// A surface, and how its normal runs.
pub(super) struct Facing {
    /// The surface.
    pub(super) surface: Surface,
    /// False where the file's normal is against that of [`Surface::normal`].
    pub(super) along: bool,
}

impl Reading<'_, '_> {
    /// A surface; `rim` are points of what lies on it, which tell how far one without ends is needed.
    pub(super) fn surface(&self, mut number: u64, rim: &[V]) -> Result<Facing, Why> {
        let (mut along, mut offset) = (true, 0.0);
        for _ in 0..MOST_NESTED {
            let name = self.file.name(number);
            let missing = || self.missing(number);
            let args = self.file.args(number, name);
            match (name, args) {
                ("RECTANGULAR_TRIMMED_SURFACE", Some(args)) => {
                    let (u, v) = (args.skip(6).flag(), args.skip(7).flag());
                    along ^= u != v;
                    number = args.skip(1).reference().ok_or_else(missing)?;
                }
                ("CURVE_BOUNDED_SURFACE", Some(args)) => {
                    number = args.skip(1).reference().ok_or_else(missing)?;
                }
                ("ORIENTED_SURFACE", Some(args)) => {
                    along ^= args.skip(1).flag() == Some(false);
                    number = args.skip(1).reference().ok_or_else(missing)?;
                }
                ("OFFSET_SURFACE", Some(args)) => {
                    let by = args.skip(2).real().ok_or(Why::NotALength)? * self.length;
                    offset += if along { by } else { -by };
                    number = args.skip(1).reference().ok_or_else(missing)?;
                }
                _ => {
                    let mut found = self.simple_surface(number, rim)?;
                    let by = if found.along { offset } else { -offset };
                    if offset != 0.0 {
                        found.surface = moved_out(&found.surface, by).ok_or_else(missing)?;
                    }
                    found.along ^= !along;
                    return Ok(found);
                }
            }
        }
        Err(Why::TooDeep(MOST_NESTED))
    }

    fn simple_surface(&self, number: u64, rim: &[V]) -> Result<Facing, Why> {
        let missing = || self.missing(number);
        let name = self.file.name(number);
        let same = |surface| {
            Ok(Facing {
                surface,
                along: true,
            })
        };
        if name.is_empty()
            || name.contains("B_SPLINE")
            || name.ends_with("UNIFORM_SURFACE")
            || name == "BEZIER_SURFACE"
        {
            let patch = self.spline_surface(number)?;
            return same(Surface::Patch(Box::new(patch)));
        }
        let mut args = self.file.args(number, name).ok_or_else(missing)?.skip(1);
        let first = args.reference().ok_or_else(missing)?;
        let frame = || self.frame(Some(first));
        match name {
            "PLANE" => same(Surface::Plane(frame()?)),
            "CYLINDRICAL_SURFACE" => same(Surface::Cylinder {
                frame: frame()?,
                radius: self.size(&mut args)?,
            }),
            "CONICAL_SURFACE" => {
                let radius = args.real().map(|radius| radius * self.length);
                let radius = radius.filter(|radius| *radius >= 0.0 && *radius < 1e12);
                let half = args.real().map(|angle| angle * self.angle);
                let slope = half.map(libm::tan).filter(|slope| slope.abs() < 1e9);
                let (Some(radius), Some(slope)) = (radius, slope) else {
                    return Err(Why::NotALength);
                };
                same(Surface::Cone {
                    frame: frame()?,
                    radius,
                    slope,
                })
            }
            "SPHERICAL_SURFACE" => same(Surface::Ball {
                frame: frame()?,
                radius: self.size(&mut args)?,
            }),
            "TOROIDAL_SURFACE" | "DEGENERATE_TOROIDAL_SURFACE" => same(Surface::Ring {
                frame: frame()?,
                major: self.size(&mut args)?,
                minor: self.size(&mut args)?,
            }),
            "SURFACE_OF_LINEAR_EXTRUSION" => {
                let vector = args.reference().ok_or_else(missing)?;
                let way = self
                    .file
                    .args(vector, "VECTOR")
                    .and_then(|args| args.skip(1).reference());
                let way = way.and_then(|way| direction(self.file, way));
                self.drawn(first, way.ok_or_else(|| self.missing(vector))?, rim)
            }
            "SURFACE_OF_REVOLUTION" => {
                let axis = self.frame(args.reference())?;
                self.turned(first, axis, rim)
            }
            _ => Err(missing()),
        }
    }

    /// A curve drawn along a direction.
    fn drawn(&self, curve: u64, d: V, rim: &[V]) -> Result<Facing, Why> {
        let Directed { curve, along } = self.curve(curve)?;
        let facing = |surface, normal: Option<V>, at: V| {
            let own = Surface::normal(&surface, at);
            let same = own
                .zip(normal)
                .is_none_or(|(own, normal)| dot(own, normal) > 0.0);
            Facing {
                surface,
                along: same == along,
            }
        };
        let (p, slope) = curve.at(0.0);
        let normal = unit(cross(slope, d));
        if let Curve::Line { .. } = curve {
            let z = normal.ok_or(Why::NotALength)?;
            return Ok(facing(Surface::Plane(Frame::about(p, z)), normal, p));
        }
        if let Some((frame, radius)) = circle_of(&curve)
            && is_parallel(frame.z, d)
        {
            return Ok(facing(Surface::Cylinder { frame, radius }, normal, p));
        }
        let base = |q: &V| dot(*q, d);
        let ends = curve_range(&curve, rim);
        let on_curve = (0..=32).map(|at| {
            let share = f64::from(at) / 32.0;
            dot(curve.at(ends[0] + (ends[1] - ends[0]) * share).0, d)
        });
        let [low, high] = ends_of(rim.iter().map(base));
        let [curve_low, curve_high] = ends_of(on_curve);
        let patch = Patch::new(
            Make::Drawn(curve, d),
            [ends, [low - curve_high, high - curve_low]],
        );
        Ok(Facing {
            surface: Surface::Patch(Box::new(patch.ok_or(Why::NotALength)?)),
            along,
        })
    }

    /// A curve turned about an axis.
    fn turned(&self, curve: u64, axis: Frame, rim: &[V]) -> Result<Facing, Why> {
        let Directed { curve, along } = self.curve(curve)?;
        let range = curve_range(&curve, rim);
        let known = known_turned(&curve, &axis, rim);
        // A line that is turned about itself is no surface.
        if matches!(known, Some(Surface::Cylinder { radius, .. }) if radius < 1e-9) {
            return Err(Why::NotALength);
        }
        if let Some(surface) = known {
            // Where the file's normal points, at a point of the curve that isn't on the axis.
            let tries = (1..8).map(|at| range[0] + (range[1] - range[0]) * f64::from(at) / 8.0);
            let normal = tries.filter_map(|t| {
                let (p, slope) = curve.at(t);
                let by_u = cross(axis.z, sub(p, axis.origin));
                Some((surface.normal(p)?, unit(cross(by_u, slope))?))
            });
            let same = normal
                .map(|(own, file)| dot(own, file))
                .find(|cos| cos.abs() > 0.5);
            return Ok(Facing {
                surface,
                along: same.is_none_or(|cos| cos > 0.0) == along,
            });
        }
        let turn = [0.0, std::f64::consts::TAU];
        let patch = Patch::new(Make::Turned(axis, curve), [turn, range]);
        Ok(Facing {
            surface: Surface::Patch(Box::new(patch.ok_or(Why::NotALength)?)),
            along,
        })
    }

    fn spline_surface(&self, number: u64) -> Result<Patch, Why> {
        let missing = || self.missing(number);
        let name = self.file.name(number);
        let mut args = if name.is_empty() {
            self.file.args(number, "B_SPLINE_SURFACE")
        } else {
            self.file.args(number, name).map(|args| args.skip(1))
        }
        .ok_or_else(missing)?;
        let degrees = [
            args.whole().ok_or_else(missing)?,
            args.whole().ok_or_else(missing)?,
        ];
        let mut rows = args.list().ok_or_else(missing)?;
        let (mut points, mut row, mut count) = (Vec::new(), 0, 0);
        while !rows.is_over() {
            let next = rows.references();
            if count > 0 && next.len() != row {
                return Err(missing());
            }
            (row, count) = (next.len(), count + 1);
            points.extend(next);
        }
        let with_knots = self.file.args(number, "B_SPLINE_SURFACE_WITH_KNOTS");
        let with_knots = with_knots.map(|knots| knots.skip(if name.is_empty() { 0 } else { 8 }));
        let (u, v) = match with_knots {
            Some(mut knots) => {
                let mut reals = || knots.reals().ok_or_else(missing);
                let (u_times, v_times, u, v) = (reals()?, reals()?, reals()?, reals()?);
                (
                    Knots::new(degrees[0], count, &u_times, &u),
                    Knots::new(degrees[1], row, &v_times, &v),
                )
            }
            None => (
                self.implied(number, "SURFACE", degrees[0], count),
                self.implied(number, "SURFACE", degrees[1], row),
            ),
        };
        let (Some(u), Some(v)) = (u, v) else {
            return Err(Why::NotALength);
        };
        let weights = self.file.args(number, "RATIONAL_B_SPLINE_SURFACE");
        let weights = weights.map(|mut args| {
            let mut rows = args.list()?;
            let mut all = Vec::new();
            while !rows.is_over() {
                all.extend(rows.reals()?);
            }
            Some(all)
        });
        let weights = weights
            .map(|weights| weights.ok_or_else(missing))
            .transpose()?;
        let control = self.control(&points, weights.as_deref())?;
        let range = [u.range(), v.range()];
        let patch = Patch::new(Make::Spline(SplineSurface::new(u, v, control)), range);
        patch.ok_or(Why::NotALength)
    }
}

/// The surface at a distance from another, along the other's normal.
fn moved_out(surface: &Surface, by: f64) -> Option<Surface> {
    let grown = |radius: f64| Some(radius + by).filter(|radius| *radius > 0.0);
    let mut moved = surface.clone();
    match &mut moved {
        Surface::Plane(frame) => frame.origin = along(frame.origin, frame.z, by),
        Surface::Cylinder { radius, .. } | Surface::Ball { radius, .. } => {
            *radius = grown(*radius)?;
        }
        Surface::Ring { minor, .. } => *minor = grown(*minor)?,
        Surface::Cone { .. } | Surface::Patch(_) => return None,
    }
    Some(moved)
}

/// What a line or a circle is when it is turned.
fn known_turned(curve: &Curve, axis: &Frame, rim: &[V]) -> Option<Surface> {
    if let Curve::Line { p, d } = curve {
        let away = from_line(*p, axis.origin, axis.z);
        let size = away.max(1e-9);
        let steep = dot(*d, axis.z);
        if is_parallel(*d, axis.z) {
            return Some(Surface::Cylinder {
                frame: *axis,
                radius: away,
            });
        }
        if steep.abs() < ALIKE {
            let height = dot(sub(*p, axis.origin), axis.z);
            return Some(Surface::Plane(Frame {
                origin: along(axis.origin, axis.z, height),
                ..*axis
            }));
        }
        // A line that passes the axis makes a surface that no formula here has.
        let apart = dot(cross(*d, axis.z), sub(*p, axis.origin));
        if apart.abs() > ALIKE * size {
            return None;
        }
        let apex = apex(*p, *d, axis);
        let slope = length(cross(*d, axis.z)) / steep.abs();
        // Both halves of the cone are there; the one in which the face lies is meant.
        let up = rim.iter().map(|q| dot(sub(*q, apex), axis.z)).sum::<f64>() >= 0.0;
        let z = if up { axis.z } else { axis.z.map(|part| -part) };
        return Some(Surface::Cone {
            frame: Frame::of(apex, z, Some(axis.x)),
            radius: 0.0,
            slope,
        });
    }
    let (frame, radius) = circle_of(curve)?;
    if dot(frame.z, axis.z).abs() > ALIKE
        || dot(frame.z, sub(frame.origin, axis.origin)).abs() > OFF_AXIS * radius
    {
        return None;
    }
    let away = from_line(frame.origin, axis.origin, axis.z);
    let height = dot(sub(frame.origin, axis.origin), axis.z);
    let center = Frame {
        origin: along(axis.origin, axis.z, height),
        ..*axis
    };
    Some(if away < OFF_AXIS * radius {
        Surface::Ball {
            frame: center,
            radius,
        }
    } else {
        Surface::Ring {
            frame: center,
            major: away,
            minor: radius,
        }
    })
}

/// Where a line that is not along an axis, and meets it, does so.
fn apex(p: V, d: V, axis: &Frame) -> V {
    let flat = |v: V| sub(v, axis.z.map(|part| part * dot(v, axis.z)));
    let (from, way) = (flat(sub(p, axis.origin)), flat(d));
    along(p, d, -dot(from, way) / dot(way, way))
}

/// From where to where a curve is needed.
fn curve_range(curve: &Curve, rim: &[V]) -> [f64; 2] {
    match curve {
        Curve::Spline(spline) => spline.knots().range(),
        Curve::Chain(points) => [0.0, points.len().saturating_sub(1) as f64],
        Curve::Ellipse { .. } => [0.0, std::f64::consts::TAU],
        Curve::Line { .. } | Curve::Hyperbola { .. } | Curve::Parabola { .. } => {
            let [low, high] = ends_of(rim.iter().map(|q| curve.nearest(*q)));
            let slack = 0.05 * (high - low);
            [low - slack, high + slack]
        }
    }
}

fn ends_of(values: impl Iterator<Item = f64>) -> [f64; 2] {
    values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| {
        [low.min(value), high.max(value)]
    })
}
