//! Points and directions in space.

/// Directions that differ by no more are the same: a file may write six digits of each.
pub(super) const ALIKE: f64 = 1e-5;

/// A point or a direction.
pub(super) type V = [f64; 3];

pub(super) fn add(a: V, b: V) -> V {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(super) fn sub(a: V, b: V) -> V {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(super) fn times(a: V, by: f64) -> V {
    a.map(|part| part * by)
}

/// The point that lies `t` from `p` along `d`.
pub(super) fn along(p: V, d: V, t: f64) -> V {
    [p[0] + d[0] * t, p[1] + d[1] * t, p[2] + d[2] * t]
}

pub(super) fn dot(a: V, b: V) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: V, b: V) -> V {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

pub(super) fn length(a: V) -> f64 {
    dot(a, a).sqrt()
}

/// True where two directions are the same, or against each other.
pub(super) fn is_parallel(a: V, b: V) -> bool {
    length(cross(a, b)) < ALIKE
}

pub(super) fn distance(a: V, b: V) -> f64 {
    length(sub(a, b))
}

/// The same direction, one long; `None` of what has none.
pub(super) fn unit(a: V) -> Option<V> {
    // By its largest part first: the square of a tiny or huge one is no number.
    let most = a.iter().fold(0.0, |most: f64, part| most.max(part.abs()));
    if most.is_nan() || most <= 0.0 || most.is_infinite() {
        return None;
    }
    let near_one = a.map(|part| part / most);
    Some(times(near_one, 1.0 / length(near_one)))
}

/// Two directions square to a unit vector and to each other, so that the three are right-handed.
pub(super) fn across(d: V) -> [V; 2] {
    let other = if d[0].abs() < 0.7 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 1.0, 0.0]
    };
    let u = unit(cross(d, other)).unwrap_or([0.0, 1.0, 0.0]);
    [u, cross(d, u)]
}

pub(super) fn is_finite(a: V) -> bool {
    a.iter().all(|part| part.is_finite())
}

/// What lies between the least and the most along each of x, y and z.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    /// The least of each.
    pub(super) low: V,
    /// The most of each.
    pub(super) high: V,
}

impl Bounds {
    /// Nothing.
    pub(super) const EMPTY: Self = Self {
        low: [f64::INFINITY; 3],
        high: [f64::NEG_INFINITY; 3],
    };

    /// Takes a point in.
    pub(super) fn take(&mut self, p: V) {
        self.join(&Self { low: p, high: p });
    }

    /// Takes in what other bounds hold.
    pub(super) fn join(&mut self, other: &Self) {
        for at in 0..3 {
            self.low[at] = self.low[at].min(other.low[at]);
            self.high[at] = self.high[at].max(other.high[at]);
        }
    }

    /// The same with so much more on every side.
    pub(super) fn wider(&self, by: f64) -> Self {
        Self {
            low: self.low.map(|part| part - by),
            high: self.high.map(|part| part + by),
        }
    }

    /// True where there is nothing in them.
    pub(super) fn is_empty(&self) -> bool {
        self.low[0] > self.high[0]
    }

    /// How long their diagonal is.
    pub(super) fn size(&self) -> f64 {
        if self.is_empty() {
            0.0
        } else {
            distance(self.low, self.high)
        }
    }

    /// How far a point is from them; 0 inside.
    pub(super) fn distance(&self, p: V) -> f64 {
        let out = [0, 1, 2].map(|at| (self.low[at] - p[at]).max(p[at] - self.high[at]).max(0.0));
        length(out)
    }

    /// Whether a ray from `p` along `d` meets them before `far`.
    pub(super) fn met(&self, p: V, d: V, far: f64) -> bool {
        let (mut from, mut to) = (0.0_f64, far);
        let sides = self.low.iter().zip(&self.high);
        for ((low, high), (p, d)) in sides.zip(p.iter().zip(&d)) {
            if d.abs() < 1e-300 {
                if p < low || p > high {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - p) / d, (high - p) / d);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        }
        from <= to
    }
}
