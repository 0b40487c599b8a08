//! One plunge, then growing circles layer by layer.

use super::{Asked, Manner, Opening, Way};

/// Most layers and circles that are counted.
const MOST: f64 = 1e6;

/// Opening a hole by one plunge and by circles in layers, as a mill does.
///
/// Formula: with `R = D/2` and `R1 = d/2 + g`, the plunge removes `pi R1^2 L` in its minutes; what is
/// left, `pi (R^2 - R1^2) L`, goes at this rate times the efficiency e:
/// `plunge_min (1 + (R^2/R1^2 - 1) / e)`. Wear by volume is that of the plunge,
/// `rho (d^2 - b^2) / (4 R1^2)`; over the tube's section the bore b goes out and the tube lost is
/// `rho L R^2/R1^2`. Circles a plunge's radius apart, `ceil((R - R1) / R1)`; layers `ceil(L/t)`.
///
/// - `asked`: hole, tube and one plunge.
/// - `manner`: thickness of a layer t [mm], above 0, and efficiency e [-], above 0.
///
/// Result: minutes [min] and tube lost [mm]; `None` where a figure makes no sense or the tube is wider
/// than the hole. Minutes rise with the hole without a jump; the thickness of a layer doesn't change
/// them.
///
/// ```
/// use quillbore_calc::plunge::{Asked, Manner, layered};
/// let asked = Asked {
///     hole_mm: 2.2, depth_mm: 10.0, through: false, tube_mm: 1.0, gap_mm: 0.05,
///     plunge_min: 2.0, wear: 0.5,
/// };
/// // Twice as wide: three plunges' metal at half the rate.
/// let opening = layered(&asked, Manner::default()).unwrap();
/// assert!((opening.minutes - 14.0).abs() < 1e-9);
/// assert!((opening.wear_mm - 20.0).abs() < 1e-9);
/// assert_eq!((opening.layers, opening.rings), (100, 1));
/// ```
///
/// Source: arithmetic; the efficiency is ours, no common practice found.
#[must_use]
pub fn layered(asked: &Asked, manner: Manner) -> Option<Opening> {
    let radii = asked.radii()?;
    let Manner {
        layer_mm,
        efficiency,
        ..
    } = manner;
    let ratio = radii.hole / radii.plunge;
    let volumes = ratio * ratio;
    let minutes = asked.plunge_min * (1.0 + (volumes - 1.0) / efficiency);
    let wear_mm = asked.wear * asked.depth_mm * volumes;
    let sound = layer_mm > 0.0 && efficiency > 0.0 && minutes.is_finite() && wear_mm.is_finite();
    if !sound {
        return None;
    }
    let round = radii.circle > 0.0;
    Some(Opening {
        way: Way::Layered,
        plunges: 1,
        rings: if round {
            whole(radii.circle / radii.plunge)?
        } else {
            1
        },
        layers: if round {
            whole(asked.depth_mm / layer_mm)?
        } else {
            0
        },
        minutes,
        wear_mm,
        metal_share: 1.0,
        slug_mm: None,
    })
}

/// A count rounded up, to a billionth.
fn whole(count: f64) -> Option<u32> {
    let up = libm::ceil(count - 1e-9);
    (up <= MOST).then_some((up as u32).max(1))
}
