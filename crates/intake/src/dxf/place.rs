//! Points and planes: where what a block or a plane of its own holds stands in the drawing.

/// A point or a vector.
pub(super) type Point = [f64; 3];

/// Turns, scales and moves points.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    columns: [Point; 3],
    at: Point,
}

impl Place {
    /// Leaves points where they are.
    pub(super) const HERE: Self = Self {
        columns: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
        at: [0.0; 3],
    };

    /// The plane of an entity by its normal: the reference of the format calls it the arbitrary axis
    /// algorithm, and 1/64 is its own. `None` where the normal is no direction.
    pub(super) fn of_normal(normal: Point) -> Option<Self> {
        if normal == [0.0, 0.0, 1.0] {
            return Some(Self::HERE);
        }
        let z = unit(normal)?;
        let nearly_up = z[0].abs() < 1.0 / 64.0 && z[1].abs() < 1.0 / 64.0;
        let beside = if nearly_up {
            [0.0, 1.0, 0.0]
        } else {
            [0.0, 0.0, 1.0]
        };
        let x = unit(cross(beside, z))?;
        Some(Self {
            columns: [x, cross(z, x), z],
            at: [0.0; 3],
        })
    }

    /// Moves points.
    pub(super) const fn moved(by: Point) -> Self {
        Self {
            at: by,
            ..Self::HERE
        }
    }

    /// Scales along each axis.
    pub(super) const fn scaled(by: Point) -> Self {
        Self {
            columns: [[by[0], 0.0, 0.0], [0.0, by[1], 0.0], [0.0, 0.0, by[2]]],
            at: [0.0; 3],
        }
    }

    /// Turns about z.
    pub(super) fn turned(degrees: f64) -> Self {
        let (sin, cos) = sin_cos(degrees);
        Self {
            columns: [[cos, sin, 0.0], [-sin, cos, 0.0], [0.0, 0.0, 1.0]],
            at: [0.0; 3],
        }
    }

    /// First `inner`, then this.
    pub(super) fn after(&self, inner: &Self) -> Self {
        Self {
            columns: inner.columns.map(|column| self.vector(column)),
            at: self.point(inner.at),
        }
    }

    /// Where a point comes to stand.
    pub(super) fn point(&self, point: Point) -> Point {
        add(self.vector(point), self.at)
    }

    /// What becomes of a vector.
    pub(super) fn vector(&self, vector: Point) -> Point {
        let [x, y, z] = self.columns;
        add(
            add(times(x, vector[0]), times(y, vector[1])),
            times(z, vector[2]),
        )
    }
}

/// Sine and cosine of an angle in degrees, exact at quarter turns.
pub(super) fn sin_cos(degrees: f64) -> (f64, f64) {
    let turns = degrees.rem_euclid(360.0);
    if turns == 0.0 {
        (0.0, 1.0)
    } else if turns == 90.0 {
        (1.0, 0.0)
    } else if turns == 180.0 {
        (0.0, -1.0)
    } else if turns == 270.0 {
        (-1.0, 0.0)
    } else {
        libm::sincos(turns.to_radians())
    }
}

pub(super) fn add(a: Point, b: Point) -> Point {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(super) fn less(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(super) fn times(a: Point, by: f64) -> Point {
    [a[0] * by, a[1] * by, a[2] * by]
}

pub(super) fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: Point, b: Point) -> Point {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// Length of a vector; in steps, so that no square of a large number is none.
pub(super) fn length(a: Point) -> f64 {
    libm::hypot(libm::hypot(a[0], a[1]), a[2])
}

/// The direction of a vector, if it has one.
pub(super) fn unit(a: Point) -> Option<Point> {
    let length = length(a);
    (length.is_finite() && length > 0.0).then(|| [a[0] / length, a[1] / length, a[2] / length])
}

/// True where a point can be one of a part: its numbers are numbers, and no farther than [`FARTHEST`].
pub(super) fn is_sound(a: Point) -> bool {
    a.iter().all(|number| number.abs() <= FARTHEST)
}

/// Nothing is farther away or longer than this, whatever the unit, so that no product of lengths is none.
pub(super) const FARTHEST: f64 = 1e12;

/// Nothing is shorter than this, so that no quotient is none.
pub(super) const SHORTEST: f64 = 1e-12;
