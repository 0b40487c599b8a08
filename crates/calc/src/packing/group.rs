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
