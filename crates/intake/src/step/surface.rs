//! Surfaces: where a point lies on one, where a line meets it, how it faces.

use super::motion::Frame;
use super::patch::Patch;
use super::vector::{ALIKE, V, along, cross, dot, is_parallel, length, sub, times, unit};

/// A surface.
#[derive(Clone, Debug)]
pub(super) enum Surface {
    /// A plane; its normal is the z direction.
    Plane(Frame),
    /// A cylinder about z; its normal points outward, as those of the other round ones do.
    Cylinder {
        /// Its axis.
        frame: Frame,
        /// Its radius.
        radius: f64,
    },
    /// A cone about z.
    Cone {
        /// Its axis.
        frame: Frame,
        /// Its radius at the origin of its axis.
        radius: f64,
        /// How much its radius grows along z.
        slope: f64,
    },
    /// A ball.
    Ball {
        /// Its center and its axes.
        frame: Frame,
        /// Its radius.
        radius: f64,
    },
    /// A ring about z.
    Ring {
        /// Its axis.
        frame: Frame,
        /// The radius of its center line.
        major: f64,
        /// The radius about the center line.
        minor: f64,
    },
    /// Any other.
    Patch(Box<Patch>),
}

impl Surface {
    /// The normal at a point of it, as the surface itself has it.
    pub(super) fn normal(&self, q: V) -> Option<V> {
        match self {
            Self::Plane(frame) => Some(frame.z),
            Self::Cylinder { frame, .. } => unit(radial(frame, q)),
            Self::Cone { frame, slope, .. } => {
                let out = unit(radial(frame, q))?;
                unit(sub(out, times(frame.z, *slope)))
            }
            Self::Ball { frame, .. } => unit(sub(q, frame.origin)),
            Self::Ring { frame, major, .. } => {
                let center = along(frame.origin, unit(radial(frame, q))?, *major);
                unit(sub(q, center))
            }
            Self::Patch(patch) => patch.normal(q),
        }
    }

    /// The point itself, or one so far beside it where it is the apex of a cone, which has no normal.
    pub(super) fn aside(&self, q: V, far: f64) -> V {
        match self {
            Self::Cone { frame, slope, .. } if length(radial(frame, q)) < 1e-9 * far => {
                let up = far.copysign(*slope);
                along(along(q, frame.z, up), frame.x, up * slope)
            }
            _ => q,
        }
    }

    /// A point near it, put onto it.
    pub(super) fn onto(&self, q: V) -> Option<V> {
        match self {
            Self::Plane(frame) => {
                let off = dot(sub(q, frame.origin), frame.z);
                Some(along(q, frame.z, -off))
            }
            Self::Cylinder { frame, radius } => {
                let out = radial(frame, q);
                Some(along(sub(q, out), unit(out)?, *radius))
            }
            Self::Cone {
                frame,
                radius,
                slope,
            } => {
                let [.., z] = frame.coordinates(q);
                let out = radial(frame, q);
                let wanted = radius + slope * z;
                Some(along(sub(q, out), unit(out)?, wanted))
            }
            Self::Ball { frame, radius } => {
                let out = unit(sub(q, frame.origin))?;
                Some(along(frame.origin, out, *radius))
            }
            Self::Ring {
                frame,
                major,
                minor,
            } => {
                let center = along(frame.origin, unit(radial(frame, q))?, *major);
                Some(along(center, unit(sub(q, center))?, *minor))
            }
            Self::Patch(patch) => patch.nearest(q).map(|(u, v)| patch.at(u, v).0),
        }
    }

    /// Where a line meets it, by lengths along the line, least first; a line that lies in it doesn't meet
    /// it.
    pub(super) fn met_by(&self, p: V, d: V) -> Vec<f64> {
        let mut met = match self {
            Self::Plane(frame) => {
                let steep = dot(d, frame.z);
                if steep.abs() < 1e-12 {
                    return Vec::new();
                }
                vec![dot(sub(frame.origin, p), frame.z) / steep]
            }
            Self::Cylinder { frame, radius } => {
                let (from, way) = (flat(frame, sub(p, frame.origin)), flat(frame, d));
                square_roots(
                    dot(way, way),
                    dot(from, way),
                    dot(from, from) - radius * radius,
                )
            }
            Self::Cone {
                frame,
                radius,
                slope,
            } => {
                let from = sub(p, frame.origin);
                let wide = [radius + slope * dot(from, frame.z), slope * dot(d, frame.z)];
                let (from, way) = (flat(frame, from), flat(frame, d));
                let all = square_roots(
                    dot(way, way) - wide[1] * wide[1],
                    dot(from, way) - wide[0] * wide[1],
                    dot(from, from) - wide[0] * wide[0],
                );
                // The other half of the cone, behind its apex, is none of it.
                let near = |t: &f64| wide[0] + wide[1] * t >= -1e-9 * (1.0 + radius.abs());
                all.into_iter().filter(near).collect()
            }
            Self::Ball { frame, radius } => {
                let from = sub(p, frame.origin);
                square_roots(dot(d, d), dot(from, d), dot(from, from) - radius * radius)
            }
            Self::Ring {
                frame,
                major,
                minor,
            } => ring_met_by(frame, *major, *minor, p, d),
            Self::Patch(patch) => patch.met_by(p, d),
        };
        met.sort_by(f64::total_cmp);
        met
    }

    /// The axis that it is round about.
    pub(super) fn axis(&self) -> Option<&Frame> {
        match self {
            Self::Cylinder { frame, .. } | Self::Cone { frame, .. } | Self::Ring { frame, .. } => {
                Some(frame)
            }
            Self::Plane(_) | Self::Ball { .. } | Self::Patch(_) => None,
        }
    }

    /// True where two are the same surface, within a length.
    pub(super) fn is_same(&self, other: &Self, within: f64) -> bool {
        let line = |a: &Frame, b: &Frame| {
            let apart = sub(b.origin, a.origin);
            is_parallel(a.z, b.z) && length(cross(apart, a.z)) <= within
        };
        let near = |a: &f64, b: &f64| (a - b).abs() <= within;
        match (self, other) {
            (Self::Plane(a), Self::Plane(b)) => {
                let off = dot(sub(b.origin, a.origin), a.z);
                is_parallel(a.z, b.z) && off.abs() <= within
            }
            (
                Self::Cylinder { frame, radius },
                Self::Cylinder {
                    frame: other,
                    radius: other_radius,
                },
            ) => line(frame, other) && near(radius, other_radius),
            (
                Self::Ball { frame, radius },
                Self::Ball {
                    frame: other,
                    radius: other_radius,
                },
            ) => length(sub(frame.origin, other.origin)) <= within && near(radius, other_radius),
            (
                Self::Cone {
                    frame: a,
                    radius,
                    slope,
                },
                Self::Cone {
                    frame: b,
                    radius: other,
                    slope: s,
                },
            ) => {
                let along_axis = dot(sub(b.origin, a.origin), a.z);
                let turned = dot(a.z, b.z).signum();
                line(a, b)
                    && near(&(radius + slope * along_axis), other)
                    && (slope - s * turned).abs() < ALIKE
            }
            (
                Self::Ring {
                    frame: a,
                    major,
                    minor,
                },
                Self::Ring {
                    frame: b,
                    major: other_major,
                    minor: other_minor,
                },
            ) => {
                length(sub(a.origin, b.origin)) <= within
                    && line(a, b)
                    && near(major, other_major)
                    && near(minor, other_minor)
            }
            _ => false,
        }
    }
}

/// What of the way to a point is square to an axis.
fn radial(frame: &Frame, q: V) -> V {
    flat(frame, sub(q, frame.origin))
}

fn flat(frame: &Frame, v: V) -> V {
    sub(v, times(frame.z, dot(v, frame.z)))
}

/// Where a t^2 + 2 b t + c is 0.
fn square_roots(a: f64, b: f64, c: f64) -> Vec<f64> {
    if a.abs() < 1e-14 {
        return if b.abs() < 1e-14 {
            Vec::new()
        } else {
            vec![-c / (2.0 * b)]
        };
    }
    let inner = b * b - a * c;
    // Where a line just touches, as the axis of a cone does its apex, rounding must not lose it.
    if inner < -1e-12 * (b * b + (a * c).abs()) {
        return Vec::new();
    }
    let inner = inner.max(0.0);
    // The sum that doesn't cancel, then the other root by the product of both.
    let sum = -(b + inner.sqrt().copysign(b));
    if sum == 0.0 {
        return vec![0.0];
    }
    vec![sum / a, c / sum]
}

/// Where a line meets a ring: signs of the distance from its surface change there.
fn ring_met_by(frame: &Frame, major: f64, minor: f64, p: V, d: V) -> Vec<f64> {
    const STEPS: u32 = 256;
    let near = dot(sub(frame.origin, p), d) / dot(d, d);
    let reach = (major + minor) / length(d) * 1.001;
    let off = |t: f64| {
        let from = sub(along(p, d, t), frame.origin);
        let out = length(flat(frame, from)) - major;
        libm::hypot(out, dot(from, frame.z)) - minor
    };
    let step = 2.0 * reach / f64::from(STEPS);
    let mut met = Vec::new();
    let mut last = (near - reach, off(near - reach));
    for at in 1..=STEPS {
        let t = near - reach + step * f64::from(at);
        let next = (t, off(t));
        if (last.1 < 0.0) != (next.1 < 0.0) {
            let (mut low, mut high) = (last, next);
            for _ in 0..60 {
                let middle = 0.5 * (low.0 + high.0);
                let there = off(middle);
                if (there < 0.0) == (low.1 < 0.0) {
                    low = (middle, there);
                } else {
                    high = (middle, there);
                }
            }
            met.push(0.5 * (low.0 + high.0));
        }
        last = next;
    }
    met
}
