//! The linear program over all patterns, by column generation (Gilmore and Gomory 1961 «memory»).

use alloc::vec::Vec;

use super::{grid::Grid, lot::Lot, pattern::most_valuable};

/// Items up to which the program is run; a pivot costs their square.
const MOST_ITEMS: usize = 250;
/// A dual of 1 as a whole number.
const ONE: i64 = 1 << 30;
/// Gain below which a new column is not worth a pivot.
const GAIN: i64 = ONE / 1_000_000;
/// Smallest entry to pivot on.
const PIVOT: f64 = 1e-9;

/// What the program tells.
pub(super) struct Columns {
    /// No plan takes fewer new electrodes.
    pub(super) at_least: u64,
    /// Patterns of the last basis with how often each is used: holes per item, a fraction of
    /// electrodes.
    pub(super) patterns: Vec<(Vec<u64>, f64)>,
}

/// Runs at most `budget` columns, and ends early when the bound reaches `enough`.
///
/// The bound is Farley's 1990 «memory»: for any values of holes, total value / value of the best
/// pattern. Both are whole numbers here, so rounding in the simplex can make the bound weaker but
/// never wrong.
pub(super) fn generate(lot: &Lot, budget: u32, enough: u64) -> Columns {
    let mut at_least = 0;
    let grid = Grid::new(lot);
    let Some(mut basis) = Basis::new(lot, grid) else {
        return Columns {
            at_least,
            patterns: Vec::new(),
        };
    };
    for _ in 0..budget {
        let values = basis.values(lot.items.len());
        let (most, pattern) = most_valuable(lot, grid, lot.full, &values);
        at_least = at_least.max(farley(lot, grid, &values, most));
        if at_least >= enough || most <= ONE + GAIN || !basis.enter(&pattern) {
            break;
        }
    }
    Columns {
        at_least,
        patterns: basis.columns.into_iter().zip(basis.amounts).collect(),
    }
}

/// Total value less what a part-used electrode can take, in units of the best pattern, rounded up.
fn farley(lot: &Lot, grid: Grid, values: &[i64], most: i64) -> u64 {
    if most <= 0 {
        return 0;
    }
    let part = lot
        .part
        .map_or(0, |part| most_valuable(lot, grid, part, values).0);
    let total = lot.items.iter().zip(values);
    let total: i128 = total
        .map(|(item, &value)| i128::from(item.count) * i128::from(value))
        .sum();
    let most = i128::from(most);
    ((total - i128::from(part)).max(0) + most - 1).div_euclid(most) as u64
}

/// A simplex basis with its explicit inverse; one row for each item in the program.
struct Basis {
    rows: Vec<usize>,
    /// Holes per item of the lot.
    columns: Vec<Vec<u64>>,
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
}

impl Basis {
    /// As many holes of one item on an electrode as fit; none if the lot is too varied or has
    /// nothing to divide.
    fn new(lot: &Lot, grid: Grid) -> Option<Self> {
        let rows: Vec<usize> = (0..lot.items.len())
            .filter(|&item| grid.down(lot.items[item].wear) > 0)
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
    fn values(&self, items: usize) -> Vec<i64> {
        let mut values = alloc::vec![0; items];
        for (row, &item) in self.rows.iter().enumerate() {
            let dual: f64 = self.inverse.iter().map(|line| line[row]).sum();
            // No hole is worth more than an electrode of its own.
            values[item] = (dual.clamp(0.0, 1.0) * ONE as f64) as i64;
        }
        values
    }

    /// Takes a pattern into the basis; false if no column gives way.
    fn enter(&mut self, pattern: &[u64]) -> bool {
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
