//! How a part is mounted, and where the axes stand for a direction and a point of it.

use quillbore_calc::Limits;
use quillbore_calc::direction::between;

use crate::matter::Matter;

type Vector = [f64; 3];

/// Directions closer than this count as one [deg]; as the setups were found.
const SAME_DEG: f64 = 0.1;

/// How a part is mounted; vectors are in the part's coordinates.
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
    /// On an index axis that lies; this vector points along it.
    Lying(Vector),
    /// At an angle that no axis of the machine gives.
    Inclined {
        /// The index axis, where one is used: the turn about it is free.
        about: Option<Vector>,
        /// What points up.
        up: Vector,
    },
}

/// Where the machine's axes stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Tilt of head or table from upright [deg].
    pub tilt_deg: f64,
    /// Index: the side of the part that faces the tool, about the index axis [deg].
    pub index_deg: f64,
    /// x and y square to the tool, from the part's zero [mm].
    pub table_mm: [f64; 2],
}

/// The mountings that a machine has, in the order in which setups are found.
pub(super) fn mounts(matter: &Matter<'_>) -> Vec<Mount> {
    let machine = matter.machine();
    let index = matter
        .input
        .index_about
        .filter(|_| machine.is_some_and(|machine| machine.index_axis));
    let mut mounts = match index {
        Some(about) => {
            let axis = about.unit();
            vec![
                Mount::Lying(axis),
                Mount::Upright(axis),
                Mount::Upright(opposite(axis)),
                Mount::Lying(opposite(axis)),
            ]
        }
        None => FACES
            .into_iter()
            .map(|up| Mount::Face {
                up,
                toward: across(up),
            })
            .collect(),
    };
    // What no mounting reaches is clamped at an angle: the direction of its first hole upright.
    let first = matter.input.rows.iter().flat_map(|row| &row.places);
    let mut inclined: Vec<Mount> = Vec::new();
    for place in first {
        for up in [opposite(place.axis), place.axis] {
            let about = index.map(quillbore_calc::input::PartAxis::unit);
            let mount = Mount::Inclined { about, up };
            if inclined.len() < MOST_INCLINED && !inclined.contains(&mount) {
                inclined.push(mount);
            }
        }
    }
    mounts.append(&mut inclined);
    mounts
}

const FACES: [Vector; 6] = [
    [0.0, 0.0, 1.0],
    [0.0, 0.0, -1.0],
    [0.0, -1.0, 0.0],
    [0.0, 1.0, 0.0],
    [1.0, 0.0, 0.0],
    [-1.0, 0.0, 0.0],
];

/// Directions tried for clamping at an angle: more different ones in one job are not sought.
const MOST_INCLINED: usize = 64;

/// Smallest and largest tilt of the machine [deg].
pub(super) fn tilt_range(matter: &Matter<'_>) -> Limits {
    let tilt = matter.machine().and_then(|machine| machine.tilt_deg);
    tilt.unwrap_or(Limits::new(0.0, 0.0))
}

fn within(range: Limits, tilt: f64) -> bool {
    (range.lower - SAME_DEG..=range.upper + SAME_DEG).contains(&tilt)
}

impl Mount {
    /// The same mount with its plane of tilting laid through the first of these directions that is
    /// inclined to a face and can be tilted to.
    pub(super) fn with_plane_of(
        self,
        directions: impl Iterator<Item = Vector>,
        range: Limits,
    ) -> Self {
        let Self::Face { up, .. } = self else {
            return self;
        };
        for direction in directions {
            let out = opposite(direction);
            let tilt = between(out, up);
            if tilt <= SAME_DEG || tilt >= 180.0 - SAME_DEG {
                continue;
            }
            let Some(toward) = unit(along(out, up, -dot(out, up))) else {
                continue;
            };
            let within = |tilt| within(range, tilt);
            // Where both ways of tilting are in range, table x lies along the part's positive axis.
            let backward = toward.iter().find(|part| part.abs() > 0.5);
            let backward = backward.is_some_and(|part| *part < 0.0);
            if within(-tilt) && (backward || !within(tilt)) {
                let toward = opposite(toward);
                return Self::Face { up, toward };
            }
            if within(tilt) {
                return Self::Face { up, toward };
            }
        }
        self
    }

    /// Where the axes stand for a direction of the tool at a point; `None` where they don't reach it.
    pub(super) fn seat(self, direction: Vector, point: Vector, range: Limits) -> Option<Seat> {
        let out = opposite(direction);
        let within = |tilt| within(range, tilt);
        match self {
            Self::Face { up, toward } => {
                let angle = between(out, up);
                let tilt_deg = if angle <= SAME_DEG {
                    0.0
                } else {
                    let flat = unit(along(out, up, -dot(out, up)))?;
                    if between(flat, toward) <= SAME_DEG {
                        angle
                    } else if between(flat, toward) >= 180.0 - SAME_DEG {
                        -angle
                    } else {
                        return None;
                    }
                };
                within(tilt_deg).then(|| tilted(point, out, up, toward, tilt_deg, 0.0))
            }
            Self::Upright(axis) => {
                let angle = between(out, axis);
                if !(within(angle) || within(-angle)) {
                    return None;
                }
                let flat = unit(along(out, axis, -dot(out, axis)));
                let toward = flat.filter(|_| angle > SAME_DEG).unwrap_or(across(axis));
                let index_deg = azimuth(toward, axis);
                Some(tilted(point, out, axis, toward, angle, index_deg))
            }
            Self::Lying(axis) => {
                let tilt_deg = 90.0 - between(out, axis);
                if !within(tilt_deg) {
                    return None;
                }
                let first = unit(along(axis, out, -dot(axis, out)))?;
                let second = cross(out, first);
                Some(Seat {
                    tilt_deg,
                    index_deg: azimuth(out, axis),
                    table_mm: [dot(point, first), dot(point, second)],
                })
            }
            Self::Inclined { about: None, up } => {
                (between(out, up) <= SAME_DEG).then(|| tilted(point, out, up, across(up), 0.0, 0.0))
            }
            Self::Inclined {
                about: Some(axis),
                up,
            } => {
                // With the turn free, only the angle to the axis counts.
                if (between(out, axis) - between(up, axis)).abs() > SAME_DEG {
                    return None;
                }
                let first = unit(along(axis, out, -dot(axis, out))).unwrap_or(across(out));
                let second = cross(out, first);
                Some(Seat {
                    tilt_deg: 0.0,
                    index_deg: azimuth(out, axis),
                    table_mm: [dot(point, first), dot(point, second)],
                })
            }
        }
    }
}

/// The seat of a direction tilted from `up` toward `toward`: y lies along the axis of tilting, x
/// square to it and to the tool.
fn tilted(
    point: Vector,
    out: Vector,
    up: Vector,
    toward: Vector,
    tilt_deg: f64,
    index_deg: f64,
) -> Seat {
    let second = cross(up, toward);
    let first = cross(second, out);
    Seat {
        tilt_deg,
        index_deg,
        table_mm: [dot(point, first), dot(point, second)],
    }
}

/// Square to an axis: from where turns about it are counted.
pub(crate) fn across(axis: Vector) -> Vector {
    let help = if axis[0].abs() < 0.9 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 0.0, 1.0]
    };
    unit(along(help, axis, -dot(help, axis))).unwrap_or(help)
}

/// The direction a quarter turn on from [`across`].
pub(crate) fn quarter(axis: Vector) -> Vector {
    cross(axis, across(axis))
}

/// Turn of a vector about an axis, counted from [`across`] toward [`quarter`] [deg], 0 to below 360.
fn azimuth(vector: Vector, axis: Vector) -> f64 {
    let (x, y) = (dot(vector, across(axis)), dot(vector, quarter(axis)));
    let turn = libm::atan2(y, x).to_degrees();
    // A hair below a whole turn is none, so that zero prints as zero.
    let turn = if turn < -1e-6 { turn + 360.0 } else { turn };
    if turn >= 360.0 - 1e-6 { 0.0 } else { turn }
}

fn opposite(vector: Vector) -> Vector {
    vector.map(|part| -part)
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

fn along(a: Vector, b: Vector, by: f64) -> Vector {
    [0, 1, 2].map(|i| a[i] + b[i] * by)
}

fn unit(a: Vector) -> Option<Vector> {
    let length = dot(a, a).sqrt();
    (length.is_finite() && length > 1e-9).then(|| a.map(|part| part / length))
}
