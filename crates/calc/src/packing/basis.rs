//! A simplex basis over patterns.

use alloc::vec::Vec;

use super::{
    group::Group,
    lot::Lot,
    worth::{ONE, worth},
};

/// Items up to which the program is run; a pivot costs their square.
const MOST_ITEMS: usize = 250;
/// Smallest entry to pivot on.
const PIVOT: f64 = 1e-9;

/// A simplex basis with its explicit inverse; one row for each item in the program.
pub(super) struct Basis {
    rows: Vec<usize>,
    /// Holes per item of the lot.
    columns: Vec<Vec<u64>>,
    /// One line for each column, one entry for each row.
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
}

impl Basis {
    /// As many holes of one item on an electrode as fit; none if the lot is too varied or has
    /// nothing to divide.
    pub(super) fn new(lot: &Lot) -> Option<Self> {
        let rows: Vec<usize> = (0..lot.items.len())
            .filter(|&item| lot.items[item].wear > 0)
            .collect();
        if rows.is_empty() || rows.len() > MOST_ITEMS {
            return None;
        }
        let mut basis = Basis {
            rows,
            columns: Vec::new(),
            inverse: Vec::new(),
            amounts: Vec::new(),
        };
        for (row, &item) in basis.rows.iter().enumerate() {
            let hole = &lot.items[item];
            let each = hole.count.min(((lot.full - hole.reach) / hole.wear) as u64);
            let mut column = alloc::vec![0; lot.items.len()];
            column[item] = each;
            basis.columns.push(column);
            let mut inverse = alloc::vec![0.0; basis.rows.len()];
            inverse[row] = 1.0 / each as f64;
            basis.inverse.push(inverse);
            basis.amounts.push(hole.count as f64 / each as f64);
        }
        Some(basis)
    }

    /// The dual of each item of the lot as a whole number; a dual below zero is as good as none,
    /// since a pattern may always leave holes out.
    pub(super) fn values(&self, items: usize) -> Vec<i64> {
        let mut values = alloc::vec![0; items];
        for (row, &item) in self.rows.iter().enumerate() {
            let dual: f64 = self.inverse.iter().map(|line| line[row]).sum();
            // No hole is worth more than an electrode of its own.
            values[item] = (dual.clamp(0.0, 1.0) * ONE as f64) as i64;
        }
        values
    }

    /// The patterns with how often each is used.
    pub(super) fn amounts(self) -> Vec<(Vec<u64>, f64)> {
        self.columns.into_iter().zip(self.amounts).collect()
    }

    /// The most any of the patterns is worth.
    pub(super) fn best_value(&self, values: &[i64]) -> i64 {
        let worths = self.columns.iter().map(|column| worth(column, values));
        worths.max().unwrap_or(0)
    }

    /// Takes the patterns of a plan into the basis.
    pub(super) fn enter_plan(&mut self, lot: &Lot, plan: &[Group]) {
        for group in plan.iter().filter(|group| !group.part_used) {
            let mut pattern = alloc::vec![0; lot.items.len()];
            for &(item, number) in &group.holes {
                pattern[item] = number;
            }
            self.enter(&pattern);
        }
    }

    /// Takes a pattern into the basis; false if no column gives way.
    pub(super) fn enter(&mut self, pattern: &[u64]) -> bool {
        let entries = |line: &Vec<f64>| -> f64 {
            let pairs = line.iter().zip(&self.rows);
            pairs
                .map(|(entry, &item)| entry * pattern[item] as f64)
                .sum()
        };
        let direction: Vec<f64> = self.inverse.iter().map(entries).collect();
        let leaving = (0..direction.len())
            .filter(|&row| direction[row] > PIVOT)
            .min_by(|&left, &right| {
                let ratio = |row: usize| self.amounts[row].max(0.0) / direction[row];
                // Of equal ratios the larger pivot, for the sake of the inverse.
                (ratio(left).total_cmp(&ratio(right)))
                    .then(direction[right].total_cmp(&direction[left]))
            });
        let Some(leaving) = leaving else {
            return false;
        };
        let pivot = direction[leaving];
        let step = self.amounts[leaving].max(0.0) / pivot;
        let line: Vec<f64> = self.inverse[leaving]
            .iter()
            .map(|entry| entry / pivot)
            .collect();
        for (row, &share) in direction.iter().enumerate() {
            if row != leaving && share != 0.0 {
                self.amounts[row] -= share * step;
                for (entry, &taken) in self.inverse[row].iter_mut().zip(&line) {
                    *entry -= share * taken;
                }
            }
        }
        self.inverse[leaving] = line;
        self.amounts[leaving] = step;
        self.columns[leaving] = pattern.to_vec();
        true
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;

    /// The duals as shares of an electrode.
    fn duals(basis: &Basis, items: usize) -> Vec<f64> {
        let values = basis.values(items);
        values
            .into_iter()
            .map(|value| value as f64 / ONE as f64)
            .collect()
    }

    #[track_caller]
    fn near(found: &[f64], by_hand: &[f64]) {
        let close = found.iter().zip(by_hand).all(|(a, b)| (a - b).abs() < 1e-8);
        assert!(
            found.len() == by_hand.len() && close,
            "{found:?}, by hand {by_hand:?}"
        );
    }

    /// Four holes of 6 and six of 4 on electrodes of 10, beside one that wears nothing. By themselves 4
    /// electrodes with one of 6, 3 with two of 4. One of each takes the place of the first: 4 with one of
    /// each, 1 with two of 4; then a hole is worth half an electrode.
    #[test]
    fn one_of_each_comes_in() {
        let lot = lot(10, None, &[(0, 6, 4), (0, 4, 6), (0, 0, 9)]);
        let mut basis = Basis::new(&lot).unwrap_or_else(|| panic!("there is wear"));
        near(&basis.amounts, &[4.0, 3.0]);
        near(&duals(&basis, 3), &[1.0, 0.5, 0.0]);
        assert!(basis.enter(&[1, 1, 0]));
        near(&basis.amounts, &[4.0, 1.0]);
        near(&duals(&basis, 3), &[0.5, 0.5, 0.0]);
        assert_eq!(basis.columns, [[1, 1, 0], [0, 2, 0]]);
        assert_eq!(basis.best_value(&[7, 4, 100]), 11);
        // Nothing gives way to a set of no holes.
        assert!(!basis.enter(&[0, 0, 5]));
        near(&basis.amounts, &[4.0, 1.0]);
        let amounts: Vec<f64> = basis
            .amounts()
            .into_iter()
            .map(|(_, amount)| amount)
            .collect();
        near(&amounts, &[4.0, 1.0]);
    }

    /// Reach counts too, and no more holes than there are: 9 of wear 3 beyond 1 of 10, five of wear 2 of
    /// which two fit beyond 6, and one of wear 1 that is the only one.
    #[test]
    fn as_many_as_fit_and_as_there_are() {
        let lot = lot(10, None, &[(6, 2, 5), (1, 3, 9), (0, 1, 1)]);
        let basis = Basis::new(&lot).unwrap_or_else(|| panic!("there is wear"));
        assert_eq!(basis.columns, [[2, 0, 0], [0, 3, 0], [0, 0, 1]]);
        near(&basis.amounts, &[2.5, 3.0, 1.0]);
        near(&duals(&basis, 3), &[0.5, 1.0 / 3.0, 1.0]);
    }

    /// Three kinds and three pivots; amounts and duals solve both programs by substitution: every item is
    /// drilled as often as it is asked for, and every set in the basis is worth one.
    #[test]
    fn amounts_and_duals_solve_the_program() {
        let lot = lot(100, None, &[(0, 55, 20), (0, 35, 30), (0, 30, 40)]);
        let mut basis = Basis::new(&lot).unwrap_or_else(|| panic!("there is wear"));
        for pattern in [[1, 1, 0], [0, 2, 1], [1, 0, 1], [0, 1, 2]] {
            assert!(basis.enter(&pattern));
            let drilled = |item: usize| -> f64 {
                let sets = basis.columns.iter().zip(&basis.amounts);
                sets.map(|(set, amount)| set[item] as f64 * amount).sum()
            };
            near(&[0, 1, 2].map(drilled), &[20.0, 30.0, 40.0]);
            assert!(basis.amounts.iter().all(|&amount| amount >= -1e-9));
            for (at, set) in basis.columns.iter().enumerate() {
                for (with, line) in basis.inverse.iter().enumerate() {
                    let entry: f64 = set
                        .iter()
                        .zip(line)
                        .map(|(&number, entry)| number as f64 * entry)
                        .sum();
                    assert!((entry - f64::from(u8::from(at == with))).abs() < 1e-9);
                }
            }
        }
    }

    /// Sets of a plan come in, but for those of the part-used electrode, which is not counted.
    #[test]
    fn a_plan_comes_in() {
        let lot = lot(10, Some(9), &[(0, 6, 4), (0, 4, 6)]);
        let mut basis = Basis::new(&lot).unwrap_or_else(|| panic!("there is wear"));
        let group = |part_used, holes| Group {
            times: 1,
            part_used,
            usable: 10,
            used: 10,
            holes,
        };
        basis.enter_plan(
            &lot,
            &[
                group(true, alloc::vec![(0, 1)]),
                group(false, alloc::vec![(0, 1), (1, 1)]),
            ],
        );
        assert_eq!(basis.columns, [[1, 1], [0, 2]]);
        near(&basis.amounts, &[4.0, 1.0]);
    }

    #[test]
    fn nothing_to_divide_makes_no_program() {
        assert!(Basis::new(&lot(10, None, &[(5, 0, 3)])).is_none());
        assert!(Basis::new(&lot(10, None, &[])).is_none());
        let many: Vec<(i64, i64, u64)> = (1..=251).rev().map(|wear| (0, wear, 1)).collect();
        assert!(Basis::new(&lot(1000, None, &many)).is_none());
        assert!(Basis::new(&lot(1000, None, &many[1..])).is_some());
    }
}
