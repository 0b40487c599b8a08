//! Holes that something must pass through afterwards: a wire that is threaded for wire EDM, air, light.
//!
//! A start hole lies in the metal that the wire cuts out. What counts of it is that the wire goes through
//! at the far side, and that the hole stays clear of the finished profile all the way down.

use crate::quantity::Limits;
use crate::reach::miss;
use crate::spread::normal_at;

/// How an open hole is proved open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Proof {
    /// By a pin gauge at its ends, as every hole is where nobody asks for anything else.
    Pin,
    /// By light that is seen through it.
    Light,
    /// By a wire put through it.
    Wire,
    /// By the air that flows through it.
    Air,
    /// By a pin that goes all the way through.
    PinThrough,
}

/// What is asked of the hole for the sake of the wire; what nobody said is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StartHole {
    /// Diameter of the wire [mm].
    pub wire_mm: Option<f64>,
    /// Least free exit [mm]: the smallest that the hole may be at its far side.
    pub least_exit_mm: Option<f64>,
    /// From the hole's center to the finished profile [mm].
    pub to_profile_mm: Option<f64>,
}

impl StartHole {
    /// Least free exit that counts.
    ///
    /// Formula: the typed one, never less than the wire; else `wire + clearance`.
    ///
    /// - `clearance_mm`: what a wire needs beyond its own diameter to be threaded [mm], 0 and up.
    ///
    /// Result: diameter [mm]; `None` where neither wire nor exit is known.
    ///
    /// ```
    /// use quillbore_calc::start_hole::StartHole;
    /// let wire = StartHole { wire_mm: Some(0.25), ..StartHole::default() };
    /// assert_eq!(wire.needed_mm(0.1), Some(0.35));
    /// let typed = StartHole { least_exit_mm: Some(0.5), ..wire };
    /// assert_eq!(typed.needed_mm(0.1), Some(0.5));
    /// ```
    ///
    /// Source: definition; the clearance by common practice, no source.
    #[must_use]
    pub fn needed_mm(&self, clearance_mm: f64) -> Option<f64> {
        match (self.wire_mm, self.least_exit_mm) {
            (Some(wire), Some(typed)) => Some(typed.max(wire)),
            (None, typed) => typed,
            (Some(wire), None) => Some(wire + clearance_mm),
        }
    }
}

/// The smallest of many holes that scatter about one size.
///
/// One hole of a lot is as likely smaller as larger than the lot's size; of a thousand one is surely
/// smaller.
///
/// Formula: `m + s z`, with `Phi(z) = 1 - 2^(-1/n)`: as often as not all n holes are larger.
///
/// - `mean_mm`: the lot's size m [mm], any.
/// - `deviation_mm`: one hole's deviation s about it [mm], 0 and up.
/// - `holes`: holes n of the lot, 1 and up; 0 counts as 1.
///
/// Result: size [mm].
///
/// ```
/// use quillbore_calc::start_hole::smallest_of;
/// assert!((smallest_of(0.5, 0.01, 1) - 0.5).abs() < 1e-12);
/// // All of ten are above with one half: 2^(-1/10) = 0.93303, and Phi(-1.4988) = 0.06697.
/// assert!((smallest_of(0.5, 0.01, 10) - 0.485_012).abs() < 5e-7);
/// ```
///
/// Source: distribution of the smallest of n independent values.
#[must_use]
pub fn smallest_of(mean_mm: f64, deviation_mm: f64, holes: u64) -> f64 {
    let each = -libm::expm1(-core::f64::consts::LN_2 / holes.max(1) as f64);
    mean_mm + deviation_mm * normal_at(each)
}

/// How far from its center a hole can reach toward the profile that it must stay clear of.
///
/// Formula: `D / (2 cos t) + k L / 100 + layer`.
///
/// - `hole_mm`: the hole's largest diameter D [mm], above 0.
/// - `tilt_deg`: angle t between its axis and the wall's normal [deg], from 0 to below 90.
/// - `drift_mm_per_100`: drift of the axis k [mm per 100 mm], 0 and up.
/// - `depth_mm`: how deep it is drilled from one end L [mm], 0 and up.
/// - `layer_mm`: recast and white layer beside it [mm], 0 and up.
///
/// Result: distance [mm]; `None` for an axis along the wall.
///
/// ```
/// use quillbore_calc::start_hole::toward_profile;
/// // 1 mm, 200 mm deep, drift 0.2 mm in 100, a layer of 0.03: 0.5 + 0.4 + 0.03.
/// assert!((toward_profile(1.0, 0.0, 0.2, 200.0, 0.03).unwrap() - 0.93).abs() < 1e-12);
/// ```
///
/// Source: geometry; drift and layer by common practice, no source.
#[must_use]
pub fn toward_profile(
    hole_mm: f64,
    tilt_deg: f64,
    drift_mm_per_100: f64,
    depth_mm: f64,
    layer_mm: f64,
) -> Option<f64> {
    let across_mm = crate::entry::mouth(hole_mm, tilt_deg)?;
    Some(across_mm / 2.0 + drift_mm_per_100 * depth_mm / 100.0 + layer_mm)
}

/// The free exit of a lot's holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exits {
    /// The smallest of the lot, where the lot's gap is at its P10 [mm].
    pub smallest_mm: f64,
    /// A hole at the median gap [mm].
    pub expected_mm: f64,
    /// A hole at the gap's P90 [mm].
    pub largest_mm: f64,
}

/// The free exit of a lot's holes: what a straight wire finds at the far side.
///
/// Formula: smallest [`smallest_of`] the holes about `D10 - taper`, expected `D50 - taper`, largest
/// `D90 - taper`; of holes from both ends, whose halves miss each other, smallest and expected less
/// [`miss`] by the drift's P90 and median. Nothing is below 0.
///
/// - `range_mm`: sizes at the entry D10 and D90 at the gap's P10 and P90 [mm].
/// - `median_mm`: size at the entry D50 at its median [mm], from D10 to D90.
/// - `taper_mm`: how much smaller the exit is than the entry [mm], 0 and up.
/// - `deviation_mm`: one hole's deviation about its lot [mm], 0 and up.
/// - `holes`: holes of the lot, 1 and up.
/// - `halves`: of holes from both ends the drift's median and P90 [mm per 100 mm] and the depth of the
///   deeper half [mm], all 0 and up.
///
/// Result: diameters [mm].
///
/// ```
/// use quillbore_calc::Limits;
/// use quillbore_calc::start_hole::exits;
/// let range = Limits::new(0.54, 0.62);
/// let one = exits(range, 0.57, 0.015, 0.008, 1, None);
/// assert!((one.smallest_mm - 0.525).abs() < 1e-12 && (one.expected_mm - 0.555).abs() < 1e-12);
/// assert!((one.largest_mm - 0.605).abs() < 1e-12);
/// // Halves of 50 mm that each drift 0.2 mm in 100: sqrt 2 x 0.1 less.
/// let both = exits(range, 0.57, 0.015, 0.008, 1, Some((Limits::new(0.1, 0.2), 50.0)));
/// assert!((both.smallest_mm - (0.525 - 0.141_421)).abs() < 5e-7);
/// ```
///
/// Source: definition of gap and taper; the others named above.
#[must_use]
pub fn exits(
    range_mm: Limits,
    median_mm: f64,
    taper_mm: f64,
    deviation_mm: f64,
    holes: u64,
    halves: Option<(Limits, f64)>,
) -> Exits {
    let missed = halves.map(|(drift, each_mm)| drift.map(|drift| miss(drift, each_mm)));
    let missed = missed.unwrap_or(Limits::new(0.0, 0.0));
    let smallest = smallest_of(range_mm.lower - taper_mm, deviation_mm, holes);
    Exits {
        smallest_mm: (smallest - missed.upper).max(0.0),
        expected_mm: (median_mm - taper_mm - missed.lower).max(0.0),
        largest_mm: (range_mm.upper - taper_mm).max(0.0),
    }
}
