//! Angles, held in degrees as drawings give them.

/// A finite angle.
///
/// Formula: `rad = deg pi / 180`; `complement = 90 deg - angle`.
///
/// ```
/// use quillbore_calc::Angle;
/// let from_normal = Angle::from_deg(60.0).unwrap();
/// assert!((from_normal.rad() - 1.0471976).abs() < 5e-8); // pi / 3
/// assert_eq!(from_normal.complement().deg(), 30.0);
/// assert_eq!(Angle::from_deg(f64::INFINITY), None);
/// ```
///
/// Source: definition of the degree.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle {
    deg: f64,
}

impl Angle {
    /// No angle.
    pub const ZERO: Self = Self { deg: 0.0 };

    /// An angle from degrees [deg]; `None` where the number is not finite.
    #[must_use]
    pub fn from_deg(deg: f64) -> Option<Self> {
        deg.is_finite().then_some(Self { deg })
    }

    /// This angle in degrees [deg].
    #[must_use]
    pub const fn deg(self) -> f64 {
        self.deg
    }

    /// This angle in radians [rad].
    #[must_use]
    pub fn rad(self) -> f64 {
        self.deg * (core::f64::consts::PI / 180.0)
    }

    /// The angle that completes this one to a right angle: from the normal to from the surface.
    #[must_use]
    pub fn complement(self) -> Self {
        Self {
            deg: 90.0 - self.deg,
        }
    }
}
