//! Spread by one joint draw: the same stratified throws for every job, one stream per factor.
//!
//! Each factor's stream cuts the normal distribution into as many equally likely strata as there
//! are draws, takes the middle of each, and shuffles them by a seed of its own (a Latin hypercube;
//! McKay, Beckman and Conover 1979 «memory»). The throws depend on nothing but the factor's number,
//! so an edit of the job moves its figures but never their noise.

use alloc::vec::Vec;

use crate::dice::Dice;
use crate::quantity::{Band, Z90};

/// Draws of a lot: enough that P10 and P90 of a sum stand within about one percent.
pub const DRAWS: usize = 512;

/// What a lot's draw varies, each with a stream of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Factor {
    /// Feed of the lot, depth law included.
    Feed,
    /// Wear of the lot.
    Wear,
    /// Handling times of the lot.
    Handling,
    /// Holes about the lot's feed, averaged over all of them.
    Holes,
    /// Breakages in the lot.
    Breakages,
}

/// Normal deviates of one stream.
///
/// Formula: `z(i) = inverse normal((p(i) + 1/2) / n)` with p a shuffle of 0 to n - 1.
///
/// - `stream`: number of the stream, any; the same number gives the same deviates.
/// - `draws`: n, 1 and up.
///
/// Result: n deviates of mean 0 [-].
///
/// ```
/// let z = quillbore_calc::spread::stratified(1, 512);
/// assert!(z.iter().sum::<f64>().abs() < 1e-9);
/// ```
///
/// Source: Latin hypercube as named above.
#[must_use]
pub fn stratified(stream: u64, draws: usize) -> Vec<f64> {
    let mut dice = Dice::new(stream);
    let mut strata: Vec<usize> = (0..draws).collect();
    for last in (1..draws).rev() {
        strata.swap(last, dice.below(last + 1));
    }
    strata
        .into_iter()
        .map(|stratum| normal_at((stratum as f64 + 0.5) / draws as f64))
        .collect()
}

impl Factor {
    /// The factor's deviates.
    ///
    /// Formula: [`stratified`] with a stream of the factor's own.
    ///
    /// - `draws`: how many, 1 and up.
    ///
    /// Result: deviates [-], of mean 0.
    ///
    /// ```
    /// use quillbore_calc::spread::Factor;
    /// // Two strata have their middles at 1/4 and 3/4: quartiles of the normal, 0.6745 either way.
    /// let mut two = Factor::Wear.deviates(2);
    /// two.sort_by(f64::total_cmp);
    /// assert!((two[0] + 0.6745).abs() < 0.00005 && (two[1] - 0.6745).abs() < 0.00005);
    /// assert_ne!(Factor::Wear.deviates(512), Factor::Feed.deviates(512));
    /// ```
    ///
    /// Source: Latin hypercube as named above.
    #[must_use]
    pub fn deviates(self, draws: usize) -> Vec<f64> {
        // Far apart, so that no two streams are shifted copies of one another.
        stratified((self as u64 + 1).wrapping_mul(0xd134_2543_de82_ef95), draws)
    }
}

/// Standard normal deviate that a share of the distribution lies below.
///
/// Formula: root of `erfc(-z / sqrt 2) / 2 = p` by Newton's method, from a rational start.
///
/// - `p`: share [-], above 0 and below 1; the ends give an infinite deviate.
///
/// Result: deviate z [-], to about 14 digits.
///
/// ```
/// use quillbore_calc::quantity::Z90;
/// assert!((quillbore_calc::spread::normal_at(0.9) - Z90).abs() < 1e-13);
/// ```
///
/// Source: start from Abramowitz and Stegun 26.2.23 «memory»; checked by its inverse.
#[must_use]
pub fn normal_at(p: f64) -> f64 {
    if p.is_nan() || p <= 0.0 {
        return f64::NEG_INFINITY;
    }
    if p >= 1.0 {
        return f64::INFINITY;
    }
    // The tail keeps its digits when the smaller side is computed.
    if p > 0.5 {
        return -normal_at(1.0 - p);
    }
    let t = libm::sqrt(-2.0 * libm::log(p));
    let above = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let below = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut z = above / below - t;
    for _ in 0..3 {
        let density = libm::exp(-z * z / 2.0) / libm::sqrt(core::f64::consts::TAU);
        z -= (normal_below(z) - p) / density;
    }
    z
}

/// Share of the standard normal distribution below a deviate.
///
/// Formula: `erfc(-z / sqrt 2) / 2`.
///
/// - `z`: deviate [-], any.
///
/// Result: share [-], 0 to 1.
///
/// ```
/// use quillbore_calc::spread::normal_below;
/// assert_eq!(normal_below(0.0), 0.5);
/// assert!((normal_below(1.959964) - 0.975).abs() < 1e-7);
/// ```
///
/// Source: definition of erfc.
#[must_use]
pub fn normal_below(z: f64) -> f64 {
    libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2) / 2.0
}

/// P10, P50 and P90 of drawn values.
///
/// Formula: of n sorted values the i-th stands at share `(i - 1/2) / n`; linear between.
///
/// - `values`: drawn values in any order [one unit].
///
/// Result: percentiles in the values' unit; `None` without values.
///
/// ```
/// // Ten values stand at 5, 15, ... 95 percent: P10 lies half way from the first to the second.
/// let ten = [10.0, 9.0, 8.0, 7.0, 6.0, 5.0, 4.0, 3.0, 2.0, 1.0];
/// let band = quillbore_calc::spread::percentiles(&ten).unwrap();
/// assert!((band.p10 - 1.5).abs() < 1e-12 && (band.p90 - 9.5).abs() < 1e-12);
/// assert_eq!(band.p50, 5.5);
/// ```
///
/// Source: Hazen 1914 «memory».
#[must_use]
pub fn percentiles(values: &[f64]) -> Option<Band> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let (&first, &last) = (sorted.first()?, sorted.last()?);
    let at = |share: f64| {
        let place = share * sorted.len() as f64 - 0.5;
        if place <= 0.0 {
            return first;
        }
        let below = place as usize;
        match (sorted.get(below), sorted.get(below + 1)) {
            (Some(&low), Some(&high)) => low + (high - low) * (place - below as f64),
            _ => last,
        }
    };
    Some(Band {
        p10: at(0.1),
        p50: at(0.5),
        p90: at(0.9),
    })
}

/// Deviation of the logarithm of a sum of scattered parts about its mean.
///
/// Formula: parts of mean `m(k)`, `n(k)` of each, scatter independently with deviation s of their
/// logarithm; the sum's relative variance is `(e^(s^2) - 1) sum(n m^2) / (sum n m)^2 = v`, read as a
/// lognormal of deviation `sqrt(ln(1 + v))`.
///
/// - `parts`: number of each kind [-] and mean [one unit], 0 and up.
/// - `scatter`: s [-], 0 and up.
///
/// Result: deviation of the logarithm [-]; 0 without parts.
///
/// ```
/// use quillbore_calc::spread::scatter_of_sum;
/// // One hole scatters by 0.15, a hundred alike by a tenth of it.
/// assert!((scatter_of_sum([(1.0, 2.0)], 0.15) - 0.15).abs() < 1e-12);
/// assert!((scatter_of_sum([(100.0, 2.0)], 0.15) - 0.0151).abs() < 0.00005);
/// ```
///
/// Source: moments of the lognormal; Fenton 1960 «memory» for reading the sum as one.
#[must_use]
pub fn scatter_of_sum(parts: impl IntoIterator<Item = (f64, f64)>, scatter: f64) -> f64 {
    let (mut sum, mut squares) = (0.0, 0.0);
    for (number, mean) in parts {
        sum += number * mean;
        squares += number * mean * mean;
    }
    if sum <= 0.0 {
        return 0.0;
    }
    let variance = libm::expm1(scatter * scatter) * squares / (sum * sum);
    libm::sqrt(libm::log1p(variance))
}

/// A part of a sum: its median, and the deviation of its logarithm.
pub type Part = (f64, f64);

/// P10 and P90 of a sum of independent lognormals.
///
/// Formula: the shifted lognormal with the sum's mean, variance and skewness g. Of a part of mean m
/// with `w = e^(s^2)`: variance `m^2 (w - 1)`, third moment `m^3 (w - 1)^2 (w + 2)`; of the sum, w
/// from `g = (w + 2) sqrt(w - 1)`, a cubic.
///
/// - `parts`: medians in one unit, 0 and up, and deviations of the logarithm [-], 0 and up.
///
/// Result: P10 and P90 in the parts' unit. Valid within 2 % for deviations up to 0.6, within 3.5 % up
/// to 0.7, as far as two parts on a grid show.
///
/// ```
/// use quillbore_calc::spread::sum_of_parts;
/// // 5 and a lognormal: 5 + 10 exp(-0.3 x 1.28155) and 5 + 10 exp(0.3 x 1.28155).
/// let (low, high) = sum_of_parts(&[(10.0, 0.3), (5.0, 0.0)]);
/// assert!((low - 11.808).abs() < 0.0005 && (high - 19.688).abs() < 0.0005);
/// ```
///
/// Source: moments of the lognormal; checked against grids.
#[must_use]
pub fn sum_of_parts(parts: &[Part]) -> (f64, f64) {
    let (mut mean, mut variance, mut third) = (0.0, 0.0, 0.0);
    for (median, sigma) in parts {
        let w_less = libm::expm1(sigma * sigma);
        let part = median * libm::sqrt(w_less + 1.0);
        mean += part;
        variance += part * part * w_less;
        third += part * part * part * w_less * w_less * (w_less + 3.0);
    }
    if variance <= 0.0 {
        return (mean, mean);
    }
    let skewness = third / (variance * libm::sqrt(variance));
    let half = skewness * skewness / 2.0;
    let root = skewness * libm::sqrt(1.0 + half / 2.0);
    // w + 1 = u + 1/u with u the cube root of this.
    let u = libm::cbrt(1.0 + half + root);
    let w_less = u + 1.0 / u - 2.0;
    let sigma = libm::sqrt(libm::log1p(w_less));
    let scale = libm::sqrt(variance / w_less);
    let shift = mean - scale;
    let median = scale / libm::sqrt(w_less + 1.0);
    let ratio = libm::exp(Z90 * sigma);
    (shift + median / ratio, shift + median * ratio)
}

/// Holes up to which breakages are counted one by one; a larger lot scatters as this one does, the
/// rate being the lot's own.
const COUNTED_HOLES: u64 = 20_000;

/// How many electrodes break in a lot: each hole breaks one by the lot's own rate, which is not
/// known but for a beta distribution.
///
/// Formula: beta-binomial with `a = w p`, `b = w (1 - p)`:
/// `P(0) = B(a, n + b) / B(a, b)`, `P(k+1) / P(k) = (n - k)/(k + 1) (k + a)/(n - k - 1 + b)`.
///
/// ```
/// use quillbore_calc::spread::Breakages;
/// // A prior worth any number of holes is a known rate: the binomial. 20 holes at 5 %: 0 to 2 with
/// // probability 0.9245, 0 to 1 with 0.7358.
/// let known = Breakages::new(20, 0.05, 1e9);
/// assert_eq!([known.at(0.7358 - 1e-3), known.at(0.9), known.at(0.9245 + 1e-3)], [1.0, 2.0, 3.0]);
/// ```
///
/// Source: beta-binomial distribution; the prior's worth by [`crate::tables::StartValues`].
#[derive(Clone, Debug, PartialEq)]
pub struct Breakages {
    /// Chance of at most so many, by their number.
    at_most: Vec<f64>,
    /// Holes of the lot over holes counted.
    scale: f64,
}

impl Breakages {
    /// Breakages in a lot.
    ///
    /// - `holes`: holes drilled, 0 and up.
    /// - `chance`: start value p of the rate [-], 0 to below 1; outside of that nothing breaks.
    /// - `worth_holes`: holes w that the start value is worth [-], above 0.
    ///
    /// Result: the distribution of their number.
    #[must_use]
    pub fn new(holes: u64, chance: f64, worth_holes: f64) -> Self {
        let counted = holes.min(COUNTED_HOLES);
        let mut at_most = Vec::new();
        if chance > 0.0 && chance < 1.0 && counted > 0 {
            let (a, b) = (worth_holes * chance, worth_holes * (1.0 - chance));
            let n = counted as f64;
            let ln = libm::lgamma;
            let mut term = libm::exp(ln(n + b) - ln(b) + ln(a + b) - ln(n + a + b));
            let mut below = term;
            let mut k = 0.0;
            at_most.push(below);
            while k < n && below < 1.0 - 1e-6 {
                term *= (n - k) / (k + 1.0) * (k + a) / (n - k - 1.0 + b);
                k += 1.0;
                below += term;
                at_most.push(below);
            }
        }
        Self {
            at_most,
            scale: if counted > 0 {
                holes as f64 / counted as f64
            } else {
                1.0
            },
        }
    }

    /// Fewest that are enough with this probability.
    ///
    /// - `share`: probability [-], 0 to 1.
    ///
    /// Result: number of breakages [-].
    #[must_use]
    pub fn at(&self, share: f64) -> f64 {
        let number = self.at_most.partition_point(|below| *below < share);
        let most = self.at_most.len().saturating_sub(1);
        libm::round(number.min(most) as f64 * self.scale)
    }
}
