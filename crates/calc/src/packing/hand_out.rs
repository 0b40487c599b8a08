//! From items back to the caller's kinds.

use alloc::vec::Vec;

use super::{group::Group, lot::millimeters, terms::Fill};

/// Gives each group's holes the ids of the kinds they came from.
///
/// Kinds alike were merged, so a group may have to be told as several fills: as long as one kind
/// can serve all electrodes of the group it does, and only where it runs out an electrode gets
/// holes of two kinds.
pub(super) fn hand_out(ids: &[Vec<(u32, u32)>], groups: &[Group]) -> Vec<Fill> {
    let mut stores: Vec<Store> = ids.iter().map(|ids| Store::new(ids)).collect();
    let mut fills = Vec::new();
    for group in groups {
        let mut left = group.times;
        while left > 0 {
            let alike = group
                .holes
                .iter()
                .map(|&(item, number)| stores[item].front() / number);
            let times = alike.min().unwrap_or(left).clamp(1, left);
            let mut holes = Vec::new();
            for &(item, number) in &group.holes {
                stores[item].take(number, times, &mut holes);
            }
            fills.push(Fill {
                times,
                part_used: group.part_used,
                holes,
                remnant_mm: millimeters(group.remnant()),
            });
            left -= times;
        }
    }
    fills
}

/// What is left of an item, kind by kind.
struct Store<'a> {
    ids: &'a [(u32, u32)],
    taken: u64,
}

impl<'a> Store<'a> {
    fn new(ids: &'a [(u32, u32)]) -> Self {
        Store { ids, taken: 0 }
    }

    /// Holes left of the kind that is handed out now.
    fn front(&self) -> u64 {
        self.ids
            .first()
            .map_or(0, |&(_, count)| u64::from(count) - self.taken)
    }

    /// Takes `number` holes for each of `times` electrodes and tells one electrode's share.
    ///
    /// More than one electrode is only asked for when the front kind has enough for all.
    fn take(&mut self, number: u64, times: u64, holes: &mut Vec<(u32, u32)>) {
        let mut left = number;
        while let (Some(&(id, _)), true) = (self.ids.first(), left > 0) {
            let each = self.front().min(left);
            // No larger than a kind's count, which is 32 bits wide.
            holes.push((id, each as u32));
            self.taken += each * times;
            left -= each;
            if self.front() == 0 {
                self.ids = &self.ids[1..];
                self.taken = 0;
            }
        }
    }
}
