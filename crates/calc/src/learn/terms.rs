//! What a shop's own factor on a start value is a sum of.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::gaussian::{Information, Sum};
use super::record::{Likeness, Record};
use crate::tables::Deviations;

/// A part of a factor, by what it belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Term {
    /// Whatever is done in this shop.
    Shop,
    /// A machine.
    Machine(u32),
    /// A family of materials.
    Family(u32),
    /// A grade.
    Grade(u32),
    /// A material of electrodes.
    Electrode(u32),
    /// A family in a class of sizes.
    SizeClass(u32, u8),
    /// Slope on the logarithm of the tube's diameter in mm.
    ByDiameter,
    /// Slope on the logarithm of depth over diameter, over 20.
    ByDepth,
}

/// A factor that is learned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Learns {
    /// Minutes that go with the feed: one over the feed.
    Burn,
    /// Length of electrode lost.
    Wear,
    /// Minutes of handling.
    Handling,
    /// Gap per side.
    Gap,
}

impl Learns {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Burn, Self::Wear, Self::Handling, Self::Gap];

    /// Its deviation before anything was learned.
    ///
    /// Formula: that of [`Deviations::process`], [`Deviations::handling`] or [`Deviations::gap`].
    ///
    /// - `start`: the start values' deviations.
    /// - `like`: the lot it is of.
    ///
    /// Result: deviation of the logarithm [-].
    ///
    /// ```
    /// use quillbore_calc::learn::{Learns, Likeness};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values().deviations;
    /// let at_start = |factor: Learns| factor.at_start(&start, &Likeness::UNKNOWN);
    /// assert_eq!(at_start(Learns::Burn), at_start(Learns::Wear));
    /// assert!((at_start(Learns::Wear) - 0.6168).abs() < 0.00005); // 1 mm, 20 diameters deep
    /// assert!((at_start(Learns::Handling) - 0.4031).abs() < 0.00005);
    /// ```
    ///
    /// Source: as [`Deviations::process`].
    #[must_use]
    pub fn at_start(self, start: &Deviations, like: &Likeness) -> f64 {
        match self {
            Self::Burn | Self::Wear => start.process(like.tube_mm, like.depth_mm),
            Self::Handling => start.handling(),
            Self::Gap => start.gap(),
        }
    }
}

/// Upper ends of the classes of size [mm].
pub const CLASS_ENDS_MM: [f64; 3] = [0.4, 0.9, 1.8];
/// Depth over diameter at which the slope on it says nothing.
const USUAL_DEPTH: f64 = 20.0;

/// Terms that a lot may have, and which of them each factor is a sum of.
const SLOTS: usize = 9;
const PROCESS: &[usize] = &[0, 1, 2, 3, 4, 5, 6, 7];
const HANDLING: &[usize] = &[0, 1];
const GAP: &[usize] = &[0, 1, 8];

const fn slots(factor: Learns) -> &'static [usize] {
    match factor {
        Learns::Burn | Learns::Wear => PROCESS,
        Learns::Handling => HANDLING,
        Learns::Gap => GAP,
    }
}

/// Every term of a lot like this one, and how often it counts.
fn terms(like: &Likeness) -> [(Term, f64); SLOTS] {
    let class = CLASS_ENDS_MM.iter().filter(|end| like.tube_mm > **end);
    let class = class.count() as u8;
    let depths = (like.depth_mm / like.tube_mm).max(1.0);
    [
        (Term::Shop, 1.0),
        (Term::Machine(like.machine), 1.0),
        (Term::Family(like.family), 1.0),
        (Term::Grade(like.grade), 1.0),
        (Term::Electrode(like.electrode), 1.0),
        (Term::SizeClass(like.family, class), 1.0),
        (Term::ByDiameter, libm::log(like.tube_mm)),
        (Term::ByDepth, libm::log(depths / USUAL_DEPTH)),
        // The gap's classes are the same for all families.
        (Term::SizeClass(0, class), 1.0),
    ]
}

/// A deviation below which a shop that says 0 is taken to mean it: nothing can be learned of what is
/// known to the last digit, and the rest is learned all the same.
pub(super) const LEAST: f64 = 1e-6;

/// Deviation of a factor's term before anything was learned.
fn deviation(factor: Learns, slot: usize, start: &Deviations) -> f64 {
    let deviation = match factor {
        Learns::Burn | Learns::Wear => [
            start.shop,
            start.machine,
            start.family,
            start.grade,
            start.electrode,
            start.size_class,
            start.by_diameter,
            start.by_depth,
            0.0,
        ][slot],
        Learns::Handling => [start.handling_shop, start.handling_machine][slot],
        Learns::Gap => match slot {
            0 => start.gap_shop,
            1 => start.gap_machine,
            _ => start.gap_size_class,
        },
    };
    deviation.max(LEAST)
}

/// Where each term stands among the unknowns: only those that some record speaks of.
#[derive(Clone, Debug, Default)]
pub(super) struct Places {
    at: BTreeMap<Term, usize>,
    /// Of each term the unknowns of the factors that it is part of.
    unknowns: Vec<[Option<usize>; 4]>,
    prior: Vec<f64>,
}

/// A lot's terms, looked up once for all factors.
pub(super) struct Looked {
    terms: [(Term, f64); SLOTS],
    at: [Option<usize>; SLOTS],
}

impl Places {
    pub(super) fn of<'r>(records: impl Iterator<Item = &'r Record>, start: &Deviations) -> Self {
        let mut places = Self::default();
        for record in records {
            let terms = terms(&record.like);
            let at = terms.map(|(term, _)| {
                let next = places.unknowns.len();
                let at = *places.at.entry(term).or_insert(next);
                if at == next {
                    places.unknowns.push([None; 4]);
                }
                at
            });
            for factor in Learns::ALL {
                for slot in slots(factor) {
                    let unknown = &mut places.unknowns[at[*slot]][factor as usize];
                    if unknown.is_none() {
                        *unknown = Some(places.prior.len());
                        places.prior.push(deviation(factor, *slot, start));
                    }
                }
            }
        }
        places
    }

    /// The terms of a lot like this one.
    pub(super) fn look(&self, like: &Likeness) -> Looked {
        let terms = terms(like);
        Looked {
            at: terms.map(|(term, _)| self.at.get(&term).copied()),
            terms,
        }
    }

    /// How many unknowns there are.
    pub(super) const fn len(&self) -> usize {
        self.prior.len()
    }

    /// A factor as a sum of unknowns, and the variance of what of it no record speaks of.
    pub(super) fn sum(&self, factor: Learns, looked: &Looked, start: &Deviations) -> (Sum, f64) {
        let slots = slots(factor);
        let mut sum = Sum::with_capacity(slots.len());
        let mut unseen = 0.0;
        for slot in slots {
            let times = looked.terms[*slot].1;
            match looked.at[*slot].and_then(|at| self.unknowns[at][factor as usize]) {
                Some(unknown) => sum.push((unknown, times)),
                None => {
                    let off = times * deviation(factor, *slot, start);
                    unseen += off * off;
                }
            }
        }
        (sum, unseen)
    }

    /// Of a factor the unknowns that some record speaks of, and how often each counts.
    pub(super) fn seen<'a>(
        &'a self,
        factor: Learns,
        looked: &'a Looked,
    ) -> impl Iterator<Item = (usize, f64)> + 'a {
        slots(factor).iter().filter_map(move |slot| {
            let unknown = self.unknowns[looked.at[*slot]?][factor as usize]?;
            Some((unknown, looked.terms[*slot].1))
        })
    }

    /// The terms of a factor that some record speaks of, with the unknown of each and how often it counts.
    pub(super) fn known(
        &self,
        factor: Learns,
        like: &Likeness,
    ) -> impl Iterator<Item = (Term, usize, f64)> {
        let looked = self.look(like);
        slots(factor).iter().filter_map(move |slot| {
            let (term, times) = looked.terms[*slot];
            let unknown = self.unknowns[looked.at[*slot]?][factor as usize]?;
            Some((term, unknown, times))
        })
    }

    /// What is known of the unknowns before any record: each about 0, burn and wear of one term
    /// together.
    pub(super) fn prior(&self, start: &Deviations) -> Information {
        let mut known = Information::none(self.len());
        let together = start.burn_and_wear.clamp(-0.99, 0.99);
        let precision = |at: usize| 1.0 / (self.prior[at] * self.prior[at]);
        for [burn, wear, handling, gap] in &self.unknowns {
            for alone in [handling, gap].into_iter().flatten() {
                known.add(*alone, *alone, precision(*alone));
            }
            // Of each term that burn has wear has one, too.
            if let (Some(burn), Some(wear)) = (burn, wear) {
                let apart = precision(*burn) / (1.0 - together * together);
                known.add(*burn, *burn, apart);
                known.add(*wear, *wear, apart);
                known.add(*burn, *wear, -together * apart);
            }
        }
        known
    }
}
