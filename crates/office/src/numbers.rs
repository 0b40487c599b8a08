//! Numbers of jobs: a year and a running number, taken by making the file, so that two desks never
//! get the same.

use std::sync::Arc;

use chrono::{Datelike as _, NaiveDate};
use quillbore_job::Job;

use crate::names::JobKey;
use crate::save::{Opened, SaveError, save};
use crate::shelf::{CommitError, Shelf};

/// The first number of a year.
const FIRST: u32 = 101;

/// How often another desk may be faster.
const TRIES: u32 = 10_000;

/// The number above all those of the year that a shelf has; only a guess until a job has it.
///
/// # Errors
/// Where the shelf can't be reached, or has no number left.
pub fn next_number(shelf: &dyn Shelf, day: NaiveDate) -> Result<JobKey, SaveError> {
    let year = u32::try_from(day.year().rem_euclid(100)).unwrap_or(0);
    let highest = shelf.highest_number(year)?;
    let next = highest.map_or(Some(FIRST), |highest| highest.checked_add(1));
    let next = next.ok_or(SaveError::NoNumberLeft { year })?;
    Ok(JobKey::new(&format!("{year:02}-{:04}", next.max(FIRST)))?)
}

/// Saves a job that is on no shelf yet under the first number that nobody else takes meanwhile; the
/// job has it then.
///
/// # Errors
/// Where there is no number, or the job can't be saved.
pub fn save_as_next(
    shelf: &Arc<dyn Shelf>,
    job: &Job,
    day: NaiveDate,
) -> Result<Opened, SaveError> {
    let mut last = None;
    for _ in 0..TRIES {
        let key = next_number(shelf.as_ref(), day)?;
        let numbered = Arc::new(Job {
            number: key.as_str().to_owned(),
            opened: job.opened.or(Some(day)),
            ..job.clone()
        });
        match save(shelf, &key, &numbered, None) {
            // Another desk was faster.
            Err(SaveError::Commit(CommitError::Taken(doc))) => last = Some(CommitError::Taken(doc)),
            other => return other,
        }
    }
    let year = u32::try_from(day.year().rem_euclid(100)).unwrap_or(0);
    Err(last.map_or(SaveError::NoNumberLeft { year }, SaveError::Commit))
}
