//! How a part is clamped.

use super::spots::direction_key;
use crate::vector::{Vector, angle_deg, azimuth_deg, dot, opposite};

/// How a part is clamped; vectors are in the part's coordinates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Mount {
    /// On a face, with this vector up.
    Face(Vector),
    /// On an index axis that stands upright, with this vector up.
    Upright(Vector),
    /// On an index axis that lies, with this vector to the one side.
    Lying(Vector),
    /// At an angle that no machine axis gives, with this vector up.
    Inclined {
        /// The index axis, where one is used.
        about: Option<Vector>,
        /// What points up.
        up: Vector,
    },
}

/// Where the machine's axes stand for a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Seat {
    /// Tilt of head or table [deg].
    pub(super) tilt_deg: f64,
    /// Turn of the index axis [deg].
    pub(super) turn_deg: f64,
}

impl Mount {
    /// Where the machine's axes stand for a direction of the tool.
    pub(super) fn seat(self, direction: Vector) -> Seat {
        let up = opposite(direction);
        let at = |tilt_deg, turn_deg| Seat { tilt_deg, turn_deg };
        match self {
            Self::Face(face) => at(signed_tilt(up, face), 0.0),
            Self::Upright(axis) => at(angle_deg(up, axis), azimuth_deg(up, axis)),
            Self::Lying(axis) => at(90.0 - angle_deg(up, axis), azimuth_deg(up, axis)),
            Self::Inclined { about, .. } => {
                at(0.0, about.map_or(0.0, |axis| azimuth_deg(up, axis)))
            }
        }
    }

    /// What tells this mount from others: its kind, and what points where.
    pub(super) fn key(self) -> (u8, u64) {
        match self {
            Self::Face(up) => (0, direction_key(up)),
            Self::Upright(axis) => (1, direction_key(axis)),
            Self::Lying(axis) => (2, direction_key(axis)),
            // With the turn free, only the angle to the axis counts.
            Self::Inclined {
                about: Some(axis),
                up,
            } => (3, direction_key([dot(up, axis), 0.0, 0.0])),
            Self::Inclined { about: None, up } => (4, direction_key(up)),
        }
    }

    /// The mount that the part is turned over to from here.
    pub(super) fn turned_over(self) -> Self {
        match self {
            Self::Face(up) => Self::Face(opposite(up)),
            Self::Upright(axis) => Self::Upright(opposite(axis)),
            Self::Lying(axis) => Self::Lying(opposite(axis)),
            Self::Inclined { about, up } => Self::Inclined {
                about,
                up: opposite(up),
            },
        }
    }

    /// The angle that no machine axis gives [deg]; `None` where the axes do it.
    pub(super) fn out_of_range_deg(self) -> Option<f64> {
        let Self::Inclined { about, up } = self else {
            return None;
        };
        let to = |axis: Vector| {
            let angle = angle_deg(up, axis);
            angle.min(180.0 - angle)
        };
        Some(match about {
            Some(axis) => to(axis).min(90.0 - to(axis)),
            None => to([1.0, 0.0, 0.0])
                .min(to([0.0, 1.0, 0.0]))
                .min(to([0.0, 0.0, 1.0])),
        })
    }
}

/// Angle from a face's normal, to the one side or to the other of the plane of tilting.
fn signed_tilt(up: Vector, face: Vector) -> f64 {
    let tilt = angle_deg(up, face);
    // Half a turn about the face parts the plane's two sides.
    if azimuth_deg(up, face) < 179.9 {
        tilt
    } else {
        -tilt
    }
}
