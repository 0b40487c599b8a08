//! Spread by one joint draw: the same stratified throws for every job, one stream per factor.
//!
//! Each factor's stream cuts the normal distribution into as many equally likely strata as there
//! are draws, takes the middle of each, and shuffles them by a seed of its own (a Latin hypercube;
//! McKay, Beckman and Conover 1979 «memory»). The throws depend on nothing but the factor's number,
//! so an edit of the job moves its figures but never their noise.

use alloc::vec::Vec;

use crate::dice::Dice;
use crate::quantity::Band;

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
    /// Chance of breakage.
    Breakage,
    /// Number of breakages about that chance.
    Breakages,
}

/// Normal deviates of one stream.
///
/// Formula: `z(i) = inverse normal((p(i) + 1/2) / n)` with p a shuffle of 0 to n - 1.
///
/// - `stream`: number of the stream; the same number gives the same deviates.
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
/// - `p`: share, above 0 and below 1; the ends give an infinite deviate.
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
/// - `z`: deviate [-].
///
/// Result: share, 0 to 1.
///
/// ```
/// assert_eq!(quillbore_calc::spread::normal_below(0.0), 0.5);
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
/// - `values`: drawn values in any order and unit.
///
/// Result: percentiles in the values' unit; `None` without values.
///
/// ```
/// let band = quillbore_calc::spread::percentiles(&[3.0, 1.0, 2.0]).unwrap();
/// assert_eq!(band.p50, 2.0);
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
/// - `parts`: number and mean of each kind, means in one unit.
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

/// Fewest spares that are enough nine times in ten, when each hole breaks its electrode by chance.
///
/// Formula: smallest k with `P(X <= k) >= 0.9` for X binomial; from 500 expected breakages on, by
/// the normal with continuity correction.
///
/// - `holes`: holes drilled.
/// - `chance`: chance that a hole breaks its electrode, 0 to 1.
///
/// Result: spares.
///
/// ```
/// use quillbore_calc::spread::spares;
/// // 20 holes at 5 %: 0 to 2 breakages with probability 0.9245, 0 to 1 with 0.7358.
/// assert_eq!(spares(20, 0.05), 2);
/// ```
///
/// Source: binomial distribution.
#[must_use]
pub fn spares(holes: u64, chance: f64) -> u64 {
    if chance.is_nan() || chance <= 0.0 || holes == 0 {
        return 0;
    }
    if chance >= 1.0 {
        return holes;
    }
    let number = holes as f64;
    let mean = number * chance;
    if mean > 500.0 {
        let deviation = libm::sqrt(mean * (1.0 - chance));
        return libm::ceil(mean + crate::quantity::Z90 * deviation - 0.5).min(number) as u64;
    }
    let odds = chance / (1.0 - chance);
    let mut term = libm::exp(number * libm::log1p(-chance));
    let mut below = term;
    let mut spares = 0;
    while below < 0.9 && spares < holes {
        term *= (holes - spares) as f64 / (spares + 1) as f64 * odds;
        spares += 1;
        below += term;
    }
    spares
}
