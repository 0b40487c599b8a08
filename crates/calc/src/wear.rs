//! Electrode wear by length and by volume.
//!
//! Wear by length is electrode length lost over depth drilled. Wear by volume is electrode metal
//! lost over work metal removed. Every figure says which of the two it is.

use crate::span::Span;

/// How wear rises with depth: rise of the wear ratio of a whole hole per depth [1/mm].
///
/// Formula: `(k - 1) / (100 d)`, so that a hole 100 diameters deep wears k times as much for its
/// depth as a shallow one.
///
/// - `at_100_diameters`: factor k [-], above 0.
/// - `tube_mm`: tube diameter d [mm], above 0.
///
/// Result: rise [1/mm], for [`lost`].
///
/// ```
/// use quillbore_calc::wear::{lost, rise_per_mm};
/// let rise = rise_per_mm(1.5, 0.5);
/// assert!((lost(1.0, rise, 0.0, 50.0) - 75.0).abs() < 1e-9);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn rise_per_mm(at_100_diameters: f64, tube_mm: f64) -> f64 {
    (at_100_diameters - 1.0) / (100.0 * tube_mm)
}

/// Electrode length lost between two depths in one material.
///
/// Formula: `W(z) = rho z (1 + a z)`, and the difference of it between the two depths.
///
/// - `ratio`: wear by length rho in a shallow hole [-], 0 and up.
/// - `rise`: rise a [1/mm] by [`rise_per_mm`], 0 and up; 0 for a ratio that does not rise.
/// - `from_mm`, `to_mm`: depths on the axis [mm], 0 and up.
///
/// Result: length lost [mm].
///
/// ```
/// use quillbore_calc::wear::lost;
/// assert_eq!(lost(0.8, 0.0, 10.0, 60.0), 40.0);
/// ```
///
/// Source: definition of wear by length.
#[must_use]
pub fn lost(ratio: f64, rise: f64, from_mm: f64, to_mm: f64) -> f64 {
    ratio * (to_mm - from_mm) * (1.0 + rise * (to_mm + from_mm))
}

/// Electrode length lost through layers.
///
/// Formula: sum of [`lost`] over the layers.
///
/// - `spans`: the layers with their wear ratios in a shallow hole [-], in any order.
/// - `rise`: rise [1/mm] by [`rise_per_mm`], 0 and up.
///
/// Result: length lost [mm].
///
/// ```
/// use quillbore_calc::span::Span;
/// use quillbore_calc::wear::lost_over;
/// let layers = [
///     Span { from_mm: 0.0, to_mm: 3.0, value: 2.0 },
///     Span { from_mm: 3.0, to_mm: 13.0, value: 0.8 },
/// ];
/// assert!((lost_over(layers, 0.0) - 14.0).abs() < 1e-12);
/// ```
///
/// Source: definition of wear by length.
#[must_use]
pub fn lost_over(spans: impl IntoIterator<Item = Span>, rise: f64) -> f64 {
    spans
        .into_iter()
        .filter(|span| span.to_mm > span.from_mm)
        .map(|span| lost(span.value, rise, span.from_mm, span.to_mm))
        .sum()
}

/// Wear by volume from wear by length.
///
/// Formula: `rho (d^2 - b^2) / (D^2 - core^2)`: tube metal lost over work metal removed.
///
/// - `ratio`: wear by length rho [-], 0 and up.
/// - `outer_mm`, `bore_mm`: tube diameter d and bore b, or equivalent bore of several channels
///   [mm], b from 0 to d.
/// - `hole_mm`: finished hole D [mm], above the core.
/// - `core_mm`: diameter of a core that is left [mm], 0 for none, 0 to below D.
///
/// Result: wear by volume [-].
///
/// ```
/// use quillbore_calc::wear::by_volume;
/// assert!((by_volume(1.0, 1.016, 0.35, 1.116, 0.0) - 0.73).abs() < 0.005);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn by_volume(ratio: f64, outer_mm: f64, bore_mm: f64, hole_mm: f64, core_mm: f64) -> f64 {
    ratio * (outer_mm * outer_mm - bore_mm * bore_mm) / (hole_mm * hole_mm - core_mm * core_mm)
}
