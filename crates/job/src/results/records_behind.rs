//! Deliveries of parts that the run records don't tell of yet.

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

/// That fewer parts came out good of a mark, by the run records, than were delivered; told at the newest
/// delivery, of the marks that are recorded at all.
pub(super) fn records_behind(job: &Job, form: Form) -> Option<SideNote> {
    let newest = job.slips_of::<kind::Delivery>().next_back()?;
    let parts = sum::<kind::Delivery, _>(job, line::Count);
    let mut good: BTreeMap<String, u64> = BTreeMap::new();
    for run in job.slips_of::<kind::Run>() {
        if let (Some(mark), Some(parts)) = (same_mark(run.get(line::Mark)), run.get(line::Good)) {
            *good.entry(mark).or_default() += u64::from(parts);
        }
    }
    let behind = job.rows.iter().filter_map(|row| {
        let mark = row.mark.text().trim();
        let good = *good.get(&same_mark(mark)?)?;
        (good < u64::from(parts)).then(|| (mark.to_owned(), good))
    });
    let behind: Vec<(String, u64)> = behind.collect();
    (!behind.is_empty()).then(|| {
        let said = words::records_behind(parts, &behind, form);
        let beside = Beside::Slip(newest.id(), None);
        SideNote::new(Level::Check, NoteKind::RecordsBehind, beside, said)
    })
}
