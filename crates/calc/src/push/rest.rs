//! What a part rests on, and over which edges it may turn.

use crate::direction::between;
use crate::mount::SAME_DEG;
use crate::vector::{Vector, along, dot, opposite, unit};

/// What lies as near to the support as this lies on it [mm]; locations are written to some hundredths.
const NEAR_MM: f64 = 0.02;

/// A part as a box along its own axes, as heavy everywhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Its corner of the least x, y and z [mm].
    pub corner_mm: [f64; 3],
    /// Size along x, y and z [mm], above 0.
    pub size_mm: [f64; 3],
    /// Mass [kg], above 0.
    pub mass_kg: f64,
}

/// What a part stands on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Support {
    /// What points up from the support, in the part's coordinates: along one of its axes.
    pub up: [f64; 3],
    /// As much of the lower face as is supported.
    pub rest: Rest,
}

/// As much of a part's lower face as it rests on, about its middle and never beyond the face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rest {
    /// All of it.
    Face,
    /// A rectangle, such as parallels or a vise give; its sides along the two axes across what points up,
    /// in the order x, y, z [mm], above 0.
    Rectangle([f64; 2]),
    /// A ring, or the face of a round part; its diameter [mm], above 0.
    Ring(f64),
}

/// A part on its support.
pub(super) struct Stand {
    /// What points up, exactly along an axis.
    pub(super) up: Vector,
    /// The part's center of gravity [mm].
    pub(super) center_mm: Vector,
    /// The middle of the support, under the center of gravity [mm].
    pub(super) middle_mm: Vector,
    edges: Edges,
}

/// The edges of a support: ways to them from its middle, and how far they are [mm].
enum Edges {
    Straight([(Vector, f64); 4]),
    Round(f64),
}

/// An edge over which a part turns.
pub(super) struct Over {
    /// The way to it from the middle of the support, where it is told from the others.
    pub(super) toward: Option<Vector>,
    /// How far it is [mm].
    pub(super) arm_mm: f64,
    /// Moment about it [N mm], above 0 where it turns the part over.
    pub(super) moment_n_mm: f64,
}

impl Stand {
    /// A part on its support; `None` where nobody knows what it rests on.
    pub(super) fn of(part: &Part, support: &Support) -> Option<Self> {
        let lawful = |length: &f64| length.is_finite() && *length > 0.0;
        let finite = part.corner_mm.iter().all(|at| at.is_finite());
        if !finite || !part.size_mm.iter().all(lawful) {
            return None;
        }
        let axes: [Vector; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        let (upright, up) = axes.iter().enumerate().find_map(|(index, axis)| {
            let ways = [*axis, opposite(*axis)];
            let way = ways.into_iter().find(|way| {
                lawful(&dot(support.up, *way)) && between(support.up, *way) <= SAME_DEG
            });
            way.map(|way| (index, way))
        })?;
        let [first, second] = [[1, 2], [0, 2], [0, 1]][upright];
        let sides = [part.size_mm[first], part.size_mm[second]];
        let straight = |[one, other]: [f64; 2]| {
            let halves = [one.min(sides[0]) / 2.0, other.min(sides[1]) / 2.0];
            Edges::Straight([
                (axes[first], halves[0]),
                (opposite(axes[first]), halves[0]),
                (axes[second], halves[1]),
                (opposite(axes[second]), halves[1]),
            ])
        };
        let edges = match support.rest {
            Rest::Face => straight(sides),
            Rest::Rectangle(given) if given.iter().all(lawful) => straight(given),
            Rest::Ring(diameter) if lawful(&diameter) => {
                Edges::Round(diameter.min(sides[0]).min(sides[1]) / 2.0)
            }
            Rest::Rectangle(_) | Rest::Ring(_) => return None,
        };
        let center_mm = along(part.corner_mm, part.size_mm, 0.5);
        Some(Self {
            up,
            center_mm,
            middle_mm: along(center_mm, up, -part.size_mm[upright] / 2.0),
            edges,
        })
    }

    /// The edge that asks for the greatest force above the center of gravity, from the moment about the
    /// middle of the support (by the way it turns to [N mm]) and the force up [N].
    pub(super) fn worst(&self, turning: Vector, up_n: f64) -> Over {
        let toward = unit(turning);
        let over = |moment: f64, arm_mm: f64, toward| Over {
            toward,
            arm_mm,
            moment_n_mm: moment + arm_mm * up_n,
        };
        match self.edges {
            Edges::Straight([first, rest @ ..]) => {
                let about =
                    |(way, arm): (Vector, f64)| over(dot(turning, way), arm, toward.map(|_| way));
                rest.into_iter()
                    .map(about)
                    .fold(about(first), |most, next| {
                        if next.hold_n() > most.hold_n() {
                            next
                        } else {
                            most
                        }
                    })
            }
            Edges::Round(radius) => over(libm::sqrt(dot(turning, turning)), radius, toward),
        }
    }

    /// A direction, exactly up or down where it is so as near as angles are told apart.
    pub(super) fn straight(&self, direction: Vector) -> Vector {
        let mut ways = [self.up, opposite(self.up)].into_iter();
        ways.find(|way| between(direction, *way) <= SAME_DEG)
            .unwrap_or(direction)
    }

    /// True where a point lies on the support.
    pub(super) fn bears(&self, point_mm: Vector) -> bool {
        let from_middle = along(point_mm, self.middle_mm, -1.0);
        let above = dot(from_middle, self.up);
        let flat = along(from_middle, self.up, -above);
        let within = match self.edges {
            Edges::Straight(edges) => edges
                .iter()
                .all(|(way, arm)| dot(flat, *way) <= arm + NEAR_MM),
            Edges::Round(radius) => libm::sqrt(dot(flat, flat)) <= radius + NEAR_MM,
        };
        above.abs() <= NEAR_MM && within
    }
}

impl Over {
    /// Force above the center of gravity that just keeps the part from turning over the edge [N].
    pub(super) fn hold_n(&self) -> f64 {
        self.moment_n_mm / self.arm_mm
    }
}
