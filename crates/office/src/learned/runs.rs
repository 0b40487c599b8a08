//! Every run record against its estimate.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use quillbore_calc::learn::{Evidence, Factor, Learns, Lessons, Told};
use quillbore_calc::quantity::Z90;
use quillbore_job::Shop;
use quillbore_job::taught::{Taught, Why};

use super::groups::{KindOfWork, kind_of};
use crate::names::JobKey;
use crate::pool::{Pool, Teaching};

/// Beyond so many deviations a record is worth a look.
const FLAGGED: f64 = 3.0;

/// A run record against its estimate.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Its job.
    pub job: JobKey,
    /// Its slip in the job.
    pub slip: u32,
    /// Its day.
    pub date: Option<NaiveDate>,
    /// The mark that it names.
    pub mark: String,
    /// The material, as the shop calls it; empty where nothing is known of the record.
    pub material: String,
    /// Holes drilled.
    pub holes: f64,
    /// Minutes: by the spark counter where that is known, else by the clock.
    pub minutes: Option<Minutes>,
    /// The kind of work it was, where the shop still has its material.
    pub kind: Option<KindOfWork>,
    /// Length lost over what the start values say.
    pub wear: Option<Wear>,
    /// Whether it teaches.
    pub teaches: Teaches,
    /// Figures of it that can't be used.
    pub without: Vec<Why>,
}

/// Minutes of a record [min].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Minutes {
    /// They are by the clock, and not by the spark counter.
    pub by_clock: bool,
    /// What the start values say.
    pub by_start: f64,
    /// What all records together say of such a lot: low, likely, high.
    pub expected: [f64; 3],
    /// As recorded.
    pub actual: f64,
}

/// Length lost over what the start values say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wear {
    /// As recorded.
    pub actual: f64,
    /// What all records together say of such a lot: low, likely, high.
    pub expected: [f64; 3],
}

/// Whether a record teaches.
#[derive(Clone, Debug, PartialEq)]
pub enum Teaches {
    /// It does, with this weight: 1 and more where it fits, little where it is far off.
    Yes {
        /// The least weight of its figures.
        weight: f64,
        /// The figure of it that is so far off that it is worth a look, and what it is of what is
        /// expected.
        far_off: Option<(Told, f64)>,
    },
    /// It doesn't, for this reason.
    No(Why),
}

/// Every record of a pool, the oldest first.
pub(super) fn all(pool: &Pool, teaching: &Teaching, shop: &Shop, day: NaiveDate) -> Vec<Run> {
    let lessons = &teaching.lessons;
    let believed = lessons
        .learned()
        .map_or(&[][..], |learned| learned.believed());
    let places: BTreeMap<(Option<&JobKey>, u32), usize> = (teaching.sources.iter().enumerate())
        .map(|(at, source)| ((source.job.as_ref(), source.taught.slip), at))
        .collect();
    let run = |(job, taught): (&JobKey, &Taught)| {
        let at = places.get(&(Some(job), taught.slip));
        let told = taught.says.as_ref().ok();
        let teaches = match at.and_then(|at| believed.get(*at)) {
            Some(believed) => Teaches::Yes {
                weight: believed.weight,
                far_off: (believed.farthest)
                    .filter(|_| believed.off.abs() > FLAGGED)
                    .zip(told)
                    .and_then(|(what, told)| {
                        Some((what, of_expected(what, &told.evidence, lessons)?))
                    }),
            },
            None => Teaches::No(why(taught, day)),
        };
        let evidence = told.map(|told| &told.evidence);
        let material =
            evidence.and_then(|told| shop.tables.materials.get(told.record.like.grade as usize));
        Run {
            job: job.clone(),
            slip: taught.slip,
            date: taught.date,
            mark: taught.mark.clone(),
            material: material.map_or_else(String::new, |material| material.name.clone()),
            holes: evidence.map_or(0.0, |told| told.record.holes),
            minutes: told.and_then(|told| minutes(&told.evidence, told.planned.burn_min, lessons)),
            kind: evidence.and_then(|told| kind_of(&told.record.like, shop)),
            wear: evidence.and_then(|told| wear(told, lessons)),
            teaches,
            without: taught.without.clone(),
        }
    };
    let mut runs: Vec<Run> = pool.records().map(run).collect();
    runs.sort_by(|a, b| (a.date, &a.job, a.slip).cmp(&(b.date, &b.job, b.slip)));
    runs
}

/// Why a record teaches nothing.
fn why(taught: &Taught, day: NaiveDate) -> Why {
    if !taught.left_out.is_empty() {
        return Why::LeftOut(taught.left_out.clone());
    }
    match &taught.says {
        Err(why) => why.clone(),
        Ok(_) if taught.date.is_some_and(|date| date > day) => Why::NotYet,
        Ok(_) => Why::NotUsed(quillbore_calc::recorded::NotUsed::Nothing),
    }
}

/// What a figure of a record is of what is expected of it.
fn of_expected(what: Told, told: &Evidence, lessons: &Lessons) -> Option<f64> {
    let record = &told.record;
    let learned = lessons.learned()?;
    let factors = learned.predict(&record.like).factors;
    let of = |factor: Learns| libm::exp(factors[factor as usize].mean);
    Some(match what {
        Told::Spark => record.burn?.of_planned / of(Learns::Burn),
        Told::Wear => record.wear?.of_planned / of(Learns::Wear),
        Told::Gap => record.gap?.of_planned / of(Learns::Gap),
        Told::Clock => {
            let floor = record.floor?;
            floor.minutes / floor.by_factors(of)
        }
    })
}

/// What is expected of lots like that of a record: each factor so many deviations from its likely one.
fn foreseen(told: &Evidence, lessons: &Lessons) -> impl Fn(Learns, f64) -> f64 {
    let factors = match lessons.learned() {
        Some(learned) => learned.predict(&told.record.like).factors,
        None => [Factor::default(); 4],
    };
    move |factor, z| {
        let factor = &factors[factor as usize];
        libm::exp(factor.mean + z * factor.sigma())
    }
}

fn wear(told: &Evidence, lessons: &Lessons) -> Option<Wear> {
    let actual = told.record.wear?.of_planned;
    let of = foreseen(told, lessons);
    Some(Wear {
        actual,
        expected: [-Z90, 0.0, Z90].map(|z| of(Learns::Wear, z)),
    })
}

fn minutes(told: &Evidence, burn_min: f64, lessons: &Lessons) -> Option<Minutes> {
    let record = &told.record;
    let of = foreseen(told, lessons);
    if let Some(burn) = record.burn {
        let at = |z| burn_min * of(Learns::Burn, z);
        return Some(Minutes {
            by_clock: false,
            by_start: burn_min,
            expected: [at(-Z90), at(0.0), at(Z90)],
            actual: burn_min * burn.of_planned,
        });
    }
    let floor = record.floor?;
    let at = |z: f64| floor.by_factors(|factor| of(factor, z));
    Some(Minutes {
        by_clock: true,
        by_start: floor.planned(),
        expected: [at(-Z90), at(0.0), at(Z90)],
        actual: floor.minutes,
    })
}
