//! A figure with its spread as the desk reads it.

/// The tenth, fiftieth and ninetieth percentile of a figure, in the figure's own unit.
///
/// Formula: `scaled` multiplies each percentile.
///
/// ```
/// use quillbore_calc::Band;
/// let band = Band { p10: 2.0, p50: 4.0, p90: 8.0 };
/// assert_eq!(band.scaled(1.5), Band { p10: 3.0, p50: 6.0, p90: 12.0 });
/// assert_eq!(Band::exact(4.0), Band { p10: 4.0, p50: 4.0, p90: 4.0 });
/// ```
///
/// Source: arithmetic.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Band {
    /// One time in ten it is below this.
    pub p10: f64,
    /// As often above as below.
    pub p50: f64,
    /// One time in ten it is above this.
    pub p90: f64,
}

impl Band {
    /// A figure without spread.
    #[must_use]
    pub const fn exact(value: f64) -> Self {
        Self {
            p10: value,
            p50: value,
            p90: value,
        }
    }

    /// The band with every percentile multiplied by a positive `factor`.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            p10: self.p10 * factor,
            p50: self.p50 * factor,
            p90: self.p90 * factor,
        }
    }
}
