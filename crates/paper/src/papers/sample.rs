//! The sampling plan that was asked for, for the parts that a paper is about, and how far it is looked at.

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
    so_far_of(matter).unwrap_or_default()
}

fn so_far_of(matter: &Matter<'_>) -> Option<Vec<String>> {
    let (level, limit, lot) = asked(matter)?;
    let plan = plan(lot, level, limit)?;
    let sample = if plan.all { lot } else { plan.sample };
    let parts = inspected::parts(matter.job);
    let inspections = Inspections::of(matter.job, &parts);
    let mut groups: Vec<(u32, Vec<RowId>)> = Vec::new();
    let mut not_good = 0_u32;
    for row in &matter.job.rows {
        let found = inspections.checked(row);
        not_good = not_good.saturating_add(found.not_good);
        match groups.iter_mut().find(|(parts, _)| *parts == found.parts) {
            Some((_, rows)) => rows.push(row.id),
            None => groups.push((found.parts, vec![row.id])),
        }
    }
    let least = groups.iter().map(|(parts, _)| *parts).min()?;
    let words = &matter.words().inspection;
    let counts = groups.into_iter().map(|(parts, rows)| {
        (words.sample_so_far)(matter.form(), &matter.marks(rows), [parts, sample])
    });
    let state = state(&plan, least >= sample, not_good);
    let state = (words.sample_state)(state).to_owned();
    Some(counts.chain([state]).collect())
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
