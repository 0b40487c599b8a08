//! From fractions of electrodes to whole ones: the whole part of each pattern is kept, the rest is
//! a small lot.

use alloc::vec::Vec;

use super::{columns::Columns, group::Group, lot::Lot};

/// Groups for the whole parts, and the lot of holes left over (same items, smaller numbers).
pub(super) fn keep_whole(lot: &Lot, columns: &Columns) -> (Vec<Group>, Lot) {
    let mut rest = lot.clone();
    let mut groups = Vec::new();
    for (pattern, amount) in &columns.patterns {
        let whole = pattern
            .iter()
            .zip(&rest.items)
            .filter(|&(&number, _)| number > 0)
            .map(|(&number, item)| item.count / number)
            // A hair below a whole number is the simplex's rounding.
            .fold((amount + 1e-6) as u64, u64::min);
        if whole == 0 {
            continue;
        }
        let mut group = Group::empty(whole, lot);
        for (item, &number) in pattern
            .iter()
            .enumerate()
            .filter(|&(_, &number)| number > 0)
        {
            group.add(item, number, lot);
        }
        for (item, number) in rest.items.iter_mut().zip(pattern) {
            item.count -= number * whole;
        }
        groups.push(group);
    }
    (groups, rest)
}
