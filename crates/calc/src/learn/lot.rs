//! The figures of one lot, with what is the lot's own summed away.

use alloc::vec;
use alloc::vec::Vec;

use super::fit::inverse;
use super::gaussian::{Gaussian, Information};
use super::told::{Near, OwnOfLot, Told};

/// The figures of one lot, as sums of the few unknowns that they speak of, in a round of weighing.
pub(super) struct Lot {
    /// Which unknowns, in their order.
    columns: Vec<usize>,
    /// Their sums go by the place among those.
    pub(super) told: Vec<Told>,
    near: Vec<Near>,
    /// One over each figure's variance, with its weight.
    precisions: Vec<f64>,
    /// Covariance of what is the lot's own, once the unknowns are known.
    own_covariance: [[f64; 4]; 4],
    /// For each part of the lot's own: the sum of its figures, weighed, over the lot's columns; of no
    /// figures where it is none's.
    parts: [Vec<f64>; 4],
    /// The same of their values.
    values: OwnOfLot,
    /// The unknowns as they are believed.
    means: Vec<f64>,
}

/// Room to work in, shared by all lots.
#[derive(Default)]
pub(super) struct Room {
    precision: Vec<f64>,
    shift: Vec<f64>,
    mixed: Vec<f64>,
}

impl Lot {
    pub(super) fn new(mut told: Vec<Told>) -> Self {
        let mut columns: Vec<usize> = told.iter().flat_map(|told| told.what.unknowns()).collect();
        columns.sort_unstable();
        columns.dedup();
        for told in &mut told {
            told.what
                .put_places(|at| columns.partition_point(|column| *column < at));
        }
        Self {
            near: told.iter().map(|told| told.what.near()).collect(),
            precisions: vec![0.0; told.len()],
            own_covariance: [[0.0; 4]; 4],
            parts: Default::default(),
            values: OwnOfLot::default(),
            means: vec![0.0; columns.len()],
            columns,
            told,
        }
    }

    /// Takes in what is believed of all unknowns.
    pub(super) fn believe(&mut self, means: &[f64]) {
        for (mean, column) in self.means.iter_mut().zip(&self.columns) {
            *mean = means[*column];
        }
    }

    /// Straightens and weighs its figures anew; `None` where the numbers are such that nothing can be
    /// known.
    pub(super) fn weigh(
        &mut self,
        own: &OwnOfLot,
        weights: &[f64],
        own_prior: &[[f64; 4]; 4],
    ) -> Option<()> {
        let mut own_precision = *own_prior;
        self.values = OwnOfLot::default();
        self.parts.iter_mut().for_each(|part| part.fill(0.0));
        let figures = self.told.iter().zip(&mut self.near);
        let figures = figures.zip(&mut self.precisions).zip(weights);
        for (((told, near), precision), weight) in figures {
            told.what.straighten(near, &self.means, own);
            *precision = weight / told.variance;
            for (row, a) in near.own.iter().enumerate() {
                let weighed = *precision * a;
                if weighed == 0.0 {
                    continue;
                }
                for (column, b) in near.own.iter().enumerate() {
                    own_precision[row][column] += weighed * b;
                }
                let part = &mut self.parts[row];
                part.resize(self.columns.len(), 0.0);
                for (at, times) in told.what.sum(near) {
                    part[*at] += weighed * times;
                }
                self.values[row] += weighed * near.value;
            }
        }
        self.own_covariance = inverse(&own_precision)?;
        Some(())
    }

    /// Tells what the figures say of the unknowns.
    pub(super) fn tell(&self, information: &mut Information, room: &mut Room) {
        let size = self.columns.len();
        let Room {
            precision,
            shift,
            mixed,
        } = room;
        for (vector, length) in [(&mut *precision, size * size), (shift, size), (mixed, size)] {
            vector.clear();
            vector.resize(length, 0.0);
        }
        let (precision, shift, mixed) = (&mut room.precision, &mut room.shift, &mut room.mixed);
        let figures = self.told.iter().zip(&self.near);
        for ((told, near), weight) in figures.zip(&self.precisions) {
            let sum = told.what.sum(near);
            for (at, (one, times)) in sum.iter().enumerate() {
                let weighed = weight * times;
                shift[*one] += weighed * near.value;
                let row = &mut precision[one * size..=one * size + one];
                // In their order, so that these are those on and below the diagonal.
                for (other, also) in &sum[..=at] {
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
            mixed.fill(0.0);
            for (other, covariance) in self.parts.iter().zip(covariances) {
                for (sum, times) in mixed.iter_mut().zip(other) {
                    *sum += covariance * times;
                }
            }
            for (at, times) in part.iter().enumerate() {
                shift[at] -= times * explained;
                let row = &mut precision[at * size..=at * size + at];
                for (sum, also) in row.iter_mut().zip(&*mixed) {
                    *sum -= times * also;
                }
            }
        }
        information.add_all(&self.columns, precision, shift);
    }

    /// What is the lot's own, as likely as it gets.
    pub(super) fn own(&self) -> OwnOfLot {
        let left = core::array::from_fn(|part| {
            let explained = self.parts[part].iter().zip(&self.means).map(|(a, b)| a * b);
            self.values[part] - explained.sum::<f64>()
        });
        core::array::from_fn(|row| product(&self.own_covariance[row], &left))
    }

    /// How many deviations each figure is from what is expected of it.
    pub(super) fn errors(&self, own: &OwnOfLot) -> impl Iterator<Item = f64> {
        let figures = self.told.iter().zip(&self.near);
        figures.map(move |(told, near)| {
            let terms = told.what.sum(near).iter();
            let expected: f64 = terms.map(|(at, times)| times * self.means[*at]).sum();
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
        let columns = &self.columns;
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
