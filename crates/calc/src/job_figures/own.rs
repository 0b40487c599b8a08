//! What the shop's own records make of figures.

use crate::learn::{Behind, Likeness};
use crate::quantity::Z90;

/// What the shop's own records make of a row's figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OwnFigures {
    /// What decides how it burns, as its records are looked for.
    pub like: Likeness,
    /// Records of burn or wear that stand behind them.
    pub behind: Behind,
    /// Minutes that go with the feed.
    pub burn: Narrowed,
    /// Length of electrode lost.
    pub wear: Narrowed,
    /// Whether some record measured a length; where none did, wear goes along with the minutes.
    pub wear_measured: bool,
    /// Gap per side, where it is known.
    pub gap: Option<Narrowed>,
}

/// A start value, and what the shop's records make of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Narrowed {
    /// Factor on the start value.
    pub factor: f64,
    /// Deviation of the logarithm now.
    pub sigma: f64,
    /// The same by the start values.
    pub start_sigma: f64,
}

impl Narrowed {
    /// Whether a figure that goes with it is called calibrated.
    ///
    /// Formula: its P90 over its P10, `exp(2 z90 sigma)`, is under half of that by the start values.
    ///
    /// Result: true where it is.
    ///
    /// ```
    /// use quillbore_calc::job_figures::Narrowed;
    /// let now = |sigma| Narrowed { factor: 1.0, sigma, start_sigma: 0.62 };
    /// // ln 2 / 2.563 = 0.2704 less than at the start.
    /// assert!(now(0.34).is_calibrated() && !now(0.36).is_calibrated());
    /// ```
    ///
    /// Source: our choice.
    #[must_use]
    pub fn is_calibrated(&self) -> bool {
        let width = |sigma: f64| libm::exp(2.0 * Z90 * sigma);
        2.0 * width(self.sigma) < width(self.start_sigma)
    }
}
