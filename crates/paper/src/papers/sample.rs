//! The sampling plan that was asked for, for the parts that a paper is about, and how far it is looked at.

use std::collections::BTreeMap;

use quillbore_calc::RowId;
use quillbore_calc::standards::sampling::{InspectionLevel, SamplingPlan, plan};
use quillbore_job::inspected::{self, Inspections};

use crate::matter::Matter;
use crate::words::customer::SampleState;

/// The plan in a sentence; nothing where none was asked for or the lot is not known.
pub(crate) fn said(matter: &Matter<'_>) -> Option<String> {
    let (level, limit, lot) = asked(matter)?;
    let form = matter.form();
    let words = &matter.words().inspection;
    let named = match level {
        InspectionLevel::Special(number) => format!("S-{number}"),
        InspectionLevel::General(number) => "I".repeat(usize::from(number)),
    };
    let asked = (words.sampling)(&named, &form.number(limit, 3));
    Some(match plan(lot, level, limit) {
        None => (words.no_plan)(&asked),
        Some(plan) if plan.all => (words.all_sampled)(&asked, plan.letter),
        Some(plan) => {
            let [sample, lot, accept, reject] = [plan.sample, lot, plan.accept, plan.accept + 1]
                .map(|count| form.count(f64::from(count)));
            (words.sampled)(
                &asked,
                [&sample, &lot, &accept, &reject],
                [plan.letter, plan.plan],
            )
        }
    })
}

/// How far the sample is looked at, marks alike together, and what it comes to; nothing where none was asked for.
pub(crate) fn so_far(matter: &Matter<'_>) -> Vec<String> {
    let Some(looked) = Looked::at(matter) else {
        return Vec::new();
    };
    let words = &matter.words().inspection;
    let counts = looked.groups.into_iter().map(|(parts, rows)| {
        let marks = matter.marks(rows);
        (words.sample_so_far)(matter.form(), &marks, [parts, looked.sample])
    });
    let state = (words.sample_state)(looked.state).to_owned();
    counts.chain([state]).collect()
}

/// What the sample comes to, where one was asked for.
pub(crate) fn comes_to(matter: &Matter<'_>) -> Option<&'static str> {
    Some((matter.words().inspection.sample_state)(
        Looked::at(matter)?.state,
    ))
}

/// A sample as it is looked at.
struct Looked {
    /// Parts that it has.
    sample: u32,
    /// Rows by the parts on which all their holes were checked.
    groups: Vec<(u32, Vec<RowId>)>,
    state: SampleState,
}

impl Looked {
    fn at(matter: &Matter<'_>) -> Option<Self> {
        let (level, limit, lot) = asked(matter)?;
        let plan = plan(lot, level, limit)?;
        let sample = if plan.all { lot } else { plan.sample };
        let parts = inspected::parts(matter.job);
        let inspections = Inspections::of(matter.job, &parts);
        let mut groups: Vec<(u32, Vec<RowId>)> = Vec::new();
        let mut known: BTreeMap<u32, usize> = BTreeMap::new();
        let mut not_good = 0_u32;
        for row in &matter.job.rows {
            let found = inspections.checked(row);
            not_good = not_good.saturating_add(found.not_good);
            let at = *known.entry(found.parts).or_insert(groups.len());
            match groups.get_mut(at) {
                Some((_, rows)) => rows.push(row.id),
                None => groups.push((found.parts, vec![row.id])),
            }
        }
        let least = *known.keys().next()?;
        let state = state(&plan, least >= sample, not_good);
        Some(Self {
            sample,
            groups,
            state,
        })
    }
}

/// Holes are on record, the plan counts parts: of a few not good somebody has to say how many parts they are.
fn state(plan: &SamplingPlan, is_complete: bool, not_good: u32) -> SampleState {
    match (is_complete, not_good) {
        (_, 1..) if plan.accept == 0 && !plan.all => SampleState::NotPassed,
        (false, _) => SampleState::Open,
        (true, 0) => SampleState::Passed,
        (true, _) => SampleState::ToBeCounted,
    }
}

/// Level, acceptance quality limit and lot of the plan that was asked for.
fn asked(matter: &Matter<'_>) -> Option<(InspectionLevel, f64, u32)> {
    let (level, limit) = inspected::sampling_asked(matter.job)?;
    let lot = matter.follows().quantity.filter(|lot| *lot > 0)?;
    Some((level, limit, lot))
}
