//! Deliveries of parts whose holes the run records don't tell of yet.

use std::collections::BTreeMap;

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::job::Job;
use crate::life::inspected::same_mark;
use crate::life::parts::sum;
use crate::pinned::slip::lists::{kind, line};
use crate::typed::form::Form;
use crate::words::life as words;

/// That fewer holes came out good, by the run records, than the delivered parts have; told at the newest
/// delivery, of the holes that are recorded at all.
pub(super) fn records_behind(job: &Job, form: Form) -> Option<SideNote> {
    let newest = job.slips_of::<kind::Delivery>().next_back()?;
    let parts = sum::<kind::Delivery, _>(job, line::Count);
    let mut good: BTreeMap<String, u64> = BTreeMap::new();
    for run in job.slips_of::<kind::Run>() {
        if let (Some(mark), Some(holes)) = (same_mark(run.get(line::Mark)), run.get(line::Good)) {
            *good.entry(mark).or_default() += u64::from(holes);
        }
    }
    let behind = job.rows.iter().filter_map(|row| {
        let mark = row.mark.text().trim();
        let good = *good.get(&same_mark(mark)?)?;
        let wanted = u64::from(row.holes()) * u64::from(parts);
        (good < wanted).then(|| (mark.to_owned(), good, wanted))
    });
    let behind: Vec<(String, u64, u64)> = behind.collect();
    (!behind.is_empty()).then(|| {
        let said = words::records_behind(parts, &behind, form);
        let beside = Beside::Slip(newest.id(), None);
        SideNote::new(Level::Check, NoteKind::RecordsBehind, beside, said)
    })
}
