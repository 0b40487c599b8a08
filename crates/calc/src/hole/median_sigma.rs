//! A start value worked out once for all rows.

use crate::quantity::Spread;

/// Median and deviation of the logarithm of a start value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct MedianSigma {
    pub(super) median: f64,
    pub(super) sigma: f64,
}

impl MedianSigma {
    pub(super) fn of(spread: Spread) -> Self {
        Self {
            median: spread.p50(),
            sigma: spread.sigma(),
        }
    }
}
