//! The lot as the searches see it: whole numbers, falling reach, kinds alike merged.

use alloc::vec::Vec;

use super::{Electrode, Kind, Unplaceable, WhyUnplaceable};

/// Steps per millimeter. A nanometer is far below anything a shop can measure.
const STEPS_PER_MM: f64 = 1e6;
/// Longest length taken [mm]; keeps sums of steps inside 64 bits.
const LONGEST_MM: f64 = 1e9;

/// Holes of equal reach and wear, whatever kind they came from.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) reach: i64,
    pub(super) wear: i64,
    pub(super) count: u64,
    /// Kinds the holes came from, with their numbers.
    pub(super) ids: Vec<(u32, u32)>,
}

/// A lot whose every hole fits a new electrode.
#[derive(Clone, Debug)]
pub(super) struct Lot {
    /// By falling reach, then falling wear: the index order is the drilling order.
    pub(super) items: Vec<Item>,
    pub(super) full: i64,
    pub(super) part: Option<i64>,
}

impl Lot {
    /// Reads the caller's kinds; what cannot be placed is told apart.
    pub(super) fn new(kinds: &[Kind], electrode: &Electrode) -> (Self, Vec<Unplaceable>) {
        let mut lot = Lot {
            items: Vec::new(),
            full: 0,
            part: None,
        };
        let full = steps(electrode.usable_mm);
        lot.full = full.unwrap_or(0);
        lot.part = electrode
            .part_used_mm
            .and_then(steps)
            .map(|part| part.min(lot.full));
        let mut unplaceable = Vec::new();
        for kind in kinds.iter().filter(|kind| kind.count > 0) {
            match read(kind, full) {
                Ok((reach, wear)) => lot.items.push(Item {
                    reach,
                    wear,
                    count: u64::from(kind.count),
                    ids: alloc::vec![(kind.id, kind.count)],
                }),
                Err(why) => unplaceable.push(Unplaceable {
                    id: kind.id,
                    count: kind.count,
                    why,
                }),
            }
        }
        lot.merge();
        (lot, unplaceable)
    }

    /// Puts items in drilling order and joins those alike. The sort is stable, so ids keep the
    /// caller's order.
    fn merge(&mut self) {
        self.items.sort_by_key(|item| {
            (
                core::cmp::Reverse(item.reach),
                core::cmp::Reverse(item.wear),
            )
        });
        self.items.dedup_by(|later, kept| {
            let alike = (later.reach, later.wear) == (kept.reach, kept.wear);
            if alike {
                kept.count += later.count;
                kept.ids.append(&mut later.ids);
            }
            alike
        });
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
pub(super) fn read(kind: &Kind, full: Option<i64>) -> Result<(i64, i64), WhyUnplaceable> {
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
