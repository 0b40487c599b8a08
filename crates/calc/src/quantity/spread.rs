//! A start value and how far it may be off: a lognormal read from its P10-P90 band.

use super::Band;

/// The standard normal's ninetieth percentile (closed form's printed value 1.2815515655).
pub const Z90: f64 = 1.281_551_565_544_600_4;

/// A positive figure whose logarithm is normal; its P10 and P90 are what a table gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// One time in ten it is below this.
    pub p10: f64,
    /// One time in ten it is above this.
    pub p90: f64,
}

impl Spread {
    /// The spread between two positive percentiles; `None` unless `0 < p10 <= p90` and both finite.
    #[must_use]
    pub fn new(p10: f64, p90: f64) -> Option<Self> {
        (p10 > 0.0 && p10 <= p90 && p90.is_finite()).then_some(Self { p10, p90 })
    }

    /// The median: the geometric mean of the two percentiles.
    #[must_use]
    pub fn p50(self) -> f64 {
        libm::sqrt(self.p10 * self.p90)
    }

    /// The standard deviation of the logarithm.
    #[must_use]
    pub fn sigma(self) -> f64 {
        libm::log(self.p90 / self.p10) / (2.0 * Z90)
    }

    /// The value at `z` standard deviations of the logarithm from the median.
    #[must_use]
    pub fn at(self, z: f64) -> f64 {
        self.p50() * libm::exp(self.sigma() * z)
    }

    /// The same relative spread about a median `factor` times as large.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            p10: self.p10 * factor,
            p90: self.p90 * factor,
        }
    }

    /// The three percentiles as the desk reads them.
    #[must_use]
    pub fn band(self) -> Band {
        Band {
            p10: self.p10,
            p50: self.p50(),
            p90: self.p90,
        }
    }
}
