//! What the flush pushes with, and what holds a light part against it.
//!
//! The electrode never touches the work, but the water that comes through it pushes: with the pump's
//! pressure on the hole's area at most, where it can't flow off. Whatever the push is up to that, the
//! worst of it is the whole or none of it, for moments and forces grow in proportion. Friction is never
//! counted: what is wet may slip.

mod held;
mod rest;

pub use held::{Holding, Pushed, Stop, Turn, held};
pub use rest::{Part, Rest, Support};

use core::f64::consts::FRAC_PI_4;

/// Newtons on a square millimeter in one bar.
const N_MM2_PER_BAR: f64 = 0.1;

/// What the flush pushes a part with, at most.
///
/// Formula: `p pi/4 D^2`: the pump's whole pressure on the hole's area, as where nothing flows off. Of
/// water that fills a pocket under the part, D is the pocket's.
///
/// - `pressure_bar`: flush pressure p at the pump [bar], 0 and up.
/// - `hole_mm`: hole diameter D [mm], above 0.
///
/// Result: force along the hole's axis [N]; `None` for what is no pressure or no diameter.
///
/// ```
/// use quillbore_calc::push::hole_push_n;
/// assert!((hole_push_n(70.0, 0.5).unwrap() - 1.374).abs() < 0.0005);
/// ```
///
/// Source: hydrostatics; that the whole pressure gets to the bottom is an upper bound.
#[must_use]
pub fn hole_push_n(pressure_bar: f64, hole_mm: f64) -> Option<f64> {
    let push = pressure_bar * N_MM2_PER_BAR * FRAC_PI_4 * hole_mm * hole_mm;
    (pressure_bar >= 0.0 && hole_mm > 0.0 && push.is_finite()).then_some(push)
}

/// What pushes a plug out of a cavity that the flush fills.
///
/// Formula: `p pi/4 D^2`, the pump's pressure on the plug.
///
/// - `pressure_bar`: flush pressure p at the pump [bar], 0 and up.
/// - `cavity_mm`: diameter D of the cavity where it is plugged [mm], above 0.
///
/// Result: force [N]; `None` for what is no pressure or no diameter.
///
/// ```
/// use quillbore_calc::push::plug_n;
/// assert!((plug_n(70.0, 12.0).unwrap() - 791.7).abs() < 0.05); // 7 N/mm2 on 113.1 mm2
/// ```
///
/// Source: hydrostatics.
#[must_use]
pub fn plug_n(pressure_bar: f64, cavity_mm: f64) -> Option<f64> {
    hole_push_n(pressure_bar, cavity_mm)
}
