//! Which way a mount tilts, and what tells it from others.

use super::{Mount, SAME_DEG, within};
use crate::direction::between;
use crate::quantity::Limits;
use crate::vector::{Vector, across, along, angle_deg, direction_key, dot, opposite, unit};

impl Mount {
    /// On a face whose plane of tilting is still open.
    pub(crate) fn on_face(up: Vector) -> Self {
        let [toward, _] = across(up);
        Self::Face { up, toward }
    }

    /// The same mount with its plane of tilting laid through the first of these directions that is
    /// inclined to its face: toward the part's positive axis, unless a tilt is out of range that way.
    pub(crate) fn with_plane_of(self, directions: &[Vector], range: Limits) -> Self {
        let Self::Face { up, .. } = self else {
            return self;
        };
        let flat = |&direction: &Vector| {
            let out = opposite(direction);
            let inclined = (SAME_DEG..180.0 - SAME_DEG).contains(&between(out, up));
            inclined.then(|| unit(along(out, up, -dot(out, up))))?
        };
        let Some(toward) = directions.iter().find_map(flat) else {
            return self;
        };
        let backward = toward.iter().find(|part| part.abs() > 0.5);
        let toward = if backward.is_some_and(|part| *part < 0.0) {
            opposite(toward)
        } else {
            toward
        };
        let [first, second] = [toward, opposite(toward)].map(|toward| Self::Face { up, toward });
        let within = within(range);
        let reaches = |way: Self| {
            let tilts = directions.iter().map(|&direction| way.angles(direction));
            tilts.into_iter().all(|angles| within(angles.tilt_deg))
        };
        if !reaches(first) && reaches(second) {
            second
        } else {
            first
        }
    }

    /// What tells this mount from others: its kind, and what points where.
    pub(crate) fn key(self) -> (u8, u64) {
        match self {
            Self::Face { up, .. } => (0, direction_key(up)),
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
    pub(crate) fn turned_over(self) -> Self {
        match self {
            Self::Face { up, toward } => Self::Face {
                up: opposite(up),
                toward,
            },
            Self::Upright(axis) => Self::Upright(opposite(axis)),
            Self::Lying(axis) => Self::Lying(opposite(axis)),
            Self::Inclined { about, up } => Self::Inclined {
                about,
                up: opposite(up),
            },
        }
    }

    /// The angle that no machine axis gives [deg]; `None` where the axes do it.
    pub(crate) fn out_of_range_deg(self) -> Option<f64> {
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
