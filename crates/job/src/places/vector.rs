//! Directions.

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
