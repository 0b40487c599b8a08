//! Surfaces that a hole begins or ends in, and how a tool meets them.
//!
//! A surface is a height above the disc of the tool, seen along the hole's axis toward where the tool
//! comes from. What is entered from outside (a round bar, a ball, an edge) is seen from its crown; the
//! inside of a bore is a bowl, met at its rim first. What a hole leaves is the same seen from within:
//! a round bar is left at its rim first, a bore or a crossing hole at its crown.

use crate::entry::{Meeting, Zone, flat, round};

/// Steps in which the highest and the lowest point of a tilted cylinder are looked for.
const STEPS: u32 = 12;

/// Parabolas after that: the height is off by less than a nanometer then.
const NARROWED: u32 = 5;

/// Narrowings to two thirds where parabolas don't do.
const THIRDS: u32 = 40;

/// A surface that a hole begins or ends in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Surface {
    /// A plane.
    #[default]
    Flat,
    /// A cylinder met from outside; the hole's axis may be tilted along it.
    Cylinder {
        /// Radius [mm].
        radius_mm: f64,
        /// Offset of the hole's axis from the cylinder's [mm].
        offset_mm: f64,
    },
    /// A ball met from outside.
    Ball {
        /// Radius [mm].
        radius_mm: f64,
        /// Offset of the hole's axis from the ball's center [mm].
        offset_mm: f64,
    },
    /// The edge in which two planes meet; the axis leans from the first one's normal toward the second.
    Edge {
        /// Angle of the metal between the planes [deg]: 90 at a square edge.
        included_deg: f64,
        /// Distance from the edge, along the first plane, at which the axis crosses it [mm].
        offset_mm: f64,
    },
    /// The inside of a bore or of a crossing hole; the hole's axis may be tilted along it.
    Bore {
        /// Radius [mm].
        radius_mm: f64,
        /// Offset of the hole's axis from the bore's [mm].
        offset_mm: f64,
    },
}

/// How a tool meets a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Met {
    /// The zone in which the disc is only partly in metal; `None` where the axis doesn't cross.
    pub zone: Option<Zone>,
    /// Angle between the hole's axis and the surface's normal where the axis crosses [deg].
    pub tilt_deg: f64,
    /// How the tool lies to the surface.
    pub meeting: Meeting,
    /// Metal on the axis through a whole round bar or ball [mm].
    pub chord_mm: Option<f64>,
    /// Free way inside a bore, from where the axis leaves the metal to where the tool meets the other
    /// side [mm].
    pub room_mm: Option<f64>,
}

impl Surface {
    /// How a tool meets this surface where it enters the metal.
    ///
    /// Formula: zone = largest less smallest height over the disc, split at the axis. Plane: `d tan t`.
    /// Cylinder and ball square to the axis: see [`round`]. A cylinder tilted by t along its axis has
    /// the height `x tan t + sqrt(R^2 - y^2) / cos t`, whose largest and smallest are searched. A ball
    /// tilted by t is met at the offset `R sin t`. An edge has the heights `-(e - x) tan t` and, beyond
    /// the edge, `-(x - e) tan(180 - included - t)`. A bore is a cylinder from within.
    ///
    /// - `tilt_deg`: angle t from the plane's normal, along the cylinder, or from the ball's radius
    ///   [deg], 0 to below 90; of an edge that from the first plane's normal.
    /// - `tube_mm`: electrode diameter d [mm], above 0.
    ///
    /// Result: zone [mm], angle [deg], chord and room [mm].
    ///
    /// ```
    /// use quillbore_calc::surface::Surface;
    /// // Along the bisector of a square edge: 0.5 mm deep on either side of a 1 mm tool.
    /// let edge = Surface::Edge { included_deg: 90.0, offset_mm: 0.0 };
    /// let met = edge.entered(45.0, 1.0);
    /// assert!((met.zone.unwrap().length_mm() - 0.5).abs() < 1e-12);
    /// assert_eq!(met.zone.unwrap().before_mm, 0.0);
    /// ```
    ///
    /// Source: geometry; checked against brute force over the disc.
    #[must_use]
    pub fn entered(&self, tilt_deg: f64, tube_mm: f64) -> Met {
        match *self {
            Self::Flat => Met {
                zone: flat(tube_mm, tilt_deg),
                tilt_deg,
                meeting: Meeting::Whole,
                chord_mm: None,
                room_mm: None,
            },
            Self::Cylinder {
                radius_mm,
                offset_mm,
            } => on_cylinder(radius_mm, offset_mm, tilt_deg, tube_mm),
            Self::Ball {
                radius_mm,
                offset_mm,
            } => on_ball(radius_mm, offset_mm, tilt_deg, tube_mm),
            Self::Edge {
                included_deg,
                offset_mm,
            } => on_edge(
                [tilt_deg, 180.0 - included_deg - tilt_deg],
                offset_mm,
                tube_mm,
            ),
            Self::Bore {
                radius_mm,
                offset_mm,
            } => from_within(on_cylinder(radius_mm, offset_mm, tilt_deg, tube_mm)).mirrored(),
        }
    }

    /// How a tool meets this surface where it leaves the metal.
    ///
    /// Formula: as [`Self::entered`], seen from within: what comes before the axis crosses and what
    /// comes after change places.
    ///
    /// - `tilt_deg`: as of [`Self::entered`] [deg], 0 to below 90.
    /// - `tube_mm`: electrode diameter [mm], above 0.
    ///
    /// Result: as of [`Self::entered`].
    ///
    /// ```
    /// use quillbore_calc::surface::Surface;
    /// // Square into the middle of a 2 mm crossing hole with a 1 mm tool: the axis is through first, and
    /// // 1 - sqrt(0.75) later the whole disc; from the axis 1 + sqrt(0.75) are free.
    /// let crossing = Surface::Bore { radius_mm: 1.0, offset_mm: 0.0 };
    /// let met = crossing.left(0.0, 1.0);
    /// assert!((met.zone.unwrap().after_mm - 0.1340).abs() < 0.00005);
    /// assert!((met.room_mm.unwrap() - 1.8660).abs() < 0.00005);
    /// ```
    ///
    /// Source: geometry; checked against brute force over the disc.
    #[must_use]
    pub fn left(&self, tilt_deg: f64, tube_mm: f64) -> Met {
        self.entered(tilt_deg, tube_mm).mirrored()
    }

    /// Metal left beside a hole that runs along a side face or near the side of a round bar.
    ///
    /// Formula: `e - D/2` beside a face square to the one that is entered, `R - |e| - D/2` in a round
    /// bar whose axis is square to the hole's.
    ///
    /// - `tilt_deg`: as of [`Self::entered`] [deg], 0 to below 90.
    /// - `hole_mm`: finished diameter D [mm], above 0.
    ///
    /// Result: thickness [mm], below 0 where the hole breaks out of the side; `None` where there is no
    /// such side.
    ///
    /// ```
    /// use quillbore_calc::surface::Surface;
    /// let edge = Surface::Edge { included_deg: 90.0, offset_mm: 0.8 };
    /// assert!((edge.side_wall_mm(0.0, 1.0).unwrap() - 0.3).abs() < 1e-12);
    /// assert_eq!(edge.side_wall_mm(30.0, 1.0), None);
    /// ```
    ///
    /// Source: geometry.
    #[must_use]
    pub fn side_wall_mm(&self, tilt_deg: f64, hole_mm: f64) -> Option<f64> {
        match *self {
            Self::Edge {
                included_deg,
                offset_mm,
            } if included_deg + tilt_deg <= 90.0 => Some(offset_mm - hole_mm / 2.0),
            Self::Cylinder {
                radius_mm,
                offset_mm,
            }
            | Self::Ball {
                radius_mm,
                offset_mm,
            } if tilt_deg == 0.0 => Some(radius_mm - offset_mm.abs() - hole_mm / 2.0),
            _ => None,
        }
    }

    /// Radius or angle, and offset, as bare numbers.
    pub(crate) const fn lengths_mm(self) -> [f64; 2] {
        match (self, self.round_mm()) {
            (
                Self::Edge {
                    included_deg,
                    offset_mm,
                },
                _,
            ) => [included_deg, offset_mm],
            (_, Some((radius_mm, offset_mm))) => [radius_mm, offset_mm],
            (_, None) => [0.0; 2],
        }
    }

    /// Radius and offset of what is round [mm].
    pub(crate) const fn round_mm(self) -> Option<(f64, f64)> {
        match self {
            Self::Cylinder {
                radius_mm,
                offset_mm,
            }
            | Self::Ball {
                radius_mm,
                offset_mm,
            }
            | Self::Bore {
                radius_mm,
                offset_mm,
            } => Some((radius_mm, offset_mm)),
            Self::Flat | Self::Edge { .. } => None,
        }
    }

    /// Whether the far side of a hole that ends in this surface can't be drilled from.
    #[must_use]
    pub(crate) const fn is_inside(&self) -> bool {
        matches!(self, Self::Bore { .. })
    }
}

impl Met {
    /// The same surface seen from the other side.
    fn mirrored(mut self) -> Self {
        self.zone = self.zone.map(Zone::mirrored);
        self
    }

    /// A surface that the axis doesn't cross.
    const fn none(meeting: Meeting) -> Self {
        Self {
            zone: None,
            tilt_deg: 90.0,
            meeting,
            chord_mm: None,
            room_mm: None,
        }
    }
}

fn on_ball(radius_mm: f64, offset_mm: f64, tilt_deg: f64, tube_mm: f64) -> Met {
    // Tilted from the radius is offset from the center.
    let offset_mm = if offset_mm == 0.0 {
        radius_mm * libm::sin(tilt_deg.abs().to_radians())
    } else {
        offset_mm
    };
    on_cylinder(radius_mm, offset_mm, 0.0, tube_mm)
}

fn on_cylinder(radius_mm: f64, offset_mm: f64, tilt_deg: f64, tube_mm: f64) -> Met {
    let square = round(radius_mm, offset_mm, tube_mm);
    if matches!(square.meeting, Meeting::AxisMisses | Meeting::ToolMisses) {
        return Met::none(square.meeting);
    }
    let tilt = tilt_deg.abs();
    if tilt.is_nan() || tilt >= 90.0 {
        return Met::none(Meeting::Whole);
    }
    let across = libm::sqrt((1.0 - (offset_mm / radius_mm) * (offset_mm / radius_mm)).max(0.0));
    let slope = libm::cos(tilt.to_radians());
    let zone = if tilt == 0.0 {
        square.zone
    } else {
        tilted(radius_mm, offset_mm.abs(), tilt, tube_mm / 2.0)
    };
    Met {
        zone: Some(zone),
        tilt_deg: libm::acos((slope * across).min(1.0)).to_degrees(),
        meeting: square.meeting,
        chord_mm: Some(square.axis_chord_mm / slope),
        room_mm: None,
    }
}

/// The zone on a cylinder that the hole's axis is tilted along.
fn tilted(radius: f64, offset: f64, tilt_deg: f64, r: f64) -> Zone {
    let (tangent, cosine) = {
        let tilt = tilt_deg.to_radians();
        (libm::tan(tilt), libm::cos(tilt))
    };
    let round = |y: f64| libm::sqrt((radius * radius - y * y).max(0.0)) / cosine;
    // On the disc's rim, `s = r (1 - w^2)` beside the axis: so the slope has no corner at its ends.
    let rim = |w: f64| (r * (1.0 - w * w), tangent * r * w * libm::sqrt(2.0 - w * w));
    let on_axis = round(offset);
    // The highest point lies on the crown's side, the lowest on the far one.
    let highest = greatest(|w| {
        let (s, slope) = rim(w);
        slope + round(offset - s)
    });
    let lowest = -greatest(|w| {
        let (s, slope) = rim(w);
        slope - round(offset + s)
    });
    Zone {
        before_mm: (highest - on_axis).max(0.0),
        after_mm: (on_axis - lowest).max(0.0),
    }
}

/// The greatest value of a smooth function from 0 to 1: in steps, then by parabolas about the best.
fn greatest(of: impl Fn(f64) -> f64) -> f64 {
    let step = 1.0 / f64::from(STEPS);
    let mut values = [0.0; STEPS as usize + 1];
    let mut best = 0;
    for (index, value) in values.iter_mut().enumerate() {
        *value = of(index as f64 * step);
    }
    for (index, value) in values.iter().enumerate() {
        if *value > values[best] {
            best = index;
        }
    }
    let at = |index: usize| (index as f64 * step, values[index]);
    let middle = best.clamp(1, STEPS as usize - 1);
    let mut three = [at(middle - 1), at(middle), at(middle + 1)];
    let mut most = values[best];
    for _ in 0..NARROWED {
        let Some(vertex) = vertex(&three).filter(|vertex| (0.0..=1.0).contains(vertex)) else {
            break;
        };
        let found = (vertex, of(vertex));
        most = most.max(found.1);
        let farthest = |a: f64| three.iter().map(move |(place, _)| (place - a).abs());
        let far = farthest(vertex).fold(0.0, f64::max);
        if let Some(place) = (three.iter()).position(|(place, _)| (place - vertex).abs() == far) {
            three[place] = found;
        }
    }
    if best <= 1 {
        // Where the tool nearly hangs over, the surface falls away too steeply for parabolas.
        most = most.max(narrowed(of, step * (best + 1) as f64));
    }
    most
}

/// The greatest value from 0 to a place, of a function that rises and falls once up to there.
fn narrowed(of: impl Fn(f64) -> f64, to: f64) -> f64 {
    let (mut low, mut high) = (0.0, to);
    for _ in 0..THIRDS {
        let third = (high - low) / 3.0;
        if of(low + third) < of(high - third) {
            low += third;
        } else {
            high -= third;
        }
    }
    of(f64::midpoint(low, high))
}

/// Where the parabola through three points turns; `None` for a straight line.
fn vertex(three: &[(f64, f64); 3]) -> Option<f64> {
    let [(a, at_a), (b, at_b), (c, at_c)] = *three;
    let (before, behind) = ((b - a) * (at_b - at_c), (b - c) * (at_b - at_a));
    let below = before - behind;
    (below != 0.0).then(|| b - ((b - a) * before - (b - c) * behind) / (2.0 * below))
}

/// A bore is met from within: nothing of it is metal, and the other side is as far as the tool is wide.
fn from_within(mut met: Met) -> Met {
    met.room_mm = met
        .zone
        .zip(met.chord_mm)
        .map(|(zone, chord)| chord - zone.after_mm);
    met.chord_mm = None;
    met
}

/// An edge, by the angles between the axis and the normals of its two planes.
fn on_edge([first, second]: [f64; 2], offset_mm: f64, tube_mm: f64) -> Met {
    let r = tube_mm / 2.0;
    // Typed along the first plane; across the electrode it is shorter.
    let e = offset_mm.abs() * libm::cos(first.to_radians());
    let met = |zone, meeting| Met {
        zone,
        tilt_deg: first,
        meeting,
        chord_mm: None,
        room_mm: None,
    };
    if e >= r || !(0.0..90.0).contains(&first) {
        return met(flat(tube_mm, first), Meeting::Whole);
    }
    let fall = |tilt: f64| libm::tan(tilt.to_radians());
    let before_mm = e * fall(first);
    if second >= 90.0 {
        // Beyond the edge there is no metal under the tool.
        let zone = Zone {
            before_mm,
            after_mm: r * fall(first),
        };
        return met(Some(zone), Meeting::Overhang { by_mm: r - e });
    }
    let lowest = ((r + e) * fall(first)).max((r - e) * fall(second));
    let zone = Zone {
        before_mm,
        after_mm: lowest - before_mm,
    };
    met(Some(zone), Meeting::Whole)
}
