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
}

/// Upper ends of the classes of size [mm].
pub const CLASS_ENDS_MM: [f64; 3] = [0.4, 0.9, 1.8];
/// Depth over diameter at which the slope on it says nothing.
const USUAL_DEPTH: f64 = 20.0;

/// The terms of a factor in a lot like this one: how often each counts, and its deviation before
/// anything was learned.
pub(super) fn terms(factor: Learns, like: &Likeness, start: &Deviations) -> Vec<(Term, f64, f64)> {
    let class = CLASS_ENDS_MM.iter().filter(|end| like.tube_mm > **end);
    let class = class.count() as u8;
    match factor {
        Learns::Burn | Learns::Wear => {
            let depths = (like.depth_mm / like.tube_mm).max(1.0);
            alloc::vec![
                (Term::Shop, 1.0, start.shop),
                (Term::Machine(like.machine), 1.0, start.machine),
                (Term::Family(like.family), 1.0, start.family),
                (Term::Grade(like.grade), 1.0, start.grade),
                (Term::Electrode(like.electrode), 1.0, start.electrode),
                (Term::SizeClass(like.family, class), 1.0, start.size_class),
                (Term::ByDiameter, libm::log(like.tube_mm), start.by_diameter),
                (
                    Term::ByDepth,
                    libm::log(depths / USUAL_DEPTH),
                    start.by_depth
                ),
            ]
        }
        Learns::Handling => alloc::vec![
            (Term::Shop, 1.0, start.handling_shop),
            (Term::Machine(like.machine), 1.0, start.handling_machine),
        ],
        Learns::Gap => alloc::vec![
            (Term::Shop, 1.0, start.gap_shop),
            (Term::Machine(like.machine), 1.0, start.gap_machine),
            // The gap's classes are the same for all families.
            (Term::SizeClass(0, class), 1.0, start.gap_size_class),
        ],
    }
}

/// Where each term stands among the unknowns: only those that some record speaks of.
#[derive(Clone, Debug, Default)]
pub(super) struct Places {
    at: BTreeMap<(Learns, Term), usize>,
    prior: Vec<f64>,
}

impl Places {
    pub(super) fn of<'r>(records: impl Iterator<Item = &'r Record>, start: &Deviations) -> Self {
        let mut places = Self::default();
        for record in records {
            for factor in Learns::ALL {
                for (term, _, deviation) in terms(factor, &record.like, start) {
                    let next = places.prior.len();
                    if let alloc::collections::btree_map::Entry::Vacant(new) =
                        places.at.entry((factor, term))
                    {
                        new.insert(next);
                        places.prior.push(deviation);
                    }
                }
            }
        }
        places
    }

    /// Whether some record speaks of a term.
    pub(super) fn knows(&self, factor: Learns, term: Term) -> bool {
        self.at.contains_key(&(factor, term))
    }

    /// How many unknowns there are.
    pub(super) const fn len(&self) -> usize {
        self.prior.len()
    }

    /// A factor as a sum of unknowns, and what of it no record speaks of: terms with their weight and
    /// deviation.
    pub(super) fn sum(
        &self,
        factor: Learns,
        like: &Likeness,
        start: &Deviations,
    ) -> (Sum, Vec<(Term, f64)>) {
        let mut sum = Sum::new();
        let mut unseen = Vec::new();
        for (term, times, deviation) in terms(factor, like, start) {
            match self.at.get(&(factor, term)) {
                Some(at) => sum.push((*at, times)),
                None => unseen.push((term, times * deviation)),
            }
        }
        (sum, unseen)
    }

    /// What is known of the unknowns before any record: each about 0, burn and wear of one term
    /// together.
    pub(super) fn prior(&self, start: &Deviations) -> Information {
        let mut known = Information::none(self.len());
        let together = start.burn_and_wear.clamp(-0.99, 0.99);
        for (&(factor, term), &at) in &self.at {
            let precision = 1.0 / (self.prior[at] * self.prior[at]);
            let other = match factor {
                Learns::Burn => self.at.get(&(Learns::Wear, term)),
                Learns::Wear => self.at.get(&(Learns::Burn, term)),
                Learns::Handling | Learns::Gap => None,
            };
            let Some(&other) = other else {
                known.add(at, at, precision);
                continue;
            };
            let apart = precision / (1.0 - together * together);
            known.add(at, at, apart);
            // Once for both.
            if factor == Learns::Burn {
                known.add(at, other, -together * apart);
            }
        }
        known
    }
}
