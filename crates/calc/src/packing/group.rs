//! Electrodes filled alike, kept as one with their number.

use alloc::vec::Vec;

use super::lot::Lot;

/// So many electrodes with the same holes on each.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Group {
    pub(super) times: u64,
    pub(super) part_used: bool,
    pub(super) usable: i64,
    pub(super) used: i64,
    /// Item and number on each electrode, in drilling order.
    pub(super) holes: Vec<(usize, u64)>,
}

impl Group {
    /// New electrodes without a hole yet.
    pub(super) fn empty(times: u64, lot: &Lot) -> Self {
        Group {
            times,
            part_used: false,
            usable: lot.full,
            used: 0,
            holes: Vec::new(),
        }
    }

    /// The part-used electrode, if the lot has one.
    pub(super) fn part_used(lot: &Lot) -> Option<Self> {
        let usable = lot.part?;
        Some(Group {
            part_used: true,
            usable,
            ..Group::empty(1, lot)
        })
    }

    /// New electrodes in the group.
    pub(super) fn new_electrodes(&self) -> u64 {
        if self.part_used { 0 } else { self.times }
    }

    /// Length left on each.
    pub(super) fn remnant(&self) -> i64 {
        self.usable - self.used
    }

    /// How many holes of an item each electrode could still take: the nested check.
    pub(super) fn room_for(&self, item: usize, lot: &Lot) -> u64 {
        let hole = &lot.items[item];
        let mut deeper = 0;
        let mut load = 0;
        let mut spare = i64::MAX;
        for &(other, number) in &self.holes {
            let other = &lot.items[other];
            load += other.wear * number as i64;
            if other.reach >= hole.reach {
                deeper = load;
            } else {
                spare = spare.min(self.usable - other.reach - load);
            }
        }
        spare = spare.min(self.usable - hole.reach - deeper);
        match (spare < 0, hole.wear) {
            (true, _) => 0,
            (false, 0) => hole.count,
            (false, wear) => hole.count.min((spare / wear) as u64),
        }
    }

    /// Puts holes of an item on each electrode; the caller has asked for room.
    pub(super) fn add(&mut self, item: usize, number: u64, lot: &Lot) {
        self.used += lot.items[item].wear * number as i64;
        match self.holes.binary_search_by_key(&item, |&(other, _)| other) {
            Ok(at) => self.holes[at].1 += number,
            Err(at) => self.holes.insert(at, (item, number)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::{fits, lot, strewn};
    use super::*;
    use crate::dice::Dice;

    /// As many as fit beside what is on it, by trying one more at a time.
    #[test]
    fn room_is_for_as_many_as_fit() {
        let mut dice = Dice::new(31);
        for round in 0..300 {
            let lot = strewn(&mut dice, 1 + round % 6);
            let mut group = Group::empty(1, &lot);
            let mut numbers = alloc::vec![0; lot.items.len()];
            for _ in 0..6 {
                let item = dice.below(lot.items.len());
                let room = group.room_for(item, &lot);
                let with = |more: u64| {
                    let mut numbers = numbers.clone();
                    numbers[item] += more;
                    fits(&lot, lot.full, &numbers)
                };
                let most = (0..=lot.items[item].count).rev().find(|&more| with(more));
                assert_eq!(Some(room), most, "{item} beside {numbers:?} on {lot:?}");
                if room > 0 {
                    group.add(item, 1, &lot);
                    numbers[item] += 1;
                }
                let worn: i64 = lot
                    .items
                    .iter()
                    .zip(&numbers)
                    .map(|(item, &number)| item.wear * number as i64)
                    .sum();
                assert_eq!((group.used, group.remnant()), (worn, lot.full - worn));
                let held = numbers
                    .iter()
                    .copied()
                    .enumerate()
                    .filter(|&(_, number)| number > 0);
                assert!(held.eq(group.holes.iter().copied()));
            }
        }
    }

    /// A part-used electrode is as long as it is and counts as none.
    #[test]
    fn a_part_used_electrode_is_not_counted() {
        let lot = lot(30, Some(12), &[(5, 6, 3)]);
        let Some(part) = Group::part_used(&lot) else {
            panic!("there is one");
        };
        assert_eq!(
            (
                part.new_electrodes(),
                part.remnant(),
                part.room_for(0, &lot)
            ),
            (0, 12, 1)
        );
        let new = Group::empty(4, &lot);
        assert_eq!(
            (new.new_electrodes(), new.remnant(), new.room_for(0, &lot)),
            (4, 30, 3)
        );
    }
}
