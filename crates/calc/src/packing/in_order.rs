//! The other way to use electrodes: drill in a given order and change when the electrode no longer
//! reaches.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::{
    lot::{millimeters, read, steps},
    terms::{Electrode, HoleKind, Unplaceable},
};
use crate::stop::{Stop, never};

/// Electrodes used up when holes are drilled in the given order, with a change whenever the next
/// hole can't start.
///
/// Formula: a hole starts if `remaining >= reach + consume`, else a new electrode comes first; then
/// `remaining -= consume`.
///
/// - `order`: kinds in the order they are drilled in one part, each with its number there; lengths
///   [mm], 0 and up.
/// - `parts`: parts in the lot, 0 and up, drilled one after another; time grows
///   with kinds, and with parts only until one begins as an earlier one did.
/// - `electrode`: as for [`super::electrodes_for_lot`]; a part-used electrode is the one that
///   starts.
///
/// Result: new electrodes taken, the length left on the last one [mm], and what no electrode can
/// drill (numbers of one part).
///
/// ```
/// use quillbore_calc::packing::{Electrode, HoleKind, by_hole_order};
///
/// let kind = |id, reach_mm, consume_mm| HoleKind { id, reach_mm, consume_mm, count: 1 };
/// // 100 mm: 60 + 30 start; 10 + 40 would end at 30 left, reach 10 is met; then 60 + 30 needs a new one.
/// let order = [kind(1, 60.0, 30.0), kind(2, 10.0, 40.0)];
/// let used = by_hole_order(&order, 2, &Electrode::new(100.0));
/// assert_eq!((used.needed, used.last_remnant_mm), (2, 30.0));
/// ```
///
/// Source: the rule itself.
#[must_use]
pub fn by_hole_order(order: &[HoleKind], parts: u32, electrode: &Electrode) -> ByHoleOrder {
    let full = steps(electrode.usable_mm);
    let asked = OrderAsked::new(order, parts, electrode);
    let (needed, remaining) = asked.used(&never).unwrap_or_default();
    let unplaceable = order.iter().filter(|kind| kind.count > 0);
    ByHoleOrder {
        needed,
        last_remnant_mm: millimeters(remaining.max(0)),
        unplaceable: unplaceable
            .filter_map(|kind| {
                Some(Unplaceable {
                    id: kind.id,
                    count: kind.count,
                    why: read(kind, full).err()?,
                })
            })
            .collect(),
    }
}

/// What drilling in a given order is asked, without the caller's names: equal questions have equal
/// answers.
///
/// Formula: that of [`by_hole_order`].
///
/// ```
/// use quillbore_calc::packing::{Electrode, HoleKind, OrderAsked};
/// let kind = |id, reach_mm, consume_mm| HoleKind { id, reach_mm, consume_mm, count: 1 };
/// let new = Electrode::new(100.0);
/// // 100 mm: 60 + 30 start; 10 + 40 would end at 30 left, reach 10 is met; then 60 + 30 needs a new one.
/// let asked = OrderAsked::new(&[kind(1, 60.0, 30.0), kind(2, 10.0, 40.0)], 2, &new);
/// assert_eq!(asked.answer(&|| false), Some(2));
/// assert_eq!(asked.answer(&|| true), None);
/// // Names ask nothing, nor does a hole that no electrode drills; the order does: 10 + 40, then
/// // 60 + 30 no more, each part anew.
/// let renamed = [kind(8, 60.0, 30.0), kind(9, 60.0, 50.0), kind(5, 10.0, 40.0)];
/// assert_eq!(OrderAsked::new(&renamed, 2, &new), asked);
/// let turned = OrderAsked::new(&[kind(2, 10.0, 40.0), kind(1, 60.0, 30.0)], 2, &new);
/// assert_eq!(turned.answer(&|| false), Some(3));
/// ```
///
/// Source: the rule itself.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct OrderAsked {
    full: i64,
    part: Option<i64>,
    parts: u32,
    /// Reach, wear and number of each kind, in the order of drilling.
    holes: Arc<[(i64, i64, u64)]>,
}

impl OrderAsked {
    /// The question of [`by_hole_order`], whose arguments these are.
    ///
    /// - `order`: kinds in the order they are drilled in one part, each with its number there; lengths
    ///   [mm], 0 and up. Those that no electrode can drill are left out.
    /// - `parts`: parts in the lot, 0 and up, drilled one after another.
    /// - `electrode`: usable length [mm], 0 to 1e9, of a new one and of the part-used one that starts.
    ///
    /// Result: the question, without names.
    #[must_use]
    pub fn new(order: &[HoleKind], parts: u32, electrode: &Electrode) -> Self {
        let full = steps(electrode.usable_mm);
        let kinds = order.iter().filter(|kind| kind.count > 0);
        Self {
            full: full.unwrap_or(0),
            part: electrode.part_used_mm.and_then(steps),
            parts,
            holes: kinds
                .filter_map(|kind| {
                    let (reach, wear) = read(kind, full).ok()?;
                    Some((reach, wear, u64::from(kind.count)))
                })
                .collect(),
        }
    }

    /// New electrodes taken; asks at each part whether to go on, and is none where it was stopped.
    ///
    /// - `stop`: true where nobody wants the answer any more.
    ///
    /// Result: number of electrodes, or `None` where it was stopped.
    #[must_use]
    pub fn answer(&self, stop: Stop<'_>) -> Option<u64> {
        self.used(stop).map(|(needed, _)| needed)
    }

    /// New electrodes taken, and what is left of the last.
    fn used(&self, stop: Stop<'_>) -> Option<(u64, i64)> {
        let mut needed = 0_u64;
        // Without a first electrode nothing reaches, not even a hole of no length.
        let mut remaining = self.part.map_or(-1, |part| part.min(self.full));
        // A part that begins with what an earlier one began with uses what that did, and so do those
        // after it (Brent 1980 «memory»: the part compared with is the last power of two).
        let (mut begun, mut at, mut before, mut wait) = (remaining, 0, 0, 1_u32);
        let (mut done, mut repeats) = (0, false);
        while done < self.parts {
            if stop() {
                return None;
            }
            let in_part;
            (in_part, remaining) = self.part_used(remaining);
            needed = needed.saturating_add(in_part);
            done += 1;
            if repeats {
                continue;
            }
            let since = done - at;
            if remaining == begun {
                let rounds = (self.parts - done) / since;
                needed = needed.saturating_add((needed - before).saturating_mul(rounds.into()));
                done += rounds * since;
                repeats = true;
            } else if since == wait {
                (begun, at, before) = (remaining, done, needed);
                wait = wait.saturating_mul(2);
            }
        }
        Some((needed, remaining))
    }

    /// New electrodes that one part takes where so much is left of the one before, and what is left
    /// then.
    fn part_used(&self, mut remaining: i64) -> (u64, i64) {
        let mut needed = 0_u64;
        for &(reach, wear, mut left) in self.holes.iter() {
            if remaining >= reach + wear {
                let room = match wear {
                    0 => left,
                    wear => ((remaining - reach) / wear) as u64,
                };
                let run = left.min(room);
                remaining -= wear * run as i64;
                left -= run;
            }
            if left > 0 {
                // A new one drills so many; all but the last are used as far.
                let each = match wear {
                    0 => left,
                    wear => ((self.full - reach) / wear) as u64,
                };
                let new = left.div_ceil(each.max(1));
                needed = needed.saturating_add(new);
                remaining = self.full - wear * (left - (new - 1) * each.max(1)) as i64;
            }
        }
        (needed, remaining)
    }
}

/// What drilling in a given order uses up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ByHoleOrder {
    /// New electrodes taken; the part-used one is not counted.
    pub needed: u64,
    /// Usable length left on the last electrode [mm].
    pub last_remnant_mm: f64,
    /// Kinds that no electrode can drill in one go, with their numbers in one part.
    pub unplaceable: Vec<Unplaceable>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::Dice;

    /// The rule, hole by hole.
    fn one_by_one(asked: &OrderAsked) -> (u64, i64) {
        let mut needed = 0;
        let mut remaining = asked.part.map_or(-1, |part| part.min(asked.full));
        for _ in 0..asked.parts {
            for &(reach, wear, count) in asked.holes.iter() {
                for _ in 0..count {
                    if remaining < reach + wear {
                        remaining = asked.full;
                        needed += 1;
                    }
                    remaining -= wear;
                }
            }
        }
        (needed, remaining)
    }

    #[test]
    fn runs_and_rounds_come_to_the_same_as_hole_by_hole() {
        let mut dice = Dice::new(7);
        for _ in 0..3_000 {
            let full = 1 + dice.below(60) as i64;
            let mut hole = || {
                let reach = dice.below(full as usize + 1) as i64;
                let wear = dice.below((full - reach) as usize + 1) as i64;
                (reach, wear, 1 + dice.below(9) as u64)
            };
            let holes: Vec<_> = (0..3).map(|_| hole()).collect();
            let kinds = 1 + dice.below(3);
            let asked = OrderAsked {
                full,
                part: (dice.below(2) == 0).then(|| dice.below(70) as i64),
                parts: dice.below(200) as u32,
                holes: holes[..kinds].into(),
            };
            assert_eq!(asked.used(&never), Some(one_by_one(&asked)), "{asked:?}");
        }
    }

    /// Seven holes of 14 go on each 100, whichever part they are in: a million millions in sevens.
    #[test]
    fn a_million_holes_in_a_million_parts_are_counted_at_once() {
        let asked = OrderAsked {
            full: 100,
            part: None,
            parts: 1_000_000,
            holes: [(0, 14, 1_000_000)].into(),
        };
        let all = 1_000_000_000_000_u64;
        assert_eq!(
            asked.used(&never).map(|(needed, _)| needed),
            Some(all.div_ceil(7))
        );
        // It is asked at a handful of parts whether to go on, not at each.
        let looks = core::cell::Cell::new(0);
        let stop = || {
            looks.set(looks.get() + 1);
            false
        };
        assert!(
            asked.used(&stop).is_some() && looks.get() < 100,
            "{}",
            looks.get()
        );
    }
}
