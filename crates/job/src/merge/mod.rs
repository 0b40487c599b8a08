//! Two desks changed one job: what each of them did put together, cell by cell.

pub(crate) mod clash;
mod hung;
mod identities;
pub(crate) mod keyed;
mod papers;
pub(crate) mod refused;
mod rows;
mod slips;
mod three;

use std::sync::Arc;

pub use clash::{Clash, Met, Side, Typed};
pub use refused::MergeRefused;

use crate::edits::apply::cells::read_angles_again;
use crate::file::write::write_job;
use crate::ground::limits::{MOST_ROWS, MOST_SLIPS};
use crate::ground::text::LARGEST_FILE;
use crate::job::Job;
use crate::pinned::report::{MOST_REPORTS, Report};
use crate::typed::field::Field;
use keyed::{Stands, entries, stands};
use three::Three;

/// Both desks' work in one job, and where they met.
#[derive(Clone, Debug, PartialEq)]
pub struct Merged {
    /// The job with both desks' work; where both changed the same thing, ours stands.
    pub job: Job,
    /// What either of them did that does not stand.
    pub clashes: Vec<Clash>,
}

/// Puts together what we and they made of `base`: what only one of the two touched is taken as they
/// left it; new rows, slips and papers of both stay. What comes out can be saved.
///
/// The unit that the job is shown and typed in stays ours: it must not change under somebody's
/// hands. Where both desks gave one identity to new rows or slips, ours get new ones.
///
/// # Errors
/// Where both together are more than one job can hold.
pub fn merge(base: &Job, ours: &Job, theirs: &Job) -> Result<Merged, MergeRefused> {
    let mut clashes = Vec::new();
    let mut job = head(base, ours, theirs, &mut clashes);
    let all = [base, ours, theirs].map(|side| &*side.fields);
    let measured = |field: Field| field.kind().is_measured();
    let fields = entries(Field::ALL.chunks(1), measured, all, |field, lost| {
        clashes.push(Clash::Field(field, lost));
    });
    job.fields = Arc::new(fields);
    // What is read with the fields is read with those that stand, in all three: what then differs
    // was typed.
    let read_with = |side: &Job| {
        let mut side = side.clone();
        side.fields = Arc::clone(&job.fields);
        read_angles_again(&mut side);
        side
    };
    let [base, ours, theirs] = [base, ours, theirs].map(read_with);
    let ours = identities::made_new(&base, ours, &theirs)?;
    let ours = papers::told_apart(&base, ours, &theirs, &mut clashes);
    let three = Three { base, ours, theirs };
    let largest = |part: fn(&Job) -> u32| three.each(|job| job).map(part).into_iter().max();
    job.next_row = largest(|job| job.next_row).unwrap_or_default();
    job.next_slip = largest(|job| job.next_slip).unwrap_or_default();
    job.rows = rows::merged(&three, &mut clashes).into();
    job.overrules = hung::overrules(&three, &job, &mut clashes).into();
    job.answers = hung::answers(&three, &job, &mut clashes).into();
    job.slips = slips::merged(&three, &mut clashes);
    job.issued = papers::of_both(&three);
    job.reports = reports(&three);
    check(&job)?;
    Ok(Merged { job, clashes })
}

/// Number, day and unit.
fn head(base: &Job, ours: &Job, theirs: &Job, clashes: &mut Vec<Clash>) -> Job {
    let mut job = Job {
        number: ours.number.clone(),
        opened: ours.opened,
        unit: ours.unit,
        ..Job::default()
    };
    match stands(&base.number, &ours.number, &theirs.number) {
        Stands::Ours => {}
        Stands::Theirs => job.number.clone_from(&theirs.number),
        Stands::Met => clashes.push(Clash::Number(theirs.number.clone())),
    }
    match stands(&base.opened, &ours.opened, &theirs.opened) {
        Stands::Ours => {}
        Stands::Theirs => job.opened = theirs.opened,
        Stands::Met => clashes.push(Clash::Opened(theirs.opened)),
    }
    if theirs.unit != base.unit && theirs.unit != ours.unit {
        clashes.push(Clash::Unit(theirs.unit));
    }
    job
}

/// The reports of both desks' tables: theirs, but for those whose rows we took back, and ours that
/// are new. Two tables may have the same report.
fn reports(three: &Three) -> Vec<Arc<Report>> {
    let [base, ours, theirs] = three.each(|job| &job.reports);
    let mut reports = theirs.clone();
    for gone in without(base, ours) {
        if let Some(at) = reports.iter().position(|report| *report == gone) {
            reports.remove(at);
        }
    }
    reports.extend(without(ours, base));
    reports
}

/// The reports of one list that are left when each of another takes one like it away.
fn without(these: &[Arc<Report>], those: &[Arc<Report>]) -> Vec<Arc<Report>> {
    let mut left = these.to_vec();
    for that in those {
        if let Some(at) = left.iter().position(|this| this == that) {
            left.remove(at);
        }
    }
    left
}

/// Whether one job can hold it.
fn check(job: &Job) -> Result<(), MergeRefused> {
    if job.rows.len() > MOST_ROWS {
        return Err(MergeRefused::TooManyRows { most: MOST_ROWS });
    }
    if job.slips.len() > MOST_SLIPS {
        return Err(MergeRefused::TooManySlips { most: MOST_SLIPS });
    }
    if job.reports.len() > MOST_REPORTS {
        return Err(MergeRefused::TooManyReports { most: MOST_REPORTS });
    }
    if write_job(job).len() as u64 > LARGEST_FILE {
        return Err(MergeRefused::TooLarge);
    }
    Ok(())
}
