//! Directions of holes: from a vector, from tilt and turn, from two view angles, and back.
//!
//! A direction is a unit vector into the material in the part's coordinates. Straight down is
//! `[0, 0, -1]`. The tilt is the angle from straight down; the turn goes from +x towards +y, seen
//! from above. Drawings use two conventions that must not be mixed up: tilt and turn, or the angles
//! that two views show. Ask which one it is.

use crate::vector::{self, cross, dot};

/// Directions closer together than this count as one [deg] (our choice, no source: well under what a
/// fixture holds).
pub const SAME_DEG: f64 = 0.05;

/// Unit vector of a vector.
///
/// Formula: `v / |v|`.
///
/// - `vector`: any finite vector [any unit].
///
/// Result: unit vector [-], or `None` for one without length or not finite.
///
/// ```
/// use quillbore_calc::direction::unit;
/// assert_eq!(unit([0.0, 3.0, -4.0]), Some([0.0, 0.6, -0.8]));
/// assert_eq!(unit([0.0, 0.0, 0.0]), None);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn unit(vector: [f64; 3]) -> Option<[f64; 3]> {
    let largest = vector.iter().fold(0.0, |most: f64, v| most.max(v.abs()));
    if largest == 0.0 || !vector.iter().all(|v| v.is_finite()) {
        return None;
    }
    let scaled = vector.map(|v| v / largest);
    let length = libm::sqrt(dot(scaled, scaled));
    Some(scaled.map(|v| v / length))
}

/// Direction from tilt and turn.
///
/// Formula: `[sin t cos u, sin t sin u, -cos t]`.
///
/// - `tilt_deg`: angle t from straight down [deg], 0 to 180.
/// - `turn_deg`: turn u from +x towards +y, seen from above [deg], any.
///
/// Result: unit vector [-].
///
/// ```
/// use quillbore_calc::direction::from_tilt_turn;
/// let [x, y, z] = from_tilt_turn(30.0, 90.0);
/// assert!(x.abs() < 1e-12 && (y - 0.5).abs() < 1e-12 && (z + 0.8660).abs() < 0.00005);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn from_tilt_turn(tilt_deg: f64, turn_deg: f64) -> [f64; 3] {
    let (tilt, turn) = (tilt_deg.to_radians(), turn_deg.to_radians());
    let flat = libm::sin(tilt);
    [
        flat * libm::cos(turn),
        flat * libm::sin(turn),
        -libm::cos(tilt),
    ]
}

/// Direction from the angles from vertical that two views show.
///
/// Formula: `[tan a, tan b, -1]` made a unit vector, so that `tan^2 t = tan^2 a + tan^2 b` and
/// `turn = atan2(tan b, tan a)`.
///
/// - `front_deg`: angle a from vertical in the view along y [deg], below 90 either way.
/// - `side_deg`: angle b from vertical in the view along x [deg], below 90 either way.
///
/// Result: unit vector [-], or `None` where an angle is 90 or more. This is *not* a tilt about one axis
/// followed by a tilt about the other.
///
/// ```
/// use quillbore_calc::direction::{from_views, tilt_turn};
/// let (tilt, turn) = tilt_turn(from_views(45.0, 45.0).unwrap());
/// assert!((tilt - 54.7356).abs() < 0.00005 && (turn - 45.0).abs() < 1e-9);
/// ```
///
/// Source: Machinery's Handbook, 31st ed. (Industrial Press 2020), pp. 121-122.
#[must_use]
pub fn from_views(front_deg: f64, side_deg: f64) -> Option<[f64; 3]> {
    let lawful = |angle: f64| angle.abs() < 90.0;
    if !lawful(front_deg) || !lawful(side_deg) {
        return None;
    }
    unit([
        libm::tan(front_deg.to_radians()),
        libm::tan(side_deg.to_radians()),
        -1.0,
    ])
}

/// Tilt and turn of a direction.
///
/// Formula: `t = atan2(sqrt(x^2 + y^2), -z)`, `u = atan2(y, x)`.
///
/// - `direction`: vector [-], of any length above 0.
///
/// Result: tilt [deg], 0 to 180, and turn [deg], above -180 and up to 180; turn 0 where straight.
///
/// ```
/// use quillbore_calc::direction::{from_tilt_turn, tilt_turn};
/// let (tilt, turn) = tilt_turn(from_tilt_turn(20.0, -135.0));
/// assert!((tilt - 20.0).abs() < 1e-9 && (turn + 135.0).abs() < 1e-9);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn tilt_turn(direction: [f64; 3]) -> (f64, f64) {
    let [x, y, z] = direction;
    let flat = libm::hypot(x, y);
    let turn = if flat == 0.0 { 0.0 } else { libm::atan2(y, x) };
    (libm::atan2(flat, -z).to_degrees(), turn.to_degrees())
}

/// Where turns about an axis are counted from: a unit vector square to it, chosen by the axis alone.
///
/// Formula: the part's x made square to the axis, or its z where x lies nearly along it.
///
/// - `axis`: unit vector [-], any.
///
/// Result: unit vector [-].
///
/// ```
/// use quillbore_calc::direction::{across, quarter};
/// assert_eq!(across([0.0, 0.0, 1.0]), [1.0, 0.0, 0.0]);
/// assert_eq!(quarter([0.0, 0.0, 1.0]), [0.0, 1.0, 0.0]);
/// assert_eq!(across([1.0, 0.0, 0.0]), [0.0, 0.0, 1.0]); // a bar along x: from its top
/// ```
///
/// Source: ours.
#[must_use]
pub fn across(axis: [f64; 3]) -> [f64; 3] {
    let [first, _] = vector::across(axis);
    first
}

/// The direction that a quarter turn about an axis brings [`across`] to.
///
/// Formula: the axis times it, right-handed.
///
/// - `axis`: unit vector [-], any.
///
/// Result: unit vector [-]. An example stands at [`across`].
///
/// ```
/// # use quillbore_calc::direction::quarter;
/// assert_eq!(quarter([1.0, 0.0, 0.0]), [0.0, -1.0, 0.0]);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn quarter(axis: [f64; 3]) -> [f64; 3] {
    let [_, second] = vector::across(axis);
    second
}

/// Angle between two directions.
///
/// Formula: `atan2(|a x b|, a . b)`, exact also for directions close together.
///
/// - `a`, `b`: vectors [-], of any length above 0.
///
/// Result: angle [deg], 0 to 180.
///
/// ```
/// use quillbore_calc::direction::between;
/// assert_eq!(between([1.0, 0.0, 0.0], [0.0, 0.0, 1.0]), 90.0);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn between(a: [f64; 3], b: [f64; 3]) -> f64 {
    let square = cross(a, b);
    libm::atan2(libm::sqrt(dot(square, square)), dot(a, b)).to_degrees()
}

/// True where two directions are the same within [`SAME_DEG`].
///
/// Formula: angle between them not above the tolerance.
///
/// - `a`, `b`: vectors [-], of any length above 0.
///
/// Result: yes or no.
///
/// ```
/// use quillbore_calc::direction::{from_tilt_turn, parallel};
/// let down = from_tilt_turn(0.0, 0.0);
/// assert!(parallel(down, from_tilt_turn(0.04, 10.0)));
/// assert!(!parallel(down, from_tilt_turn(0.06, 10.0)));
/// ```
///
/// Source: geometry.
#[must_use]
pub fn parallel(a: [f64; 3], b: [f64; 3]) -> bool {
    between(a, b) <= SAME_DEG
}

/// True where two directions are opposite within [`SAME_DEG`].
///
/// Formula: angle between them not below 180 degrees less the tolerance.
///
/// - `a`, `b`: vectors [-], of any length above 0.
///
/// Result: yes or no.
///
/// ```
/// use quillbore_calc::direction::antiparallel;
/// assert!(antiparallel([0.0, 0.0, -1.0], [0.0, 0.0, 1.0]));
/// ```
///
/// Source: geometry.
#[must_use]
pub fn antiparallel(a: [f64; 3], b: [f64; 3]) -> bool {
    between(a, b) >= 180.0 - SAME_DEG
}

/// True where a turn about an axis brings one direction into the other, within [`SAME_DEG`].
///
/// Formula: both make the same angle with the axis.
///
/// - `axis`: the axis [-], of any length above 0.
/// - `a`, `b`: vectors [-], of any length above 0.
///
/// Result: yes or no.
///
/// ```
/// use quillbore_calc::direction::{from_tilt_turn, same_about};
/// let up = [0.0, 0.0, 1.0];
/// assert!(same_about(up, from_tilt_turn(30.0, 0.0), from_tilt_turn(30.0, 140.0)));
/// assert!(!same_about(up, from_tilt_turn(30.0, 0.0), from_tilt_turn(31.0, 0.0)));
/// ```
///
/// Source: geometry.
#[must_use]
pub fn same_about(axis: [f64; 3], a: [f64; 3], b: [f64; 3]) -> bool {
    (between(axis, a) - between(axis, b)).abs() <= SAME_DEG
}
