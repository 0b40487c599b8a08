//! Electrodes for a lot, asked and answered at once.

use super::asked::PackingAsked;
use super::terms::{Effort, Electrode, HoleKind, Plan};
use crate::stop::never;

/// Fewest electrodes found for a lot, what each drills, and a number no plan can go below.
///
/// Formula: a hole starts only if `remaining >= reach + consume`; then `remaining -= consume`. A set
/// S fits one electrode of usable length U if for every reach p in S: sum of `consume` over holes of
/// S with `reach >= p` is at most U - p.
///
/// - `kinds`: holes alike in reach and consumption [mm], 0 and up, with their number over the whole
///   lot. Dressing before the next hole belongs into `consume_mm`; a long hole drilled in stages is
///   several kinds.
/// - `electrode`: usable length of a new electrode [mm], 0 to 1e9, and, if there is one, of the
///   part-used electrode in the holder.
/// - `effort`: how long to look; the same effort on the same lot gives the same plan.
///
/// Result: a [`Plan`]; lengths in [mm], numbers in electrodes. Never fails: a kind that no new
/// electrode can drill, or whose figures are no lengths, comes back in [`Plan::unplaceable`].
///
/// Validity: consumption is taken as known. Plan with a margin where wear is uncertain.
///
/// ```
/// use quillbore_calc::packing::{Effort, Electrode, HoleKind, electrodes_for_lot};
///
/// // 280 mm usable; lengths of our own, fewest electrodes proved by exact search: 9.
/// let wears = [(95.0, 6), (70.0, 9), (62.0, 7), (41.0, 11), (33.0, 10)];
/// let kinds: Vec<HoleKind> = (0..)
///     .zip(wears)
///     .map(|(id, (consume_mm, count))| HoleKind { id, reach_mm: 0.0, consume_mm, count })
///     .collect();
/// let plan = electrodes_for_lot(&kinds, &Electrode::new(280.0), &Effort::default());
/// assert_eq!((plan.needed, plan.at_least), (9, 9));
/// assert!(plan.none_fewer());
/// ```
///
/// Source: nested first-fit and best-fit over five sorts, own derivation checked by permutation;
/// bounds by volume and by Martello and Toth 1990 «memory».
#[must_use]
pub fn electrodes_for_lot(kinds: &[HoleKind], electrode: &Electrode, effort: &Effort) -> Plan {
    let asked = PackingAsked::new(kinds, electrode, *effort);
    let found = asked.question.answer(&never);
    found.map_or_else(Plan::default, |found| asked.plan(&found))
}
