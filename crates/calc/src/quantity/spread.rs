//! A start value and how far it may be off: a lognormal read from its P10-P90 band.

use super::band::Band;

/// The standard normal's ninetieth percentile (closed form's printed value 1.2815515655).
pub const Z90: f64 = 1.281_551_565_544_600_4;

/// A positive figure whose logarithm is normal; its P10 and P90 are what a table gives, in the
/// figure's own unit.
///
/// Formula: median `m = sqrt(p10 p90)`, deviation of the logarithm `s = ln(p90/p10) / (2 x 1.28155)`,
/// mean `m exp(s^2 / 2)`, value at z deviations `m exp(s z)`.
///
/// ```
/// use quillbore_calc::Spread;
/// use quillbore_calc::quantity::{Pace, Z90};
/// let near = |found: f64, by_hand: f64| assert!((found - by_hand).abs() < 0.00005, "{found}");
/// let pack = Spread::new(0.5, 2.0).unwrap();
/// assert_eq!(pack.p50(), 1.0);
/// near(pack.sigma(), 0.5409); // ln 4 / 2.5631
/// near(pack.mean(), 1.1575); // exp(0.5409^2 / 2)
/// near(pack.at(Z90), 2.0);
/// near(pack.pick(Pace::Off(-Z90)), 0.5);
/// near(pack.at_least(0.8).sigma(), 0.8);
/// assert_eq!(pack.at_least(0.5), pack);
/// near(pack.with_sigma(0.2).sigma(), 0.2);
/// assert_eq!(pack.scaled(3.0).band().p90, 6.0);
/// assert_eq!(Spread::new(2.0, 0.5), None);
/// ```
///
/// Source: definition of the lognormal distribution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// One time in ten it is below this.
    pub p10: f64,
    /// One time in ten it is above this.
    pub p90: f64,
}

/// Which value of a spread is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pace {
    /// As often above as below.
    Median,
    /// What it comes to on average.
    Mean,
    /// So many standard deviations of the logarithm from the median.
    Off(f64),
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

    /// The standard deviation of the logarithm [-].
    #[must_use]
    pub fn sigma(self) -> f64 {
        libm::log(self.p90 / self.p10) / (2.0 * Z90)
    }

    /// The value at `z` standard deviations of the logarithm from the median.
    #[must_use]
    pub fn at(self, z: f64) -> f64 {
        self.p50() * libm::exp(self.sigma() * z)
    }

    /// The mean of the lognormal: the median times `exp(sigma^2 / 2)`.
    #[must_use]
    pub fn mean(self) -> f64 {
        let sigma = self.sigma();
        self.p50() * libm::exp(sigma * sigma / 2.0)
    }

    /// The same median with a deviation of the logarithm of at least `sigma`.
    #[must_use]
    pub fn at_least(self, sigma: f64) -> Self {
        if self.sigma() >= sigma {
            return self;
        }
        self.with_sigma(sigma)
    }

    /// The same median with this deviation of the logarithm, 0 and up.
    #[must_use]
    pub fn with_sigma(self, sigma: f64) -> Self {
        let (median, ratio) = (self.p50(), libm::exp(Z90 * sigma));
        Self {
            p10: median / ratio,
            p90: median * ratio,
        }
    }

    /// The value at a pace: median, mean, or so many deviations off.
    #[must_use]
    pub fn pick(self, pace: Pace) -> f64 {
        match pace {
            Pace::Median => self.p50(),
            Pace::Mean => self.mean(),
            Pace::Off(z) => self.at(z),
        }
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
