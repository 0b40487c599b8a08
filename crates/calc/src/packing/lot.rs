//! The lot as the searches see it: whole numbers, falling reach, kinds alike merged.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::terms::{Electrode, HoleKind, Unplaceable, WhyUnplaceable};

/// Steps per millimeter. A nanometer is far below anything a shop can measure.
const STEPS_PER_MM: f64 = 1e6;
/// Longest length taken [mm]; keeps sums of steps inside 64 bits.
const LONGEST_MM: f64 = 1e9;

/// Holes of equal reach and wear, whatever kind they came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Item {
    pub(super) reach: i64,
    pub(super) wear: i64,
    pub(super) count: u64,
}

/// A lot whose every hole fits a new electrode.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Lot {
    /// By falling reach, then falling wear: the index order is the drilling order.
    pub(super) items: Vec<Item>,
    pub(super) full: i64,
    pub(super) part: Option<i64>,
}

/// A lot, and by what names the caller knows its holes.
pub(super) struct Named {
    pub(super) lot: Lot,
    /// Kinds that each item's holes came from, with their numbers.
    pub(super) ids: Vec<Vec<(u32, u32)>>,
    pub(super) unplaceable: Vec<Unplaceable>,
}

impl Named {
    /// Reads the caller's kinds; what cannot be placed is told apart.
    ///
    /// Items come in drilling order, those alike joined. The sort is stable, so ids keep the caller's
    /// order.
    pub(super) fn new(kinds: &[HoleKind], electrode: &Electrode) -> Self {
        let full = steps(electrode.usable_mm);
        let part = electrode.part_used_mm.and_then(steps);
        let mut named = Self {
            lot: Lot {
                items: Vec::new(),
                full: full.unwrap_or(0),
                part: part.map(|part| part.min(full.unwrap_or(0))),
            },
            ids: Vec::new(),
            unplaceable: Vec::new(),
        };
        let mut placed: Vec<(i64, i64, &HoleKind)> = Vec::new();
        for kind in kinds.iter().filter(|kind| kind.count > 0) {
            match read(kind, full) {
                Ok((reach, wear)) => placed.push((reach, wear, kind)),
                Err(why) => named.unplaceable.push(Unplaceable {
                    id: kind.id,
                    count: kind.count,
                    why,
                }),
            }
        }
        placed.sort_by_key(|(reach, wear, _)| (Reverse(*reach), Reverse(*wear)));
        for alike in placed.chunk_by(|a, b| (a.0, a.1) == (b.0, b.1)) {
            let counts = alike.iter().map(|(.., kind)| u64::from(kind.count));
            named.lot.items.push(Item {
                reach: alike[0].0,
                wear: alike[0].1,
                count: counts.sum(),
            });
            let ids = alike.iter().map(|(.., kind)| (kind.id, kind.count));
            named.ids.push(ids.collect());
        }
        named
    }
}

/// Millimeters as whole steps; none for what is no length.
pub(super) fn steps(length_mm: f64) -> Option<i64> {
    // A NaN is in no range.
    (0.0..=f64::MAX)
        .contains(&length_mm)
        .then(|| libm::round(length_mm.min(LONGEST_MM) * STEPS_PER_MM) as i64)
}

/// Whole steps as millimeters.
pub(super) fn millimeters(steps: i64) -> f64 {
    steps as f64 / STEPS_PER_MM
}

/// Reach and wear of a kind that fits an electrode of the given usable length.
pub(super) fn read(kind: &HoleKind, full: Option<i64>) -> Result<(i64, i64), WhyUnplaceable> {
    let (Some(reach), Some(wear), Some(full)) =
        (steps(kind.reach_mm), steps(kind.consume_mm), full)
    else {
        return Err(WhyUnplaceable::NotALength);
    };
    // A length cut short at the longest taken would read as one that fits.
    let cut = kind.reach_mm > LONGEST_MM || kind.consume_mm > LONGEST_MM;
    if cut || reach + wear > full {
        return Err(WhyUnplaceable::LongerThanElectrode);
    }
    Ok((reach, wear))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A nanometer is a step; lengths are taken up to a thousand kilometers.
    #[test]
    fn lengths_are_whole_steps() {
        let found = [0.0, 1.0, 0.000_000_4, 0.000_000_6, 2.5, 1e9, 1e12];
        let by_hand = [
            0,
            1_000_000,
            0,
            1,
            2_500_000,
            1_000_000_000_000_000,
            1_000_000_000_000_000,
        ];
        assert_eq!(found.map(steps), by_hand.map(Some));
        for none in [-1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(steps(none), None);
        }
        assert_eq!(millimeters(2_500_000), 2.5);
    }

    /// What reaches and wears as much as an electrode has fits, a step more does not; nor does what is cut
    /// short because it is longer than any length taken.
    #[test]
    fn kinds_fit_an_electrode_or_are_told() {
        let read_on = |usable_mm: f64, reach_mm: f64, consume_mm: f64| {
            let kind = HoleKind {
                id: 0,
                reach_mm,
                consume_mm,
                count: 1,
            };
            read(&kind, steps(usable_mm))
        };
        assert_eq!(read_on(10.0, 6.0, 4.0), Ok((6_000_000, 4_000_000)));
        let longer = Err(WhyUnplaceable::LongerThanElectrode);
        assert_eq!(read_on(10.0, 6.0, 4.000_001), longer);
        assert_eq!(read_on(2e9, 1.5e9, 0.0), longer);
        assert_eq!(read_on(2e9, 0.0, 1.5e9), longer);
        for (usable, reach, consume) in
            [(f64::NAN, 1.0, 1.0), (9.0, -1.0, 1.0), (9.0, 1.0, f64::NAN)]
        {
            assert_eq!(
                read_on(usable, reach, consume),
                Err(WhyUnplaceable::NotALength)
            );
        }
    }
}
