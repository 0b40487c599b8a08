//! Lots that the tests of the packing work on.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::lot::{Item, Lot};
use crate::dice::Dice;

/// A lot by reach, wear and number, in drilling order.
pub(super) fn lot(full: i64, part: Option<i64>, items: &[(i64, i64, u64)]) -> Lot {
    let item = |&(reach, wear, count): &(i64, i64, u64)| Item { reach, wear, count };
    Lot {
        items: items.iter().map(item).collect(),
        full,
        part,
    }
}

/// A few kinds of holes on electrodes of 20 to 40 steps, each of which fits.
pub(super) fn strewn(dice: &mut Dice, kinds: usize) -> Lot {
    let full = 20 + dice.below(21) as i64;
    let mut items: Vec<(i64, i64, u64)> = (0..kinds)
        .map(|_| {
            let reach = dice.below(full as usize) as i64;
            let wear = dice.below((full - reach + 1) as usize) as i64;
            (reach, wear, 1 + dice.below(3) as u64)
        })
        .collect();
    items.sort_by_key(|&(reach, wear, _)| (Reverse(reach), Reverse(wear)));
    items.dedup_by_key(|item| (item.0, item.1));
    lot(full, None, &items)
}

/// Whether so many of each item go on one electrode: drilled farthest first, each still reaches.
pub(super) fn fits(lot: &Lot, usable: i64, numbers: &[u64]) -> bool {
    let mut free = usable;
    lot.items.iter().zip(numbers).all(|(item, &number)| {
        (0..number).all(|_| {
            let reaches = item.reach + item.wear <= free;
            free -= item.wear;
            reaches
        })
    })
}

/// All sets of the lot's holes, by numbers of each item.
pub(super) fn sets(lot: &Lot) -> Vec<Vec<u64>> {
    let mut sets = alloc::vec![Vec::new()];
    for item in &lot.items {
        let longer = |set: &Vec<u64>| {
            let set = set.clone();
            (0..=item.count).map(move |number| {
                let mut longer = set.clone();
                longer.push(number);
                longer
            })
        };
        sets = sets.iter().flat_map(longer).collect();
    }
    sets
}
