//! Whether limits can be held once the first piece of a lot is measured.

use alloc::vec::Vec;

use super::sized::{QUANTILES, Sized};
use crate::quantity::Limits;

/// Chance of a hole inside both limits once the first piece of the lot is measured.
///
/// Formula: for each of 99 quantiles of the lot's gap the best of the tubes, its mean size m moved
/// toward `(lo + hi + taper)/2` by at most max(0.015 mm, 25 % of 2 g) on the diameter:
/// `P = Phi((hi - m)/s) - Phi((lo + taper - m)/s)`; the mean of P.
///
/// - `tubes`: what there is to choose from, each once.
/// - `limits_mm`: lower and upper limit [mm], the lower not above the upper.
/// - `taper_mm`: how much smaller the exit is than the entry [mm of diameter], 0 and up.
///
/// Result: chance [-], 0 to 1; 0 without tubes.
///
/// ```
/// use quillbore_calc::{Limits, Spread};
/// use quillbore_calc::size::{Quantiles, Sized, held};
/// // A gap that is known: 0.8 mm with a deviation of 0.01; the setting moves it to the middle of the
/// // limits, 0.81. Within two deviations of the middle 0.9545 (standard normal table).
/// let gap = Spread::new(0.05, 0.05).unwrap();
/// let tubes = [Sized::new(0.7, gap, &[(1.0, 0.01)], 0.0, &Quantiles::default())];
/// assert!((held(&tubes, Limits::new(0.79, 0.83), 0.0) - 0.9545).abs() < 0.00005);
/// assert_eq!(held(&tubes, Limits::new(5.95, 6.05), 0.0), 0.0);
/// ```
///
/// Source: ours; worked figures by an independent prototype in the tests.
#[must_use]
pub fn held<'a>(
    tubes: impl IntoIterator<Item = &'a Sized>,
    limits_mm: Limits,
    taper_mm: f64,
) -> f64 {
    Holding::of(tubes, limits_mm, taper_mm).mean()
}

/// How well some tubes together hold limits, quantile by quantile of the lot's gap.
pub(crate) struct Holding {
    limits_mm: Limits,
    taper_mm: f64,
    best: [f64; QUANTILES],
}

impl Holding {
    pub(crate) fn of<'a>(
        tubes: impl IntoIterator<Item = &'a Sized>,
        limits_mm: Limits,
        taper_mm: f64,
    ) -> Self {
        let mut best = [0.0; QUANTILES];
        // The nearest first: where it gives the most that any can, nobody asks the others.
        let middle_mm = f64::midpoint(limits_mm.lower + taper_mm, limits_mm.upper);
        let near = (tubes.into_iter()).filter(|tube| tube.may_hold(limits_mm, taper_mm));
        let mut near: Vec<(f64, &Sized)> = near
            .map(|tube| ((tube.median_mm() - middle_mm).abs(), tube))
            .collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (_, tube) in near {
            tube.raise(&mut best, limits_mm, taper_mm);
        }
        Self {
            limits_mm,
            taper_mm,
            best,
        }
    }

    /// Chance of a hole inside both limits.
    pub(crate) fn mean(&self) -> f64 {
        self.best.iter().sum::<f64>() / QUANTILES as f64
    }

    /// The same with one tube more.
    pub(crate) fn mean_with(&self, tube: &Sized) -> f64 {
        let mut best = self.best;
        tube.raise(&mut best, self.limits_mm, self.taper_mm);
        best.iter().sum::<f64>() / QUANTILES as f64
    }
}
