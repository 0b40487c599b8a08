//! Water: density and viscosity by temperature.

use super::counts;
use crate::interpolate::linear_held;

/// Water as it flows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// Density [kg/m3].
    pub density_kg_m3: f64,
    /// Viscosity [Pa s].
    pub viscosity_pa_s: f64,
}

impl Water {
    /// Water of a temperature at the pressure of the air.
    ///
    /// Formula: density between printed values, linear; viscosity of it by [`viscosity_upa_s`].
    ///
    /// - `celsius`: temperature [degC], any; below 5 counts as 5, above 60 as 60.
    ///
    /// Result: density [kg/m3] and viscosity [Pa s]; `None` where the temperature is no number.
    ///
    /// ```
    /// use quillbore_calc::flush::Water;
    /// let water = Water::at(20.0).unwrap();
    /// assert!((water.density_kg_m3 - 998.2065).abs() < 0.00005);
    /// assert!((water.viscosity_pa_s - 1.0016e-3).abs() < 0.00005e-3);
    /// ```
    ///
    /// Source: IAPWS SR6-08, liquid water at 0.1 MPa, for the density; IAPWS R12-08 for the viscosity.
    #[must_use]
    pub fn at(celsius: f64) -> Option<Self> {
        let (coldest, warmest) = (DENSITIES.first()?.0, DENSITIES.last()?.0);
        let celsius = celsius.clamp(coldest, warmest);
        if celsius.is_nan() {
            return None;
        }
        let density_kg_m3 = linear_held(DENSITIES.into_iter(), celsius)?;
        let viscosity = viscosity_upa_s(celsius + ZERO_CELSIUS_K, density_kg_m3)?;
        Some(Self {
            density_kg_m3,
            viscosity_pa_s: viscosity * 1e-6,
        })
    }

    /// True for a water that can be reckoned with.
    pub(crate) fn counts(&self) -> bool {
        counts(self.density_kg_m3) && counts(self.viscosity_pa_s)
    }
}

/// Viscosity of water and steam.
///
/// Formula: `mu0 mu1`, with `t = T / 647.096`, `r = rho / 322`,
/// `mu0 = 100 sqrt(t) / sum(h_i / t^i)` and
/// `mu1 = exp(r sum((1/t - 1)^i sum(h_ij (r - 1)^j)))`. What the critical point adds is left out: it is
/// below 1 percent but within some kelvin of it.
///
/// - `temperature_k`: temperature T [K], from 273.15 to 1173.15.
/// - `density_kg_m3`: density rho [kg/m3], 0 up to 1200.
///
/// Result: viscosity [uPa s]; `None` where an argument is no such figure at all.
///
/// ```
/// use quillbore_calc::flush::viscosity_upa_s;
/// assert!((viscosity_upa_s(298.15, 998.0).unwrap() - 889.7351).abs() < 1e-6);
/// ```
///
/// Source: IAPWS R12-08, Formulation 2008 for the Viscosity of Ordinary Water Substance.
#[must_use]
pub fn viscosity_upa_s(temperature_k: f64, density_kg_m3: f64) -> Option<f64> {
    if !counts(temperature_k) || density_kg_m3 < 0.0 {
        return None;
    }
    let colder = CRITICAL_K / temperature_k;
    let denser = density_kg_m3 / CRITICAL_KG_M3;
    let thin = 100.0 / libm::sqrt(colder) / polynomial(&THIN, colder);
    let dense = DENSE.iter().rev().fold(0.0, |sum, row| {
        sum * (colder - 1.0) + polynomial(row, denser - 1.0)
    });
    let viscosity = thin * libm::exp(denser * dense);
    counts(viscosity).then_some(viscosity)
}

/// Sum of coefficients times rising powers.
fn polynomial(coefficients: &[f64], at: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * at + c)
}

const ZERO_CELSIUS_K: f64 = 273.15;
const CRITICAL_K: f64 = 647.096;
const CRITICAL_KG_M3: f64 = 322.0;

/// Coefficients of the viscosity of thin steam, by rising powers of 1/t.
const THIN: [f64; 4] = [1.67752, 2.20462, 0.636_656_4, -0.241_605];

/// Coefficients of what density adds: rows by rising powers of 1/t - 1, in each by those of r - 1.
const DENSE: [[f64; 7]; 6] = [
    [
        0.520_094,
        0.222_531,
        -0.281_378,
        0.161_913,
        -0.032_537_2,
        0.0,
        0.0,
    ],
    [0.085_089_5, 0.999_115, -0.906_851, 0.257_399, 0.0, 0.0, 0.0],
    [-1.08374, 1.88797, -0.772_479, 0.0, 0.0, 0.0, 0.0],
    [
        -0.289_555,
        1.26613,
        -0.489_837,
        0.0,
        0.069_845_2,
        0.0,
        -0.004_356_73,
    ],
    [0.0, 0.0, -0.257_04, 0.0, 0.0, 0.008_721_02, 0.0],
    [0.0, 0.120_573, 0.0, 0.0, 0.0, 0.0, -0.000_593_264],
];

/// Temperature [degC] and density of water at 0.1 MPa [kg/m3].
const DENSITIES: [(f64, f64); 9] = [
    (5.0, 999.966),
    (10.0, 999.702),
    (15.0, 999.102),
    (20.0, 998.2065),
    (25.0, 997.047),
    (30.0, 995.649),
    (40.0, 992.216),
    (50.0, 988.035),
    (60.0, 983.195),
];
