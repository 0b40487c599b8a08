//! Vectors in space, as much of them as directions and places need.

/// A vector in the part's coordinates.
pub(crate) type Vector = [f64; 3];

/// Scalar product.
pub(crate) fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Vector product.
pub(crate) fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// `a` plus `by` times `b`.
pub(crate) fn along(a: Vector, b: Vector, by: f64) -> Vector {
    [a[0] + b[0] * by, a[1] + b[1] * by, a[2] + b[2] * by]
}

/// The opposite vector.
pub(crate) fn opposite(a: Vector) -> Vector {
    [-a[0], -a[1], -a[2]]
}

/// The vector at length one; `None` where it has no direction.
pub(crate) fn unit(a: Vector) -> Option<Vector> {
    let length = libm::sqrt(dot(a, a));
    (length.is_finite() && length > 1e-9).then(|| [a[0] / length, a[1] / length, a[2] / length])
}

/// Angle between two unit vectors [deg], 0 to 180.
pub(crate) fn angle_deg(a: Vector, b: Vector) -> f64 {
    libm::acos(dot(a, b).clamp(-1.0, 1.0)).to_degrees()
}

/// Two unit vectors square to `axis` and to each other, chosen by the axis alone.
pub(crate) fn across(axis: Vector) -> [Vector; 2] {
    // Whichever of x and z is not nearly along the axis.
    let help = if axis[0].abs() < 0.9 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 0.0, 1.0]
    };
    let first = unit(along(help, axis, -dot(help, axis))).unwrap_or(help);
    [first, cross(axis, first)]
}

/// Angle of `a` about `axis`, counted from the first of [`across`] [deg], 0 to below 360.
pub(crate) fn azimuth_deg(a: Vector, axis: Vector) -> f64 {
    let [first, second] = across(axis);
    let angle = libm::atan2(dot(a, second), dot(a, first)).to_degrees();
    if angle < 0.0 { angle + 360.0 } else { angle }
}

/// Directions closer than about this count as one: 0.03 degrees, finer than anybody clamps.
const STEPS_TO_ONE: f64 = 2000.0;

/// A direction's rounded components in one number.
pub(crate) fn direction_key(axis: Vector) -> u64 {
    let step = |part: f64| (libm::round(part * STEPS_TO_ONE) as i64 + 4096) as u64;
    step(axis[0]) << 32 | step(axis[1]) << 16 | step(axis[2])
}
