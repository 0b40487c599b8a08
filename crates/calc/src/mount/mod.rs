//! How a part is clamped, and where the machine's axes stand.

mod ways;

use crate::direction::between;
use crate::quantity::Limits;
use crate::tables::Tilts;
use crate::vector::{Vector, across, along, azimuth_deg, cross, dot, opposite, unit};

/// Angles closer than this count as one [deg].
pub(crate) const SAME_DEG: f64 = 0.1;

/// How a part is clamped; vectors are in the part's coordinates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mount {
    /// On a face.
    Face {
        /// What points up.
        up: Vector,
        /// Square to it: toward what the tool or the table tilts.
        toward: Vector,
    },
    /// On an index axis that stands upright, with this vector up.
    Upright(Vector),
    /// On an index axis that lies, with this vector to the one side.
    Lying(Vector),
    /// At an angle that no machine axis gives.
    Inclined {
        /// The index axis, where one is used: the turn about it is free.
        about: Option<Vector>,
        /// What points up.
        up: Vector,
    },
}

/// Where the machine's axes stand for a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Tilt of head or table from upright, and index.
    pub angles: Angles,
    /// x and y from the part's zero [mm]: square to the tool where the table tilts, level where the head
    /// does.
    pub table_mm: [f64; 2],
}

/// Where tilt and index axis stand for a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Angles {
    /// Tilt of head or table from upright [deg].
    pub tilt_deg: f64,
    /// Index: the side of the part that faces the tool, about the index axis [deg].
    pub index_deg: f64,
}

impl Mount {
    /// Where the axes stand for a direction of the tool at a point, of those that are drilled in this
    /// clamping.
    ///
    /// Formula: tilt is the angle from what points up to the way out of the hole, positive toward the
    /// plane's own side; from a lying index axis its complement. Index is the way out's turn about the
    /// index axis, from [`crate::direction::across`]. Table x and y are the point's coordinates: y along
    /// the axis of tilting, or square to a lying index axis, and x square to y and to the tool where the
    /// table tilts under it, square to y and level where the head tilts.
    ///
    /// - `direction`: the tool's way in, in the part's coordinates: any unit vector [-].
    /// - `point_mm`: a point that it goes through, in the part's coordinates [mm]: any where the table
    ///   tilts, the entry where the head does.
    /// - `tilts`: what tilts.
    ///
    /// Result: tilt and index [deg], x and y [mm].
    ///
    /// ```
    /// use quillbore_calc::mount::Mount;
    /// use quillbore_calc::tables::Tilts;
    /// // A hole of 30 degrees from down, leaning so that the tool comes from +x.
    /// let (sine, cosine) = (0.5, 0.75_f64.sqrt());
    /// let flat = Mount::Face { up: [0.0, 0.0, 1.0], toward: [1.0, 0.0, 0.0] };
    /// let (way_in, entry) = ([-sine, 0.0, -cosine], [10.0, 4.0, 0.0]);
    /// let seat = flat.seat(way_in, entry, Tilts::Table);
    /// assert!((seat.angles.tilt_deg - 30.0).abs() < 1e-9);
    /// // Seen along the tool, x is foreshortened by the tilt, y is not.
    /// let [x, y] = seat.table_mm;
    /// assert!((x - 10.0 * cosine).abs() < 1e-9 && (y - 4.0).abs() < 1e-9);
    /// // Under a head that tilts the part lies as it is clamped.
    /// assert_eq!(flat.seat(way_in, entry, Tilts::Head).table_mm, [10.0, 4.0]);
    /// // Square into the side of a bar whose axis lies: no tilt, and that side is turned up.
    /// let seat = Mount::Lying([1.0, 0.0, 0.0]).seat([0.0, -1.0, 0.0], [25.0, 6.0, 0.0], Tilts::Table);
    /// assert!(seat.angles.tilt_deg.abs() < 1e-9 && (seat.angles.index_deg - 270.0).abs() < 1e-9);
    /// assert!((seat.table_mm[0] - 25.0).abs() < 1e-9);
    /// ```
    ///
    /// Source: geometry.
    #[must_use]
    pub fn seat(self, direction: [f64; 3], point_mm: [f64; 3], tilts: Tilts) -> Seat {
        let [first, second] = self.table(direction, tilts);
        Seat {
            angles: self.angles(direction),
            table_mm: [dot(point_mm, first), dot(point_mm, second)],
        }
    }

    /// Where tilt and index stand for a direction of the tool.
    pub(crate) fn angles(self, direction: Vector) -> Angles {
        let out = opposite(direction);
        let at = |tilt_deg, index_deg| Angles {
            tilt_deg,
            index_deg,
        };
        match self {
            Self::Face { up, toward } => {
                let angle = between(out, up);
                if angle <= SAME_DEG {
                    at(0.0, 0.0)
                } else {
                    at(
                        if dot(out, toward) < 0.0 {
                            -angle
                        } else {
                            angle
                        },
                        0.0,
                    )
                }
            }
            Self::Upright(axis) => {
                let angle = between(out, axis);
                // What points along the axis has no turn.
                at(
                    angle,
                    if angle > SAME_DEG {
                        index(out, axis)
                    } else {
                        0.0
                    },
                )
            }
            Self::Lying(axis) => at(90.0 - between(out, axis), index(out, axis)),
            Self::Inclined { about, .. } => at(0.0, about.map_or(0.0, |axis| index(out, axis))),
        }
    }

    /// The table's x and y as vectors of the part, where this direction is drilled.
    fn table(self, direction: Vector, tilts: Tilts) -> [Vector; 2] {
        let [first, second] = self.square_to(direction);
        match (tilts, self.upright(direction)) {
            (Tilts::Head, Some(upright)) => [cross(second, upright), second],
            _ => [first, second],
        }
    }

    /// What points up on the part when the tool doesn't tilt; `None` where that is the tool's own way.
    fn upright(self, direction: Vector) -> Option<Vector> {
        match self {
            Self::Face { up, .. } | Self::Upright(up) => Some(up),
            Self::Lying(axis) => {
                let out = opposite(direction);
                unit(along(out, axis, -dot(out, axis)))
            }
            Self::Inclined { .. } => None,
        }
    }

    /// x and y square to the tool, as vectors of the part.
    fn square_to(self, direction: Vector) -> [Vector; 2] {
        let out = opposite(direction);
        let flat = |axis: Vector| unit(along(out, axis, -dot(out, axis)));
        // y lies along the axis of tilting, x square to it and to the tool.
        let tilted = |up: Vector, toward: Vector| {
            let second = cross(up, toward);
            [cross(second, out), second]
        };
        // x lies along the index axis as seen along the tool.
        let along_axis = |axis: Vector| {
            let first = unit(along(axis, out, -dot(axis, out))).unwrap_or(across(out)[0]);
            [first, cross(out, first)]
        };
        match self {
            Self::Face { up, toward } => tilted(up, toward),
            Self::Upright(axis) => {
                let inclined = between(out, axis) > SAME_DEG;
                let toward = flat(axis).filter(|_| inclined);
                tilted(axis, toward.unwrap_or(across(axis)[0]))
            }
            Self::Lying(axis)
            | Self::Inclined {
                about: Some(axis), ..
            } => along_axis(axis),
            Self::Inclined { about: None, up } => tilted(up, across(up)[0]),
        }
    }
}

/// Turn of a vector about an axis [deg], 0 to below 360; a hair below a whole turn is none.
fn index(vector: Vector, axis: Vector) -> f64 {
    let turn = azimuth_deg(vector, axis);
    if turn >= 360.0 - 1e-6 { 0.0 } else { turn }
}

/// Whether a tilt is within the machine's range.
pub(crate) fn within(range: Limits) -> impl Fn(f64) -> bool {
    move |tilt| range.lower - SAME_DEG <= tilt && tilt <= range.upper + SAME_DEG
}
