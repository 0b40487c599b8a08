//! The sampling plan that was asked for, for the parts that a paper is about.

use quillbore_calc::standards::sampling::{InspectionLevel, plan};
use quillbore_job::inspected;

use crate::matter::Matter;

/// The plan in a sentence; nothing where none was asked for or the lot is not known.
pub(crate) fn said(matter: &Matter<'_>) -> Option<String> {
    let (level, limit) = inspected::sampling_asked(matter.job)?;
    let lot = matter.follows().quantity.filter(|lot| *lot > 0)?;
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
