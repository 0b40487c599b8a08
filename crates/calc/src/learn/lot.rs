//! The figures of one lot, with what is the lot's own summed away.

use alloc::vec;
use alloc::vec::Vec;

use super::fit::inverse;
use super::gaussian::{Gaussian, Information, Sum};
use super::told::{Near, OwnOfLot, Told, What};

/// The figures of one lot, as sums of the few unknowns that they speak of.
pub(super) struct Lot {
    /// Which unknowns, in their order.
    columns: Vec<usize>,
    /// Their sums go by the place among those.
    pub(super) told: Vec<Told>,
}

impl Lot {
    pub(super) fn new(mut told: Vec<Told>) -> Self {
        let mut columns: Vec<usize> = (told.iter().flat_map(|told| told.what.sums()))
            .flat_map(|sum| sum.iter().map(|(at, _)| *at))
            .collect();
        columns.sort_unstable();
        columns.dedup();
        let local = |sum: &mut Sum| {
            for (at, _) in sum.iter_mut() {
                *at = columns.partition_point(|column| column < at);
            }
            sum.sort_unstable_by_key(|(at, _)| *at);
        };
        for told in &mut told {
            match &mut told.what {
                What::Factor { sum, .. } => local(sum),
                What::Floor { sums, .. } => sums.iter_mut().for_each(local),
            }
        }
        Self { columns, told }
    }

    /// The lot's few of all means.
    fn of_all(&self, means: &[f64]) -> Vec<f64> {
        self.columns.iter().map(|column| means[*column]).collect()
    }
}

/// A lot in a round of weighing.
pub(super) struct LotNow<'a> {
    lot: &'a Lot,
    near: Vec<Near<'a>>,
    /// One over each figure's variance, with its weight.
    precisions: Vec<f64>,
    /// Covariance of what is the lot's own, once the unknowns are known.
    own_covariance: [[f64; 4]; 4],
    /// For each part of the lot's own: the sum of its figures, weighed, over the lot's columns.
    parts: [Vec<f64>; 4],
    /// The same of their values.
    values: OwnOfLot,
}

impl<'a> LotNow<'a> {
    pub(super) fn new(
        lot: &'a Lot,
        means: &[f64],
        own: &OwnOfLot,
        weights: &[f64],
        own_prior: &[[f64; 4]; 4],
    ) -> Option<Self> {
        let means = lot.of_all(means);
        let near: Vec<Near<'a>> = (lot.told.iter())
            .map(|told| told.what.near(&means, own))
            .collect();
        let precisions: Vec<f64> = (lot.told.iter().zip(weights))
            .map(|(told, weight)| weight / told.variance)
            .collect();
        let mut own_precision = *own_prior;
        let mut parts: [Vec<f64>; 4] = Default::default();
        let mut values = OwnOfLot::default();
        for (near, precision) in near.iter().zip(&precisions) {
            for (row, a) in near.own.iter().enumerate() {
                let weighed = precision * a;
                if weighed == 0.0 {
                    continue;
                }
                for (column, b) in near.own.iter().enumerate() {
                    own_precision[row][column] += weighed * b;
                }
                let part = &mut parts[row];
                part.resize(lot.columns.len(), 0.0);
                for (at, times) in near.sum.iter() {
                    part[*at] += weighed * times;
                }
                values[row] += weighed * near.value;
            }
        }
        Some(Self {
            lot,
            near,
            precisions,
            own_covariance: inverse(&own_precision)?,
            parts,
            values,
        })
    }

    /// Tells what the figures say of the unknowns.
    pub(super) fn tell(&self, information: &mut Information) {
        let size = self.lot.columns.len();
        let mut precision = vec![0.0; size * size];
        let mut shift = vec![0.0; size];
        for (near, weight) in self.near.iter().zip(&self.precisions) {
            for (at, (one, times)) in near.sum.iter().enumerate() {
                let weighed = weight * times;
                shift[*one] += weighed * near.value;
                let row = &mut precision[one * size..=one * size + one];
                // In their order, so that these are those on and below the diagonal.
                for (other, also) in &near.sum[..=at] {
                    row[*other] += weighed * also;
                }
            }
        }
        // What the lot's own may explain is not told of the unknowns.
        for (part, covariances) in self.parts.iter().zip(&self.own_covariance) {
            if part.is_empty() {
                continue;
            }
            let explained = product(covariances, &self.values);
            let mut mixed = vec![0.0; size];
            for (other, covariance) in self.parts.iter().zip(covariances) {
                for (sum, times) in mixed.iter_mut().zip(other) {
                    *sum += covariance * times;
                }
            }
            for (at, times) in part.iter().enumerate() {
                shift[at] -= times * explained;
                let row = &mut precision[at * size..=at * size + at];
                for (sum, also) in row.iter_mut().zip(&mixed) {
                    *sum -= times * also;
                }
            }
        }
        information.add_all(&self.lot.columns, &precision, &shift);
    }

    /// What is the lot's own, as likely as it gets.
    pub(super) fn own(&self, means: &[f64]) -> OwnOfLot {
        let means = self.lot.of_all(means);
        let left = core::array::from_fn(|part| {
            let explained = self.parts[part].iter().zip(&means).map(|(a, b)| a * b);
            self.values[part] - explained.sum::<f64>()
        });
        core::array::from_fn(|row| product(&self.own_covariance[row], &left))
    }

    /// How many deviations each figure is from what is expected of it.
    pub(super) fn errors(&self, means: &[f64], own: &OwnOfLot) -> impl Iterator<Item = f64> {
        let means = self.lot.of_all(means);
        let figures = self.lot.told.iter().zip(&self.near);
        figures.map(move |(told, near)| {
            let expected: f64 = near.sum.iter().map(|(at, times)| times * means[*at]).sum();
            let error = near.value - expected - product(&near.own, own);
            error / libm::sqrt(told.variance)
        })
    }

    /// Squares of what is the lot's own in deviations, as they are expected, of burn and wear on
    /// average.
    pub(super) fn squares(
        &self,
        known: &Gaussian,
        own: &OwnOfLot,
        own_prior: &[[f64; 4]; 4],
    ) -> f64 {
        let columns = &self.lot.columns;
        let of_parts: [[f64; 4]; 4] = core::array::from_fn(|one| {
            let mixed = known.times(columns, &self.parts[one]);
            core::array::from_fn(|other| {
                let both = mixed.iter().zip(&self.parts[other]);
                both.map(|(a, b)| a * b).sum()
            })
        });
        let mut all = 0.0;
        for row in 0..2 {
            for column in 0..2 {
                let mut expected = own[row] * own[column] + self.own_covariance[row][column];
                for (a, of_part) in self.own_covariance[row].iter().zip(&of_parts) {
                    expected += a * product(&self.own_covariance[column], of_part);
                }
                all += own_prior[row][column] * expected;
            }
        }
        all / 2.0
    }
}

fn product(one: &[f64; 4], other: &[f64; 4]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}
