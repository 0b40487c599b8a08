//! What was learned, and what it says of a lot to come.

use alloc::vec;
use alloc::vec::Vec;

use super::fit::{self, Fitted, own_covariance};
use super::gaussian::Gaussian;
use super::record::{Likeness, Record, Told};
use super::terms::{Learns, Places, Term};
use super::told::{self, Told as Figure};
use crate::tables::Deviations;

/// What was learned from the records of a shop.
#[derive(Clone, Debug)]
pub struct Learned {
    start: Deviations,
    places: Places,
    known: Gaussian,
    /// Deviation from lot to lot, estimated again from the records.
    lot: f64,
    believed: Vec<Believed>,
}

/// How far a record's figures are believed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Believed {
    /// How many of its figures were usable.
    pub figures: u32,
    /// The least weight of one of them, 1 where it fits as well as any.
    pub weight: f64,
    /// How many deviations the farthest of them is from what is expected of it.
    pub off: f64,
    /// Which one that is; `None` where none was usable.
    pub farthest: Option<Told>,
}

/// What the records say of a lot to come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// Factors by what they multiply, in the order of [`Learns::ALL`].
    pub factors: [Factor; 4],
    /// Covariance of the logarithms of burn and wear, the lot's own included.
    pub burn_and_wear: f64,
}

/// A factor on a start value, as a lognormal.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Factor {
    /// Mean of the logarithm; 0 is the start value itself.
    pub mean: f64,
    /// Variance of the logarithm by what is not known of the shop.
    pub unknown: f64,
    /// Variance of the logarithm from lot to lot.
    pub lot: f64,
}

impl Factor {
    /// Deviation of the logarithm for a lot to come.
    ///
    /// Formula: root of the variance of what is not known and that from lot to lot.
    ///
    /// Result: deviation [-].
    ///
    /// ```
    /// use quillbore_calc::learn::Factor;
    /// let factor = Factor { mean: 0.0, unknown: 0.09, lot: 0.16 };
    /// assert_eq!(factor.sigma(), 0.5);
    /// ```
    ///
    /// Source: deviations of causes that do not go together.
    #[must_use]
    pub fn sigma(&self) -> f64 {
        libm::sqrt(self.unknown + self.lot)
    }
}

/// Learns from the records of a shop.
///
/// Formula: each factor's logarithm is a sum of normal terms about 0 (shop, machine, family, grade,
/// electrode, family with size class, slopes on diameter and depth) and of what is the lot's own;
/// burn and wear of a term go together. A record tells the logarithm of recorded over planned, or of
/// minutes on the floor, `ln(B exp b + W exp w + H exp h)`, straightened about what is believed;
/// its error is Student's t with 4 degrees of freedom, variance `hole^2/n + reading^2 + 0.1^2` a
/// year, and for minutes on the floor `(0.3 (W + H) / (B + W + H))^2`: how long it takes to change and
/// load differs from kind to kind of holes, of which no term tells. Weights `(4 + 1) / (4 + e^2)` and the scatter from lot to lot (worth 15 lots before any)
/// are found anew in 5 rounds.
///
/// - `records`: of the shop, in any order; figures that can't be are left out.
/// - `start`: deviations before anything was learned.
/// - `hole_scatter`: deviation of the logarithm from hole to hole [-].
///
/// Result: what was learned; without records what the start values say.
///
/// ```
/// use quillbore_calc::learn::{Learns, Likeness, Ratio, Record, learn};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// let start = shop::start_values().deviations;
/// let like = Likeness { machine: 0, family: 0, grade: 0, electrode: 0, tube_mm: 1.0, depth_mm: 20.0 };
/// let slow = Record {
///     lot: 0, like, holes: 100.0, age_years: 0.0,
///     burn: Some(Ratio { of_planned: 2.0, reading: 0.05 }), wear: None, floor: None, gap: None,
/// };
/// let burn = |records: &[Record]| learn(records, &start, 0.15).predict(&like).factors[0].clone();
/// assert_eq!(burn(&[]).mean, 0.0);
/// let one = burn(&[slow]);
/// // Twice as long once: most of it is believed, and the next lot is surer than before.
/// assert!(one.mean > 0.4 && one.mean < f64::ln(2.0));
/// assert!(one.sigma() < burn(&[]).sigma());
/// ```
///
/// Source: linear model with normal terms (Henderson's mixed model); weights of Student's t as in
/// Lange, Little and Taylor, J. Am. Stat. Assoc. 84 (1989), from memory.
#[must_use]
pub fn learn(records: &[Record], start: &Deviations, hole_scatter: f64) -> Learned {
    let usable = records.iter().filter(|record| record.is_usable());
    let places = Places::of(usable, start);
    let told = told::all(records, &places, start, hole_scatter);
    // Which record each figure is of, and which figure it is, in the same order.
    let figures: Vec<(usize, Told)> = told
        .iter()
        .map(|told| (told.record, told.which()))
        .collect();
    let mut lots: Vec<Vec<Figure>> = Vec::new();
    for told in told {
        let lot = records[told.record].lot;
        match lots.last_mut() {
            Some(last) if last.iter().any(|other| records[other.record].lot == lot) => {
                last.push(told);
            }
            _ => lots.push(vec![told]),
        }
    }
    let fitted = fit::fit(lots, &places, start).filter(|_| !figures.is_empty());
    let Some(Fitted {
        known,
        lot,
        weights,
        off,
    }) = fitted
    else {
        return Learned {
            start: *start,
            places: Places::default(),
            known: Gaussian::default(),
            lot: start.lot,
            believed: vec![Believed::default(); records.len()],
        };
    };
    let mut believed = vec![Believed::default(); records.len()];
    for (((record, told), weight), off) in figures.into_iter().zip(weights).zip(off) {
        let there = &mut believed[record];
        let is_first = there.figures == 0;
        there.figures += 1;
        there.weight = if is_first {
            weight
        } else {
            there.weight.min(weight)
        };
        if is_first || libm::fabs(off) > libm::fabs(there.off) {
            there.off = off;
            there.farthest = Some(told);
        }
    }
    Learned {
        start: *start,
        places,
        known,
        lot,
        believed,
    }
}

impl Learned {
    /// What is to be expected of a lot like this one.
    ///
    /// Formula: mean and variance of the sum of its terms; those that no record speaks of are as
    /// before.
    ///
    /// - `like`: what the lot is like.
    ///
    /// Result: factors on the start values [-].
    ///
    /// ```
    /// use quillbore_calc::learn::{Likeness, learn};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values().deviations;
    /// let like = Likeness { machine: 0, family: 0, grade: 0, electrode: 0, tube_mm: 0.5, depth_mm: 50.0 };
    /// // Before any record: the start values' own deviation.
    /// let [burn, ..] = learn(&[], &start, 0.15).predict(&like).factors;
    /// assert!((burn.sigma() - start.process(0.5, 50.0)).abs() < 1e-12);
    /// ```
    ///
    /// Source: conditional distribution of jointly normal variables.
    #[must_use]
    pub fn predict(&self, like: &Likeness) -> Prediction {
        let own = own_covariance(self.lot, &self.start);
        let looked = self.places.look(like);
        let sums = Learns::ALL.map(|factor| self.places.sum(factor, &looked, &self.start));
        let factors = core::array::from_fn(|at| {
            let (sum, unseen) = &sums[at];
            let unknown = self.known.covariance_of(sum, sum) + unseen;
            let before = match Learns::ALL[at] {
                Learns::Burn | Learns::Wear => f64::INFINITY,
                Learns::Handling => self.start.handling() * self.start.handling(),
                Learns::Gap => self.start.gap() * self.start.gap(),
            };
            Factor {
                mean: self.known.mean_of(sum),
                unknown,
                lot: own[at][at].min((before - unknown).max(0.0)),
            }
        });
        let [(burn, unseen), (wear, _), ..] = &sums;
        // What no record speaks of is the same terms in both.
        let unseen = self.start.burn_and_wear * unseen;
        Prediction {
            burn_and_wear: self.known.covariance_of(burn, wear) + unseen + own[0][1],
            factors,
        }
    }

    /// What each term contributes to the mean of a factor's logarithm in a lot like this one [-].
    ///
    /// Formula: how often the term counts times its mean; terms that no record speaks of are left out.
    ///
    /// - `factor`: which factor.
    /// - `like`: what the lot is like.
    ///
    /// Result: terms with their parts [-]; together they are [`Factor::mean`].
    ///
    /// ```
    /// use quillbore_calc::learn::{Learns, Likeness, Ratio, Record, Term, learn};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values().deviations;
    /// let like = Likeness { machine: 0, family: 0, grade: 0, electrode: 0, tube_mm: 1.0, depth_mm: 20.0 };
    /// let slow = Record {
    ///     lot: 0, like, holes: 100.0, age_years: 0.0,
    ///     burn: Some(Ratio { of_planned: 2.0, reading: 0.05 }), wear: None, floor: None, gap: None,
    /// };
    /// let parts = learn(&[slow], &start, 0.15).parts(Learns::Burn, &like);
    /// let of = |term| parts.iter().find(|(other, _)| *other == term).unwrap().1;
    /// // What one record says is shared out by variance: 0.35^2 to the shop, 0.15^2 to the machine.
    /// let ratio = of(Term::Shop) / of(Term::Machine(0));
    /// assert!((ratio - 0.1225 / 0.0225).abs() < 1e-9);
    /// ```
    ///
    /// Source: as [`learn`].
    #[must_use]
    pub fn parts(&self, factor: Learns, like: &Likeness) -> Vec<(Term, f64)> {
        let known = self.places.known(factor, like);
        known
            .map(|(term, unknown, times)| (term, times * self.known.mean_of(&[(unknown, 1.0)])))
            .collect()
    }

    /// How far each record is believed, in the order they were given: the least of its figures' weights
    /// [-], and the farthest of their errors in deviations.
    #[must_use]
    pub const fn believed(&self) -> &[Believed] {
        self.believed.as_slice()
    }
}
