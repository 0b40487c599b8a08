//! Directions.

use quillbore_calc::Angle;

/// The vector of length one along another; `None` where that has no direction.
#[must_use]
pub fn unit_vector(vector: [f64; 3]) -> Option<[f64; 3]> {
    // Dividing by the largest part first keeps the squares from overflowing or vanishing.
    let largest = vector
        .iter()
        .fold(0.0_f64, |most, part| most.max(part.abs()));
    if !vector.iter().all(|part| part.is_finite()) || largest == 0.0 {
        return None;
    }
    let scaled = vector.map(|part| part / largest);
    let length = scaled.iter().map(|part| part * part).sum::<f64>().sqrt();
    Some(scaled.map(|part| part / length))
}

/// Sine and cosine, exact at whole quarter turns so that patterns close.
#[must_use]
pub fn sin_cos(angle: Angle) -> (f64, f64) {
    let deg = angle.deg() % 360.0;
    let deg = if deg < 0.0 { deg + 360.0 } else { deg };
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

/// The direction that is tilted from straight down (against z), leaning where `turn` points.
///
/// The turn is measured about z from x toward y.
#[must_use]
pub fn direction(tilt: Angle, turn: Angle) -> [f64; 3] {
    let (sin_tilt, cos_tilt) = sin_cos(tilt);
    let (sin_turn, cos_turn) = sin_cos(turn);
    [sin_tilt * cos_turn, sin_tilt * sin_turn, 0.0 - cos_tilt]
}
