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

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;

    /// 4.6 electrodes with one of each, 3.2 with two of the second: 4 and 3 whole ones are kept, and one
    /// hole of the first and two of the second are left of 5 and 12.
    #[test]
    fn whole_ones_are_kept_and_the_rest_is_a_lot() {
        let lot = lot(10, None, &[(0, 6, 5), (0, 4, 12)]);
        let columns = |patterns| Columns {
            at_least: 0,
            patterns,
        };
        let (groups, rest) = keep_whole(
            &lot,
            &columns(alloc::vec![
                (alloc::vec![1, 1], 4.6),
                (alloc::vec![0, 2], 3.2),
                (alloc::vec![1, 0], 0.4),
            ]),
        );
        let kept: Vec<_> = groups
            .iter()
            .map(|group| (group.times, group.used, group.holes.clone()))
            .collect();
        assert_eq!(
            kept,
            [
                (4, 10, alloc::vec![(0, 1), (1, 1)]),
                (3, 8, alloc::vec![(1, 2)]),
            ]
        );
        assert_eq!(
            rest.items.iter().map(|item| item.count).collect::<Vec<_>>(),
            [1, 2]
        );
        // A hair below a whole number is one; and no more are kept than there are holes for.
        let (groups, rest) = keep_whole(
            &lot,
            &columns(alloc::vec![
                (alloc::vec![1, 1], 2.999_999_9),
                (alloc::vec![1, 0], 7.0),
            ]),
        );
        assert_eq!(
            groups.iter().map(|group| group.times).collect::<Vec<_>>(),
            [3, 2]
        );
        assert_eq!(
            rest.items.iter().map(|item| item.count).collect::<Vec<_>>(),
            [0, 9]
        );
        // Twelve of 4 are six electrodes with two of them, whatever the program says.
        let (groups, rest) = keep_whole(&lot, &columns(alloc::vec![(alloc::vec![0, 2], 9.0)]));
        assert_eq!(
            groups.iter().map(|group| group.times).collect::<Vec<_>>(),
            [6]
        );
        assert_eq!(rest.items[1].count, 0);
    }
}
