//! What a tube's holes ask of electrodes in one part.
//!
//! Electrodes that are used up whole inside a deep hole count as they are; only those that finish
//! holes are shared, and only those are packed. A dressing comes before its hole and a fresh electrode
//! needs none, so it is added to each consumption and once to the usable length: the least that any of
//! the tube's rows asks for, so that no mixture of rows is taken to fit that does not.

use alloc::vec::Vec;

use super::rows::Drilled;
use crate::hole::DrawnHole;
use crate::packing::HoleKind;
use crate::quantity::ROUNDING_MM;
use crate::rollup::TubeUse;

/// What a tube's holes ask of electrodes in one part.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Demand {
    /// Ends that share electrodes, by reach and consumption; ids are the rows' places doubled, plus one
    /// for the far end.
    pub(super) kinds: Vec<HoleKind>,
    /// The same, farthest reach first; empty until [`Demand::sort`].
    falling: Vec<HoleKind>,
    /// Ends drilled, those of them with several electrodes, electrodes used up whole.
    pub(super) part: TubeUse,
}

/// How a row's electrodes are dressed: dressings for each end, and the length each takes [mm].
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Dressing {
    share: f64,
    length_mm: f64,
}

impl Dressing {
    pub(super) const fn of(row: &Drilled, length_mm: f64) -> Self {
        Self {
            share: row.drill.dress_share(),
            length_mm,
        }
    }

    /// Length for one end, on average [mm].
    pub(super) fn each_mm(self) -> f64 {
        self.share * self.length_mm
    }
}

impl Demand {
    /// Adds all holes of a row in one part, by the row's place among the tube's.
    pub(super) fn add(&mut self, row: usize, holes: u32, hole: &DrawnHole, dressing: Dressing) {
        for (far, stage) in (0..).zip(hole.stages.iter().flatten()) {
            self.kinds.push(HoleKind {
                id: u32::try_from(row * 2).unwrap_or(u32::MAX - 1) + far,
                reach_mm: stage.target_mm,
                consume_mm: stage.wear_mm + dressing.each_mm(),
                count: holes,
            });
            let holes = u64::from(holes);
            let least = if self.part.ends == 0 {
                dressing.share
            } else {
                self.part.fresh_undressed.min(dressing.share)
            };
            self.part.fresh_undressed = least;
            self.part.dressed += holes as f64 * dressing.share;
            self.part.ends += holes;
            self.part.chained += if stage.whole > 0 { holes } else { 0 };
            self.part.whole += holes * u64::from(stage.whole);
        }
    }

    /// Takes everything out again, to be used anew.
    pub(super) fn clear(&mut self) {
        self.kinds.clear();
        self.falling.clear();
        self.part = TubeUse::default();
    }

    /// Sorts once what every quantity of the lot asks for in falling reach.
    pub(super) fn sort(&mut self) {
        self.falling.clone_from(&self.kinds);
        self.falling.sort_unstable_by(falling);
    }

    /// Kinds with their numbers in the lot.
    pub(super) fn in_lot(&self, parts: u32) -> Vec<HoleKind> {
        let in_lot = |kind: &HoleKind| HoleKind {
            count: kind.count.saturating_mul(parts),
            ..*kind
        };
        self.kinds.iter().map(in_lot).collect()
    }

    /// Electrodes that no plan goes below, found without a search.
    ///
    /// For each reach q, what is consumed by ends that reach at least q must fit into U - q of each
    /// electrode; and ends alike take one electrode for every so many that fit.
    pub(super) fn at_least(&self, usable_mm: f64, parts: u32) -> u64 {
        if self.falling.len() == self.kinds.len() {
            return bound(&self.falling, usable_mm, parts);
        }
        let mut sorted = self.kinds.clone();
        sorted.sort_unstable_by(falling);
        bound(&sorted, usable_mm, parts)
    }

    /// The same where the farthest reach was added first.
    pub(super) fn at_least_sorted(&self, usable_mm: f64, parts: u32) -> u64 {
        bound(&self.kinds, usable_mm, parts)
    }

    /// Uses in the lot with so many shared electrodes.
    pub(super) fn used(&self, parts: u32, shared: u64) -> TubeUse {
        let parts = u64::from(parts);
        TubeUse {
            ends: self.part.ends * parts,
            chained: self.part.chained * parts,
            whole: self.part.whole * parts,
            shared,
            dressed: self.part.dressed * parts as f64,
            fresh_undressed: self.part.fresh_undressed,
        }
    }
}

/// Shared electrodes that no plan goes below, of kinds in falling reach.
fn bound(kinds: &[HoleKind], usable_mm: f64, parts: u32) -> u64 {
    let parts = f64::from(parts);
    let (mut load, mut most, mut apart) = (0.0, 0.0_f64, 0.0);
    for kind in kinds {
        let room = usable_mm - kind.reach_mm;
        let count = f64::from(kind.count) * parts;
        if kind.consume_mm > room + ROUNDING_MM {
            // It fits nowhere, so it is given an electrode of its own to spoil.
            apart += count;
            continue;
        }
        load += count * kind.consume_mm;
        let each = libm::floor((room + ROUNDING_MM) / kind.consume_mm.max(ROUNDING_MM));
        most = most
            .max((load - ROUNDING_MM) / room.max(ROUNDING_MM))
            .max(count / each);
    }
    (libm::ceil(most) + apart) as u64
}

fn falling(a: &HoleKind, b: &HoleKind) -> core::cmp::Ordering {
    b.reach_mm.total_cmp(&a.reach_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn kind(reach_mm: f64, consume_mm: f64, count: u32) -> HoleKind {
        HoleKind {
            id: 0,
            reach_mm,
            consume_mm,
            count,
        }
    }

    /// Free length reach + consumption starts a hole, and consumption is gone after it.
    #[test]
    fn the_load_of_each_reach_goes_into_its_room() {
        // 8 holes of 100 mm consumption, 2 to each 250 mm: 4 electrodes, where 800 / 250 asks for 3.2.
        assert_eq!(bound(&[kind(0.0, 100.0, 8)], 250.0, 1), 4);
        // 7 of 80 mm, 3 to each 250: by their number 2.33, by their length 560 / 250 = 2.24.
        assert_eq!(bound(&[kind(0.0, 80.0, 7)], 250.0, 1), 3);
        // The same in five parts: 35 / 3 = 11.67, 2800 / 250 = 11.2.
        assert_eq!(bound(&[kind(0.0, 80.0, 7)], 250.0, 5), 12);
        // Far ones leave room for near ones: (4 x 60) / 100 = 2.4, one to each 100, and in all
        // (240 + 3 x 150) / 300 = 2.3, two to each 300: the far ones alone ask for 4.
        let mixed = [kind(200.0, 60.0, 4), kind(0.0, 150.0, 3)];
        assert_eq!(bound(&mixed, 300.0, 1), 4);
        // With more near ones all together ask for more: (240 + 9 x 150) / 300 = 5.3.
        let mixed = [kind(200.0, 60.0, 4), kind(0.0, 150.0, 9)];
        assert_eq!(bound(&mixed, 300.0, 1), 6);
    }

    /// What fits nowhere spoils an electrode each, beside what the others share.
    #[test]
    fn what_fits_nowhere_takes_an_electrode_each() {
        // 250 + 60 and 260 + 70 are beyond 300; the rest takes 2 (6 of 80 mm, 3 to each 300).
        let kinds = [
            kind(260.0, 70.0, 2),
            kind(250.0, 60.0, 3),
            kind(0.0, 80.0, 6),
        ];
        assert_eq!(bound(&kinds, 300.0, 1), 5 + 2);
        assert_eq!(bound(&kinds, 300.0, 10), 50 + 20);
    }

    /// Less than a nanometer is taken for binary fractions, more is not.
    #[test]
    fn lengths_within_a_nanometer_are_equal() {
        // One hole of 97 + 3 mm, then one of 97: both go on 100 mm.
        let both = |more_mm| {
            bound(
                &[kind(97.0, 3.0 + more_mm, 1), kind(0.0, 97.0, 1)],
                100.0,
                1,
            )
        };
        assert_eq!([both(0.0), both(5e-7), both(2e-6)], [1, 1, 2]);
        // Three holes of 100 mm on 300.
        let three = |more_mm| bound(&[kind(0.0, 100.0 + more_mm, 3)], 300.0, 1);
        assert_eq!([three(0.0), three(2e-7), three(1e-6)], [1, 1, 2]);
    }
}
