//! The faces of a section: how the metal's outline runs where a hole begins and where it ends.

use quillbore_calc::input::Surface;

/// Points of a curved face on each side of the hole.
const POINTS: i32 = 14;

/// How a face runs through the picture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Face {
    /// Straight, falling to the right by this angle [deg].
    Plane(f64),
    /// Round, bulging out of the metal: a bar or a ball.
    Round,
    /// Two planes that meet in an edge.
    Edge,
    /// The inside of a bore or of a crossing hole.
    Bore,
    /// Square to the picture.
    #[default]
    Square,
}

impl Face {
    /// The face that a surface makes; a plane's own angle is told by the picture's.
    pub(super) const fn of(surface: Surface) -> Self {
        match surface {
            Surface::Flat => Self::Square,
            Surface::Cylinder { .. } | Surface::Ball { .. } => Self::Round,
            Surface::Edge { .. } => Self::Edge,
            Surface::Bore { .. } => Self::Bore,
        }
    }

    /// Whether it is drawn as one line from side to side.
    pub(super) const fn is_straight(self) -> bool {
        matches!(self, Self::Square | Self::Plane(_))
    }

    /// The outline from left to right about the place of the hole: `out` is 1 where the metal's outside lies
    /// below the face, -1 where it lies above.
    pub(super) fn outline(
        self,
        (left, right): (f64, f64),
        (at_x, at_y): (f64, f64),
        out: f64,
        most: f64,
    ) -> Vec<(f64, f64)> {
        let half = (at_x - left).max(right - at_x).max(1.0);
        // How far the face lies outward of the hole's mouth, by its distance from there.
        let outward = |dx: f64| match self {
            Self::Square => 0.0,
            Self::Plane(deg) => out * dx * libm::tan(deg.to_radians()),
            Self::Round => -most * (dx / half) * (dx / half),
            Self::Edge => -most * (dx / half).abs(),
            Self::Bore => {
                let radius = most.min(half);
                let inside = (radius * radius - dx * dx).max(0.0);
                radius - libm::sqrt(inside)
            }
        };
        let place = |x: f64| (x, at_y + out * outward(x - at_x).clamp(-most, most));
        if self.is_straight() {
            return vec![place(left), place(right)];
        }
        let side = |from: f64, to: f64| {
            (0..=POINTS).map(move |step| from + (to - from) * f64::from(step) / f64::from(POINTS))
        };
        let mut xs: Vec<f64> = vec![left];
        if self == Self::Bore {
            let radius = most.min(half);
            // The rim stands upright: it is drawn point by point on its own width alone.
            let round = (0..=2 * POINTS).map(|step| {
                let angle = std::f64::consts::PI * f64::from(step) / f64::from(2 * POINTS);
                at_x - radius * libm::cos(angle)
            });
            xs.extend(round.filter(|x| (left..=right).contains(x)));
        } else {
            xs.extend(side(left, at_x).skip(1));
            xs.extend(side(at_x, right).skip(1));
        }
        xs.push(right);
        xs.dedup();
        xs.into_iter().map(place).collect()
    }
}
