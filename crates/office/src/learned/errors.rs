//! How far estimates were off as time went on: each lot by what was known before it.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use quillbore_calc::learn::{Evidence, Factor, Learns, Lessons};
use quillbore_job::Shop;

use crate::names::JobKey;
use crate::pool::{Source, Teaching};

/// What looking back may cost: lots times the records before them.
const MOST_WORK: usize = 40_000;

/// How far the estimate of a lot was off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ErrorAt {
    /// The day of its newest record.
    pub date: NaiveDate,
    /// Factor between what it took and what the start values say, 1 and up.
    pub by_start: f64,
    /// The same of what the records before it say.
    pub by_records: f64,
}

/// Lots with minutes, the oldest first; of very many the newest.
pub(super) fn all(teaching: &Teaching, shop: &Shop) -> Vec<ErrorAt> {
    let mut lots: BTreeMap<Option<&JobKey>, Vec<&Source>> = BTreeMap::new();
    for source in teaching.sources.iter() {
        lots.entry(source.job.as_ref()).or_default().push(source);
    }
    let mut dated: Vec<(NaiveDate, Vec<Evidence>)> = (lots.into_values())
        .filter_map(|sources| {
            let date = sources
                .iter()
                .filter_map(|source| source.taught.date)
                .max()?;
            let told = |source: &&Source| Some(source.taught.says.as_ref().ok()?.evidence);
            Some((date, sources.iter().filter_map(told).collect()))
        })
        .collect();
    dated.sort_by_key(|(date, _)| *date);
    let records: usize = dated.iter().map(|(_, told)| told.len()).sum();
    let shown = (MOST_WORK / records.max(1)).clamp(1, dated.len().max(1));
    let mut before: Vec<Evidence> = Vec::new();
    let mut errors = Vec::new();
    for (at, (date, told)) in dated.iter().enumerate() {
        if at + shown >= dated.len() {
            let lessons = Lessons::of(before.clone(), &shop.tables.start);
            errors.extend(error(*date, told, &lessons));
        }
        before.extend(told.iter().map(|told| {
            let mut told = *told;
            told.record.lot = u32::try_from(at).unwrap_or(u32::MAX);
            told
        }));
    }
    errors
}

/// How far a lot's minutes were off, all its records together.
fn error(date: NaiveDate, told: &[Evidence], lessons: &Lessons) -> Option<ErrorAt> {
    let (mut actual, mut by_start, mut expected) = (0.0, 0.0, 0.0);
    for record in told.iter().map(|told| &told.record) {
        let factors = match lessons.learned() {
            Some(learned) => learned.predict(&record.like).factors,
            None => [Factor::default(); 4],
        };
        let of = |factor: Learns| libm::exp(factors[factor as usize].mean);
        if let Some(burn) = record.burn {
            // By holes, since a ratio has no minutes of its own.
            actual += record.holes * burn.of_planned;
            by_start += record.holes;
            expected += record.holes * of(Learns::Burn);
        } else if let Some(floor) = record.floor {
            let scale = record.holes / floor.planned();
            actual += floor.minutes * scale;
            by_start += record.holes;
            expected += scale * floor.by_factors(of);
        }
    }
    let off = |estimate: f64| libm::exp(libm::fabs(libm::log(actual / estimate)));
    (by_start > 0.0).then(|| ErrorAt {
        date,
        by_start: off(by_start),
        by_records: off(expected),
    })
}
