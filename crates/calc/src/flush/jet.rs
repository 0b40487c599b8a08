//! A jet of water: how fast it is, and how hard it pushes.

use super::{ML_MIN_PER_M3_S, PA_PER_BAR, Water, counts};

/// Speed of a jet that no channel slows down.
///
/// Formula: `sqrt(2 p / rho)`.
///
/// - `pressure_bar`: pressure p at the pump [bar], above 0.
/// - `water`: its density rho [kg/m3].
///
/// Result: speed [m/s]; `None` where an argument is no such figure.
///
/// ```
/// use quillbore_calc::flush::{Water, free_jet};
/// let water = Water::at(20.0).unwrap();
/// assert!((free_jet(70.0, &water).unwrap() - 118.4).abs() < 0.05);
/// ```
///
/// Source: Bernoulli's equation.
#[must_use]
pub fn free_jet(pressure_bar: f64, water: &Water) -> Option<f64> {
    if !counts(pressure_bar) || !water.counts() {
        return None;
    }
    let speed = libm::sqrt(2.0 * pressure_bar * PA_PER_BAR / water.density_kg_m3);
    counts(speed).then_some(speed)
}

/// Force of a jet on what stops it.
///
/// Formula: `rho Q v`.
///
/// - `ml_min`: flow Q [ml/min], above 0.
/// - `m_s`: speed v [m/s], above 0.
/// - `water`: its density rho [kg/m3].
///
/// Result: force [N]; `None` where an argument is no such figure.
///
/// ```
/// use quillbore_calc::flush::{Water, jet_force};
/// let water = Water::at(20.0).unwrap();
/// assert!((jet_force(125.0, 16.6, &water).unwrap() - 0.034).abs() < 0.001);
/// ```
///
/// Source: conservation of momentum.
#[must_use]
pub fn jet_force(ml_min: f64, m_s: f64, water: &Water) -> Option<f64> {
    if !counts(ml_min) || !counts(m_s) || !water.counts() {
        return None;
    }
    let force = water.density_kg_m3 * (ml_min / ML_MIN_PER_M3_S) * m_s;
    counts(force).then_some(force)
}
