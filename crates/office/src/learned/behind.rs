//! What stands behind one figure: what shop, machine, material and size each make of it, and which
//! records.

use quillbore_calc::learn::{Learns, Likeness, Term};
use quillbore_calc::quantity::Z90;
use quillbore_job::Shop;

use crate::pool::{Source, Teaching};

/// What stands behind a factor on a start value.
#[derive(Clone, Debug, PartialEq)]
pub struct BehindFactor {
    /// Low, likely, high, for a lot to come.
    pub made: [f64; 3],
    /// Low and high by the start values alone.
    pub start: [f64; 2],
    /// What each part makes of it.
    pub parts: Vec<(Part, f64)>,
    /// Records of the same material that speak of it, the newest first, each with how far it is believed.
    pub records: Vec<(Source, f64)>,
}

/// A part of a factor, by what the shop calls it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// The shop.
    Shop,
    /// A machine.
    Machine(String),
    /// The family of the material.
    Family,
    /// The material.
    Material(String),
    /// The electrode's material.
    Electrode,
    /// The class of size.
    Size,
    /// How size and depth go on.
    SizeAndDepth,
}

/// What stands behind a factor for a lot like this one; none where no record speaks of it.
#[must_use]
pub fn behind(
    teaching: &Teaching,
    shop: &Shop,
    like: &Likeness,
    factor: Learns,
) -> Option<BehindFactor> {
    let lessons = &teaching.lessons;
    let learned = lessons.learned()?;
    let foreseen = learned.predict(like).factors[factor as usize];
    let start = factor.at_start(&shop.tables.start.deviations, like);
    let believed = learned.believed();
    let speaks = |source: &Source| {
        let Ok(told) = &source.taught.says else {
            return false;
        };
        let record = &told.evidence.record;
        let same = match factor {
            Learns::Burn | Learns::Wear => record.like.grade == like.grade,
            Learns::Handling => record.like.machine == like.machine,
            Learns::Gap => true,
        };
        same && record.speaks_of(factor)
    };
    let sources = teaching.sources.iter().zip(believed);
    let of_it = sources.filter(|(source, _)| speaks(source));
    let mut records: Vec<(Source, f64)> = of_it
        .map(|(source, believed)| (source.clone(), believed.weight))
        .collect();
    records.sort_by_key(|(source, _)| core::cmp::Reverse(source.taught.date));
    let named = |(term, part): (Term, f64)| Some((part_of(term, shop)?, part));
    let mut parts: Vec<(Part, f64)> = Vec::new();
    for (part, logarithm) in learned.parts(factor, like).into_iter().filter_map(named) {
        match parts.iter_mut().find(|(known, _)| *known == part) {
            Some((_, sum)) => *sum += logarithm,
            None => parts.push((part, logarithm)),
        }
    }
    for (_, part) in &mut parts {
        *part = libm::exp(*part);
    }
    let at = |z: f64| libm::exp(foreseen.mean + z * foreseen.sigma());
    Some(BehindFactor {
        made: [at(-Z90), at(0.0), at(Z90)],
        start: [libm::exp(-Z90 * start), libm::exp(Z90 * start)],
        parts,
        records,
    })
}

fn part_of(term: Term, shop: &Shop) -> Option<Part> {
    let tables = &shop.tables;
    Some(match term {
        // With one machine nobody can tell shop and machine apart.
        Term::Machine(_) if tables.machines.len() < 2 => Part::Shop,
        Term::Shop => Part::Shop,
        Term::Machine(at) => Part::Machine(tables.machines.get(at as usize)?.name.clone()),
        Term::Family(_) => Part::Family,
        Term::Grade(at) => Part::Material(tables.materials.get(at as usize)?.name.clone()),
        Term::Electrode(_) => Part::Electrode,
        Term::SizeClass(..) => Part::Size,
        Term::ByDiameter | Term::ByDepth => Part::SizeAndDepth,
    })
}
