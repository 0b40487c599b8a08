//! Sine and cosine for patterns.

use quillbore_calc::Angle;

/// Sine and cosine, exact at whole quarter turns so that patterns close.
pub(super) fn sin_cos(angle: Angle) -> (f64, f64) {
    let deg = angle.deg().rem_euclid(360.0);
    if deg == 0.0 || deg == 360.0 {
        (0.0, 1.0)
    } else if deg == 90.0 {
        (1.0, 0.0)
    } else if deg == 180.0 {
        (0.0, -1.0)
    } else if deg == 270.0 {
        (-1.0, 0.0)
    } else {
        let rad = deg.to_radians();
        (libm::sin(rad), libm::cos(rad))
    }
}
