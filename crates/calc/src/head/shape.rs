//! The shape of nose and head about the tool's axis.

/// Radii that differ by less count as one [mm].
const SAME_MM: f64 = 1e-6;

/// Nose and head as turned about the tool's axis, from the guide's lower end upward: a nose, a cone and a
/// body, each straight in profile.
///
/// A common one has a nose of 10 to 15 mm, 30 to 50 mm long, that widens to a body of 80 to 120 mm
/// («memory» of common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Head {
    /// Diameter of the nose at the guide's lower end [mm].
    pub nose_mm: f64,
    /// Diameter of the nose at its upper end [mm]; that of its lower end where it is straight.
    pub nose_top_mm: f64,
    /// Length of the nose from the guide's lower end [mm].
    pub nose_length_mm: f64,
    /// Diameter of the body above [mm], which goes on upward.
    pub body_mm: f64,
    /// Height above the guide's lower end from which the body has that diameter [mm]; the nose's length
    /// where it begins with a flat shoulder.
    pub body_from_mm: f64,
}

/// A part of the head that widens evenly, with all that lies above it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    /// Height of its lower end above the guide's [mm].
    pub(super) from_mm: f64,
    /// Radius there [mm].
    pub(super) inner_mm: f64,
    /// Radius at its upper end [mm].
    pub(super) outer_mm: f64,
    /// Height for each millimeter of radius [-].
    pub(super) slope: f64,
}

impl Head {
    /// Nose and cone, as the part meets them: what is narrower than something below it can't touch first.
    ///
    /// `None` where the figures make no head.
    pub(super) fn stretches(&self) -> Option<[Stretch; 2]> {
        let radii = [self.nose_mm, self.nose_top_mm, self.body_mm].map(|diameter| diameter / 2.0);
        let counts = |radius: f64| radius > 0.0 && radius.is_finite();
        let (length, body_from) = (self.nose_length_mm, self.body_from_mm);
        let upward = length >= 0.0 && body_from >= length && body_from.is_finite();
        if !upward || !radii.into_iter().all(counts) {
            return None;
        }
        let [nose, top, body] = radii;
        // Above a nose that narrows the cone counts from where it is as wide as the nose's end.
        let (top, length) = if top >= nose {
            (top, length)
        } else if body > nose {
            let share = (nose - top) / (body - top);
            (nose, length + (body_from - length) * share)
        } else {
            (nose, body_from)
        };
        Some([
            Stretch::between([0.0, nose], [length, top]),
            Stretch::between([length, top], [body_from, body.max(top)]),
        ])
    }
}

impl Stretch {
    /// From one height and radius to the next.
    fn between([from_mm, inner_mm]: [f64; 2], [to_mm, outer_mm]: [f64; 2]) -> Self {
        let widens = outer_mm - inner_mm;
        let (outer_mm, slope) = if widens > SAME_MM {
            (outer_mm, (to_mm - from_mm) / widens)
        } else {
            (inner_mm, 0.0)
        };
        Self {
            from_mm,
            inner_mm,
            outer_mm,
            slope,
        }
    }

    /// Height above the guide's end at which it is as wide as this, or wider [mm].
    pub(super) fn height_mm(&self, radius_mm: f64) -> f64 {
        self.from_mm + self.slope * (radius_mm - self.inner_mm).max(0.0)
    }
}
