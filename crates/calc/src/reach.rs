//! How deep electrodes reach, one after another, and from both ends.

use crate::span::Span;

/// Most electrodes that are put one after another into one hole before it counts as out of reach.
pub const MOST_ELECTRODES: u32 = 99;

/// Usable length of an electrode.
///
/// Formula: `U = min(L0 - h, Z stroke)`, not below 0.
///
/// - `new_mm`: length L0 of the electrode when new [mm], 0 and up.
/// - `held_back_mm`: length h held back by chuck, guide, stand-off and reserve [mm], 0 and up.
/// - `stroke_mm`: stroke of the drilling axis [mm], 0 and up.
///
/// Result: usable length U [mm].
///
/// A 36 in electrode with 8 in held back has 28 in to use:
///
/// ```
/// use quillbore_calc::reach::usable;
/// assert!((usable(36.0 * 25.4, 8.0 * 25.4, 1000.0) - 28.0 * 25.4).abs() < 1e-9);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn usable(new_mm: f64, held_back_mm: f64, stroke_mm: f64) -> f64 {
    (new_mm - held_back_mm).min(stroke_mm).max(0.0)
}

/// Length of a new electrode as it goes into the machine, from its end in the chuck.
///
/// Formula: `L = U + h`. Where the stroke is shorter than the electrode without what is held back, what is
/// longer than this is cut off before: no stroke would use it.
///
/// - `usable_mm`: usable length U [mm], as by [`usable`], 0 and up.
/// - `held_back_mm`: length h held back by chuck, guide, stand-off and reserve [mm], 0 and up.
///
/// Result: length [mm].
///
/// Of 400 mm, 75 held back, a stroke of 220 uses 220: 295 go in. A stroke of 500 uses all of it:
///
/// ```
/// use quillbore_calc::reach::{mounted, usable};
/// let goes_in = |stroke_mm| mounted(usable(400.0, 75.0, stroke_mm), 75.0);
/// assert_eq!([220.0, 500.0].map(goes_in), [295.0, 400.0]);
/// ```
///
/// Source: arithmetic, from [`usable`].
#[must_use]
pub fn mounted(usable_mm: f64, held_back_mm: f64) -> f64 {
    usable_mm + held_back_mm
}

/// Length of an electrode that is just enough for one more hole: a shorter one is changed first.
///
/// Formula: `L = h + z + w`.
///
/// - `held_back_mm`: length h held back by chuck, guide, stand-off and reserve [mm], 0 and up.
/// - `tip_mm`: how far z the tip goes from the work's surface [mm], 0 and up.
/// - `wear_mm`: length w lost in the hole, from its end [mm], 0 and up.
///
/// Result: length [mm], from the chuck to the end.
///
/// An electrode of which 8 in are held back drills a hole of 2 in, and loses 1 in, where 11 in are left:
///
/// ```
/// use quillbore_calc::reach::enough_for;
/// assert_eq!(enough_for(8.0, 2.0, 1.0), 11.0);
/// ```
///
/// Source: arithmetic, from [`usable`].
#[must_use]
pub fn enough_for(held_back_mm: f64, tip_mm: f64, wear_mm: f64) -> f64 {
    held_back_mm + tip_mm + wear_mm
}

/// Depth to which the next electrode takes a hole, at one wear ratio throughout.
///
/// Formula: `z' = (U + rho z) / (1 + rho)`; from the surface `z1 = U / (1 + rho)`.
///
/// - `usable_mm`: usable length U [mm], 0 and up.
/// - `ratio`: wear by length rho [-], 0 and up.
/// - `depth_mm`: depth z of the hole so far [mm], 0 to U.
///
/// Result: depth [mm].
///
/// ```
/// use quillbore_calc::reach::next;
/// assert_eq!(next(28.0, 1.0, 0.0), 14.0);
/// assert_eq!(next(28.0, 1.0, 14.0), 21.0);
/// ```
///
/// Source: closed form, from `z' + rho (z' - z) = U`.
#[must_use]
pub fn next(usable_mm: f64, ratio: f64, depth_mm: f64) -> f64 {
    (usable_mm + ratio * depth_mm) / (1.0 + ratio)
}

/// Depth that n electrodes reach, one after another, at one wear ratio throughout.
///
/// Formula: `z(n) = U (1 - (rho/(1+rho))^n)`. U is the limit and never quite reached.
///
/// - `usable_mm`: usable length U [mm], 0 and up.
/// - `ratio`: wear by length rho [-], 0 and up.
/// - `electrodes`: n [-], 0 and up.
///
/// Result: depth [mm].
///
/// ```
/// use quillbore_calc::reach::after;
/// assert_eq!(after(28.0, 1.0, 4), 26.25);
/// ```
///
/// Source: closed form of the chain of [`next`].
#[must_use]
pub fn after(usable_mm: f64, ratio: f64, electrodes: u32) -> f64 {
    let left = libm::pow(ratio / (1.0 + ratio), f64::from(electrodes));
    usable_mm * (1.0 - left)
}

/// Depth to which the next electrode takes a hole through layers whose wear rises with depth.
///
/// Formula: the depth z' at which `z' + W(z') - W(z) = U`, with `W` by [`crate::wear::lost`], walked
/// layer by layer; within a layer the root of a quadratic.
///
/// - `usable_mm`: usable length U [mm], 0 and up.
/// - `rise`: rise of the wear ratio [1/mm], 0 and up.
/// - `depth_mm`: depth z of the hole so far [mm], 0 and up.
/// - `spans`: layers from z on in order, with their wear ratios [-]; the last one is taken to go on.
///
/// Result: depth [mm]; z itself where nothing is left to use.
///
/// ```
/// use quillbore_calc::reach::next_through;
/// use quillbore_calc::span::Span;
/// let metal = [Span { from_mm: 14.0, to_mm: 28.0, value: 1.0 }];
/// assert!((next_through(28.0, 0.0, 14.0, metal) - 21.0).abs() < 1e-12);
/// ```
///
/// Source: closed form in each layer; [`next`] is its check in one material.
#[must_use]
pub fn next_through(
    usable_mm: f64,
    rise: f64,
    depth_mm: f64,
    spans: impl IntoIterator<Item = Span>,
) -> f64 {
    let mut free = (usable_mm - depth_mm).max(0.0);
    let mut depth = depth_mm;
    let mut spans = spans.into_iter().peekable();
    while let Some(span) = spans.next() {
        let length = span.to_mm - depth;
        let asked = length + crate::wear::lost(span.value, rise, depth, span.to_mm);
        if asked < free && spans.peek().is_some() {
            free -= asked;
            depth = span.to_mm;
            continue;
        }
        let linear = 1.0 + span.value * (1.0 + 2.0 * rise * depth);
        let root = libm::sqrt((linear * linear + 4.0 * span.value * rise * free).max(0.0));
        return depth + 2.0 * free / (linear + root);
    }
    depth
}

/// Depth that no number of electrodes passes from both ends together.
///
/// Formula: `2 U - overlap`.
///
/// - `usable_mm`: usable length U [mm], 0 and up.
/// - `overlap_mm`: how far the two holes overlap where they meet [mm], 0 and up.
///
/// Result: depth [mm]; below 0 where the usable length is less than half the overlap.
///
/// ```
/// use quillbore_calc::reach::limit_from_both;
/// assert_eq!(limit_from_both(300.0, 1.0), 599.0);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn limit_from_both(usable_mm: f64, overlap_mm: f64) -> f64 {
    2.0 * usable_mm - overlap_mm
}

/// How far two holes that meet from both ends may miss each other.
///
/// Formula: `sqrt(2) k L / 100` with each hole's drift k over its own length L, the two drifting
/// apart independently.
///
/// - `drift_mm_per_100`: drift of the axis [mm per 100 mm], 0 and up, as likely as the answer is to
///   be.
/// - `each_mm`: length of each hole [mm], 0 and up.
///
/// Result: distance of the two axes where they meet [mm].
///
/// ```
/// use quillbore_calc::reach::miss;
/// assert!((miss(0.2, 150.0) - 0.424).abs() < 0.0005);
/// ```
///
/// Source: geometry of two independent deviations; the drift by common practice, no source.
#[must_use]
pub fn miss(drift_mm_per_100: f64, each_mm: f64) -> f64 {
    core::f64::consts::SQRT_2 * drift_mm_per_100 * each_mm / 100.0
}
