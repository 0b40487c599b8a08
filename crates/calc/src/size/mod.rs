//! The hole's size against the drawing: what a tube makes, and with what chance.
//!
//! Oversize in a customer's part is scrap, undersize can be opened. The gap of a lot is one unknown
//! that all its holes share; around it each hole scatters. So there are two questions: whether the
//! lot can be held once its first piece is measured ([`held`]), and which tube to begin with
//! ([`crate::size_choice`]).

mod holding;
mod normal;
mod sized;

pub(crate) use holding::Holding;
pub use holding::held;
pub use sized::{Quantiles, Sized};

use crate::interpolate::{linear, linear_held};
use crate::job_figures::Verdict;
use crate::quantity::{ROUNDING_MM, Spread};

/// Chance of a hole inside both limits from which a size is comfortable (our choice, no source).
pub const COMFORTABLE: f64 = 0.98;
/// The same from which it is tight.
pub const TIGHT: f64 = 0.90;
/// The same below which it is not to be held at all.
pub const NOT_HELD: f64 = 0.50;

/// Gap per side of a tube.
///
/// Formula: P10 and P90 linear in the tube diameter between the table's rows, ends held; the
/// deviation of its logarithm is widened to the least one about the same median.
///
/// - `table`: tube diameters [mm], above 0 and rising, with their gaps per side [mm].
/// - `tube_mm`: tube diameter d [mm], above 0.
/// - `least_deviation`: least deviation of the logarithm [-], 0 and up.
///
/// Result: gap per side g [mm] with its spread, or `None` for an empty table.
///
/// ```
/// use quillbore_calc::Spread;
/// use quillbore_calc::size::gap_of;
/// let table = [
///     (0.3, Spread::new(0.02, 0.05).unwrap()),
///     (1.0, Spread::new(0.03, 0.08).unwrap()),
/// ];
/// let gap = gap_of(&table, 0.65, 0.0).unwrap();
/// assert!((gap.p10 - 0.025).abs() < 1e-9 && (gap.p90 - 0.065).abs() < 1e-9);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn gap_of(table: &[(f64, Spread)], tube_mm: f64, least_deviation: f64) -> Option<Spread> {
    let gap = Spread::new(
        linear_held(table.iter().map(|(d, gap)| (*d, gap.p10)), tube_mm)?,
        linear_held(table.iter().map(|(d, gap)| (*d, gap.p90)), tube_mm)?,
    )?;
    Some(gap.at_least(least_deviation))
}

/// Verdict on a row of holes.
///
/// Formula: *comfortable* from 98 % and with at most one hole expected outside in the lot, *tight*
/// from 90 %, *not to be promised* from 50 %, below that *not held*.
///
/// - `held`: chance of a hole inside both limits [-], 0 to 1, see [`held`].
/// - `outside_in_lot`: holes expected outside the limits in the lot [-], 0 and up.
///
/// Result: verdict.
///
/// ```
/// use quillbore_calc::job_figures::Verdict;
/// use quillbore_calc::size::verdict;
/// assert_eq!(verdict(0.99, 0.4), Verdict::Comfortable);
/// assert_eq!(verdict(0.99, 10.0), Verdict::Tight); // 1,000 holes
/// assert_eq!(verdict(0.72, 0.3), Verdict::NotToBePromised);
/// ```
///
/// Source: ours.
#[must_use]
pub fn verdict(held: f64, outside_in_lot: f64) -> Verdict {
    if held < NOT_HELD {
        Verdict::NotHeld
    } else if held < TIGHT {
        Verdict::NotToBePromised
    } else if held < COMFORTABLE || outside_in_lot > 1.0 {
        Verdict::Tight
    } else {
        Verdict::Comfortable
    }
}

/// Factor on the feed for the effort that close limits take.
///
/// Formula: linear in the width of the limits between the table's rows, held above.
///
/// - `table`: widths [mm], above 0 and rising, with their factors [-].
/// - `width_mm`: upper less lower limit [mm], any.
///
/// Result: factor [-], 1 for an empty table; `None` below the first width: another process finishes
/// such a hole.
///
/// ```
/// use quillbore_calc::size::effort;
/// let table = [(0.02, 0.5), (0.05, 0.8), (0.1, 1.0)];
/// assert_eq!(effort(&table, 0.2), Some(1.0));
/// assert!((effort(&table, 0.035).unwrap() - 0.65).abs() < 1e-12);
/// assert_eq!(effort(&table, 0.01), None);
/// ```
///
/// Source: «memory» of common practice, no source.
#[must_use]
pub fn effort(table: &[(f64, f64)], width_mm: f64) -> Option<f64> {
    let least = table.first().map_or(0.0, |(width, _)| *width);
    // 2.01 - 1.99 is 0.02, though binary fractions say a little less.
    (width_mm >= least - ROUNDING_MM).then(|| {
        if table.is_empty() {
            1.0
        } else {
            linear(table, width_mm)
        }
    })
}
