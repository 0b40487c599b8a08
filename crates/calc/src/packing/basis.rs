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
