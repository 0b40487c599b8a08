//! Many unknowns that are jointly normal, and what is told of sums of them.

use alloc::vec;
use alloc::vec::Vec;

/// A sum of unknowns: which, and how often each.
pub(super) type Sum = Vec<(usize, f64)>;

/// What is known of jointly normal unknowns, as information: precision times mean, and precision.
#[derive(Clone, Debug)]
pub(super) struct Information {
    size: usize,
    /// Row after row, the part on and below the diagonal.
    precision: Vec<f64>,
    shift: Vec<f64>,
}

/// Jointly normal unknowns.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Gaussian {
    /// What the unknowns are likely to be.
    pub(super) means: Vec<f64>,
    /// Row after row, in full.
    covariance: Vec<f64>,
}

impl Information {
    /// Of unknowns of which nothing is known.
    pub(super) fn none(size: usize) -> Self {
        Self {
            size,
            precision: vec![0.0; size * size],
            shift: vec![0.0; size],
        }
    }

    /// Adds to the precision of two unknowns, or of one with itself.
    pub(super) fn add(&mut self, one: usize, other: usize, precision: f64) {
        let (row, column) = (one.max(other), one.min(other));
        self.precision[row * self.size + column] += precision;
    }

    /// Adds what is told of a few unknowns in their order: precision, of which the part on and below
    /// the diagonal counts, and precision times value.
    pub(super) fn add_all(&mut self, columns: &[usize], precision: &[f64], shift: &[f64]) {
        for (at, (row, told)) in columns.iter().zip(shift).enumerate() {
            self.shift[*row] += told;
            let from = &precision[at * columns.len()..=at * columns.len() + at];
            let into = &mut self.precision[row * self.size..=row * self.size + row];
            for (column, more) in columns.iter().zip(from) {
                into[*column] += more;
            }
        }
    }

    /// Means; `None` where the precision is none of a normal distribution. What is left is the
    /// precision's factor.
    pub(super) fn means(&mut self) -> Option<Vec<f64>> {
        let size = self.size;
        self.factor()?;
        let factor = &self.precision;
        let mut mean = core::mem::take(&mut self.shift);
        // L y = shift, then L' mean = y.
        for row in 0..size {
            let (before, at) = factor[row * size..=row * size + row].split_at(row);
            let sum = dot(before, &mean[..row]);
            mean[row] = (mean[row] - sum) / at[0];
        }
        for row in (0..size).rev() {
            let found = mean[row] / factor[row * size + row];
            mean[row] = found;
            let above = &factor[row * size..row * size + row];
            for (left, times) in mean[..row].iter_mut().zip(above) {
                *left -= times * found;
            }
        }
        Some(mean)
    }

    /// Means with covariances, once the means are found.
    pub(super) fn solved(self, means: Vec<f64>) -> Gaussian {
        Gaussian {
            means,
            covariance: inverse_of_factored(&self.precision, self.size),
        }
    }

    /// Cholesky's factor in place of the precision.
    fn factor(&mut self) -> Option<()> {
        let size = self.size;
        for row in 0..size {
            let (above, rest) = self.precision.split_at_mut(row * size);
            let own = &mut rest[..=row];
            for column in 0..row {
                let other = &above[column * size..=column * size + column];
                let sum = dot(&own[..column], &other[..column]);
                own[column] = (own[column] - sum) / other[column];
            }
            let left = own[row] - dot(&own[..row], &own[..row]);
            if !(left > 0.0 && left.is_finite()) {
                return None;
            }
            own[row] = libm::sqrt(left);
        }
        Some(())
    }
}

/// The inverse of `L L'`, row after row in full.
fn inverse_of_factored(factor: &[f64], size: usize) -> Vec<f64> {
    // Row r of the transposed inverse of L, from its diagonal on: column r of the inverse.
    let mut inverse = vec![0.0; size * size];
    for column in 0..size {
        let own = &mut inverse[column * size..(column + 1) * size];
        own[column] = 1.0 / factor[column * size + column];
        for row in column + 1..size {
            let sum = dot(
                &factor[row * size + column..row * size + row],
                &own[column..row],
            );
            own[row] = -sum / factor[row * size + row];
        }
    }
    let mut covariance = vec![0.0; size * size];
    for row in 0..size {
        for column in 0..=row {
            let one = &inverse[row * size + row..(row + 1) * size];
            let other = &inverse[column * size + row..(column + 1) * size];
            let found = dot(one, other);
            covariance[row * size + column] = found;
            covariance[column * size + row] = found;
        }
    }
    covariance
}

fn dot(one: &[f64], other: &[f64]) -> f64 {
    // Four sums beside each other, so that none waits for the one before; always in this order.
    let mut sums = [0.0; 4];
    let (ones, others) = (one.chunks_exact(4), other.chunks_exact(4));
    let rest: f64 = (ones.remainder().iter())
        .zip(others.remainder())
        .map(|(a, b)| a * b)
        .sum();
    for (a, b) in ones.zip(others) {
        for (sum, (a, b)) in sums.iter_mut().zip(a.iter().zip(b)) {
            *sum += a * b;
        }
    }
    sums[0] + sums[1] + (sums[2] + sums[3]) + rest
}

impl Gaussian {
    /// What a sum is likely to be.
    pub(super) fn mean_of(&self, sum: &[(usize, f64)]) -> f64 {
        sum.iter().map(|(at, times)| times * self.means[*at]).sum()
    }

    /// The covariance of a few unknowns times a sum of them, over those; nothing of no sum.
    pub(super) fn times(&self, columns: &[usize], sum: &[f64]) -> Vec<f64> {
        let size = self.means.len();
        if sum.is_empty() {
            return Vec::new();
        }
        let row = |row: &usize| {
            let row = &self.covariance[row * size..(row + 1) * size];
            let cells = columns.iter().zip(sum);
            cells.map(|(column, times)| row[*column] * times).sum()
        };
        columns.iter().map(row).collect()
    }

    /// How two sums go together; of one with itself its variance.
    pub(super) fn covariance_of(&self, one: &[(usize, f64)], other: &[(usize, f64)]) -> f64 {
        let size = self.means.len();
        let mut all = 0.0;
        for (row, a) in one {
            for (column, b) in other {
                all += a * b * self.covariance[row * size + column];
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solved(mut known: Information) -> Gaussian {
        let means = known.means().expect("a normal distribution");
        known.solved(means)
    }

    #[test]
    fn what_is_told_of_one_unknown_is_the_textbooks_shrinkage() {
        // Prior 0 with deviation 0.5; told 1.2 with deviation 0.25: 1.2 x 0.25 / (0.25 + 0.0625).
        let mut known = Information::none(1);
        known.add(0, 0, 4.0);
        known.add_all(&[0], &[16.0], &[16.0 * 1.2]);
        let found = solved(known);
        assert!((found.means[0] - 0.96).abs() < 1e-12);
        assert!((found.covariance_of(&[(0, 1.0)], &[(0, 1.0)]) - 0.05).abs() < 1e-12);
    }

    #[test]
    fn the_inverse_times_the_matrix_is_one() {
        let size = 7;
        let at = |row: usize, column: usize| {
            let both = (row + 1) as f64 * (column + 1) as f64;
            1.0 / (1.0 + both) + if row == column { 2.0 } else { 0.0 }
        };
        let mut known = Information::none(size);
        for row in 0..size {
            for column in 0..=row {
                known.add(row, column, at(row, column));
            }
        }
        let found = solved(known);
        for row in 0..size {
            for column in 0..size {
                let sum: f64 = (0..size)
                    .map(|k| at(row, k) * found.covariance[k * size + column])
                    .sum();
                let expected = f64::from(u8::from(row == column));
                assert!((sum - expected).abs() < 1e-12, "{row} {column} {sum}");
            }
        }
    }

    #[test]
    fn what_is_no_precision_is_told() {
        let mut known = Information::none(2);
        known.add(0, 0, 1.0);
        assert_eq!(known.clone().means(), None);
        known.add(1, 1, f64::NAN);
        assert_eq!(known.means(), None);
    }
}
