//! The hole's size against the drawing, and the electrode that gives it.
//!
//! Oversize in a customer's part is scrap, undersize can be opened: every choice keeps the upper
//! limit first.

use crate::interpolate::linear_held;
use crate::job_figures::Verdict;
use crate::quantity::Spread;
use crate::tables::TubeMaterial;

/// Share of the tolerance that must stay free at both limits for a size to be comfortable (our
/// choice, no source).
pub const COMFORTABLE_SHARE: f64 = 0.1;

/// Sizes that differ by less than this are equal [mm]: 0.3 + 2 x 0.05 + 0.01 is 0.41, though binary
/// fractions say a little more.
const SAME_MM: f64 = 1e-9;

/// Gap per side of a tube.
///
/// Formula: P10 and P90 linear in the tube diameter between the table's rows, ends held.
///
/// - `table`: tube diameters [mm], rising, with their gaps per side [mm].
/// - `tube_mm`: tube diameter d [mm], above 0.
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
/// let gap = gap_of(&table, 0.65).unwrap();
/// assert!((gap.p10 - 0.025).abs() < 1e-9 && (gap.p90 - 0.065).abs() < 1e-9);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn gap_of(table: &[(f64, Spread)], tube_mm: f64) -> Option<Spread> {
    Spread::new(
        linear_held(table.iter().map(|(d, gap)| (*d, gap.p10)), tube_mm)?,
        linear_held(table.iter().map(|(d, gap)| (*d, gap.p90)), tube_mm)?,
    )
}

/// The sizes that a tube makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Made {
    /// Smallest at the exit [mm].
    pub smallest_mm: f64,
    /// Median at the exit [mm].
    pub exit_mm: f64,
    /// Median at the entry [mm].
    pub entry_mm: f64,
    /// Largest at the entry [mm].
    pub largest_mm: f64,
}

/// The sizes that a tube makes with its gap, tolerance and taper.
///
/// Formula: largest `d + 2 g(P90) + tolerance`, medians `d + 2 g(P50)` and the same less the taper,
/// smallest `d + 2 g(P10) - taper`.
///
/// - `tube_mm`: tube diameter d [mm].
/// - `gap`: gap per side g [mm].
/// - `tolerance_mm`: tolerance of the tube's diameter, plus or minus [mm].
/// - `taper_mm`: how much smaller the exit is than the entry [mm of diameter].
///
/// Result: sizes [mm].
///
/// ```
/// use quillbore_calc::Spread;
/// use quillbore_calc::size::made;
/// let sizes = made(0.7, Spread::new(0.03, 0.06).unwrap(), 0.01, 0.02);
/// assert!((sizes.largest_mm - 0.83).abs() < 1e-9);
/// assert!((sizes.smallest_mm - 0.74).abs() < 1e-9);
/// ```
///
/// Source: definition of the gap; the start values by common practice, no source.
#[must_use]
pub fn made(tube_mm: f64, gap: Spread, tolerance_mm: f64, taper_mm: f64) -> Made {
    let entry_mm = tube_mm + 2.0 * gap.p50();
    Made {
        smallest_mm: tube_mm + 2.0 * gap.p10 - taper_mm,
        exit_mm: entry_mm - taper_mm,
        entry_mm,
        largest_mm: tube_mm + 2.0 * gap.p90 + tolerance_mm,
    }
}

/// Verdict on the sizes that a tube makes against the drawing's limits.
///
/// Formula: with r a tenth of the tolerance (0 where only a maximum is given), *comfortable* where `largest <= upper - r` and
/// `smallest >= lower + r`; *tight* where the upper limit holds and at least the median at the
/// exit holds the lower; else *not to be promised*.
///
/// - `limits_mm`: lower and upper limit [mm]; lower 0 where only a maximum is given.
/// - `sizes`: by [`made`].
///
/// Result: verdict.
///
/// ```
/// use quillbore_calc::Spread;
/// use quillbore_calc::job_figures::Verdict;
/// use quillbore_calc::size::{made, verdict};
/// let sizes = made(0.7, Spread::new(0.03, 0.06).unwrap(), 0.01, 0.0);
/// assert_eq!(verdict([0.74, 0.86], &sizes), Verdict::Comfortable);
/// assert_eq!(verdict([0.76, 0.83], &sizes), Verdict::Tight);
/// assert_eq!(verdict([0.76, 0.82], &sizes), Verdict::NotToBePromised);
/// ```
///
/// Source: ours; the limits are the drawing's.
#[must_use]
pub fn verdict(limits_mm: [f64; 2], sizes: &Made) -> Verdict {
    let [lower, upper] = [limits_mm[0] - SAME_MM, limits_mm[1] + SAME_MM];
    let room = if limits_mm[0] > 0.0 {
        COMFORTABLE_SHARE * (limits_mm[1] - limits_mm[0])
    } else {
        0.0
    };
    if sizes.largest_mm > upper || sizes.exit_mm < lower {
        Verdict::NotToBePromised
    } else if sizes.largest_mm <= upper - room && sizes.smallest_mm >= lower + room {
        Verdict::Comfortable
    } else {
        Verdict::Tight
    }
}

/// A tube as far as its choice is concerned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Index of the tube in the tables.
    pub tube: usize,
    /// Outer diameter [mm].
    pub outer_mm: f64,
    /// The sizes that it makes without taper.
    pub made: Made,
    /// True for several channels.
    pub several: bool,
    /// What it is made of.
    pub material: TubeMaterial,
}

/// What a hole would like of its tube besides its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// Several channels, so that no core is left.
    pub several: bool,
    /// The tube material that the start values were taken with, where known.
    pub material: Option<TubeMaterial>,
}

impl Candidate {
    /// How well it meets the wish: channels before material.
    pub(crate) fn meets(&self, wish: Wish) -> (bool, bool) {
        let material = wish.material.is_none_or(|wanted| wanted == self.material);
        (self.several == wish.several, material)
    }
}

/// The tube for a hole.
///
/// Formula: among the tubes that hold both limits, the ones with the wished channels, then the
/// wished material, then the largest. Where none holds both, the largest one that keeps the upper
/// limit with its median at or below the middle of the limits; where even that is not to be had,
/// the smallest that keeps the upper. Where the drawing gives one size without a tolerance, the
/// largest whose median does not exceed it.
///
/// - `candidates`: in falling order of the largest size each makes.
/// - `limits_mm`: lower and upper limit [mm].
/// - `taper_mm`: how much smaller the exit is than the entry [mm of diameter].
/// - `wish`: channels and material.
///
/// Result: place in `candidates`, or `None` where no tube keeps the upper limit.
///
/// ```
/// use quillbore_calc::Spread;
/// use quillbore_calc::size::{Candidate, Wish, choose, made};
/// use quillbore_calc::tables::TubeMaterial::Brass;
/// let gap = Spread::new(0.03, 0.06).unwrap();
/// let tubes = [0.8, 0.7, 0.6].map(|outer_mm| Candidate {
///     tube: 0,
///     outer_mm,
///     made: made(outer_mm, gap, 0.01, 0.0),
///     several: false,
///     material: Brass,
/// });
/// let wish = Wish { several: false, material: Some(Brass) };
/// assert_eq!(choose(&tubes, [0.74, 0.86], 0.0, wish), Some(1));
/// assert_eq!(choose(&tubes, [0.50, 0.70], 0.0, wish), None);
/// ```
///
/// Source: ours: oversize is scrap, undersize can be opened.
#[must_use]
pub fn choose(
    candidates: &[Candidate],
    limits_mm: [f64; 2],
    taper_mm: f64,
    wish: Wish,
) -> Option<usize> {
    let [lower, upper] = [limits_mm[0] - SAME_MM, limits_mm[1] + SAME_MM];
    if limits_mm[0] >= limits_mm[1] {
        return nearest_below(candidates, 0, upper, wish);
    }
    let first = candidates.partition_point(|tube| tube.made.largest_mm > upper);
    let mut best: Option<(usize, (bool, bool), f64)> = None;
    for (place, tube) in candidates.iter().enumerate().skip(first) {
        if tube.made.largest_mm - taper_mm < lower {
            break;
        }
        if tube.made.smallest_mm - taper_mm < lower {
            continue;
        }
        let meets = tube.meets(wish);
        if best.is_none_or(|(_, met, outer)| (meets, tube.outer_mm) > (met, outer)) {
            best = Some((place, meets, tube.outer_mm));
        }
    }
    best.map(|(place, ..)| place)
        .or_else(|| {
            nearest_below(
                candidates,
                first,
                f64::midpoint(limits_mm[0], limits_mm[1]) + SAME_MM,
                wish,
            )
        })
        .or_else(|| smallest(candidates, first))
}

/// The largest tube from a place on whose median does not exceed a size; wishes decide equals.
fn nearest_below(
    candidates: &[Candidate],
    first: usize,
    most_mm: f64,
    wish: Wish,
) -> Option<usize> {
    let mut best: Option<(usize, f64, (bool, bool))> = None;
    for (place, tube) in candidates.iter().enumerate().skip(first) {
        if best.is_some_and(|(_, outer, _)| tube.made.largest_mm < outer) {
            break;
        }
        if tube.made.entry_mm > most_mm {
            continue;
        }
        let key = (tube.outer_mm, tube.meets(wish));
        if best.is_none_or(|(_, outer, met)| key > (outer, met)) {
            best = Some((place, key.0, key.1));
        }
    }
    best.map(|(place, ..)| place)
}

/// The smallest tube from a place on.
fn smallest(candidates: &[Candidate], first: usize) -> Option<usize> {
    (first..candidates.len()).min_by(|a, b| {
        let outer = |place: &usize| {
            candidates
                .get(*place)
                .map_or(f64::MAX, |tube| tube.outer_mm)
        };
        outer(a).total_cmp(&outer(b))
    })
}
