//! Lengths, held in millimeters.

use core::ops::{Add, Div, Mul, Neg, Sub};

/// Millimeters in one inch, exact by definition (international yard and pound agreement, 1959).
pub const MM_PER_INCH: f64 = 25.4;

/// A finite length.
///
/// Formula: `1 in = 25.4 mm`.
///
/// ```
/// use quillbore_calc::Length;
/// let quarter = Length::from_inch(0.25).unwrap();
/// assert_eq!((quarter.mm(), quarter.inch()), (6.35, 0.25));
/// assert_eq!(Length::from_mm(6.35), Some(quarter));
/// assert_eq!(Length::from_ratio_mm(127, 20), Some(quarter));
/// assert_eq!([Length::from_mm(f64::NAN), Length::from_ratio_mm(127, 0)], [None; 2]);
/// ```
///
/// Source: international yard and pound agreement, 1959.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length {
    mm: f64,
}

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self { mm: 0.0 };

    /// A length from millimeters [mm]; `None` where the number is not finite.
    #[must_use]
    pub fn from_mm(mm: f64) -> Option<Self> {
        mm.is_finite().then_some(Self { mm })
    }

    /// A length from inches [in]; `None` where the number is not finite.
    #[must_use]
    pub fn from_inch(inch: f64) -> Option<Self> {
        Self::from_mm(inch * MM_PER_INCH)
    }

    /// A length from an exact ratio of millimeters [mm], by one division; `None` for a zero divisor.
    #[must_use]
    pub fn from_ratio_mm(numerator: i128, denominator: i128) -> Option<Self> {
        #[expect(
            clippy::cast_precision_loss,
            reason = "the one rounding of the whole way from text to value"
        )]
        Self::from_mm(numerator as f64 / denominator as f64)
    }

    /// This length in millimeters [mm].
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.mm
    }

    /// This length in inches [in].
    #[must_use]
    pub fn inch(self) -> f64 {
        self.mm / MM_PER_INCH
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            mm: self.mm + other.mm,
        }
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self {
            mm: self.mm - other.mm,
        }
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self { mm: -self.mm }
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self {
            mm: self.mm * factor,
        }
    }
}

impl Div<Length> for Length {
    type Output = f64;
    fn div(self, other: Length) -> f64 {
        self.mm / other.mm
    }
}
