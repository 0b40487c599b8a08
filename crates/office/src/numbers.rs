//! Numbers of jobs: a year and a running number, taken by making the file, so that two desks never
//! get the same.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::{Datelike as _, NaiveDate};
use quillbore_job::Job;

use crate::names::{HIGHEST_NUMBER, JobKey};
use crate::save::{Opened, SaveError, content, save};
use crate::shelf::{CommitError, Cursor, Doc, Shelf, Version};

/// The first number of a year.
const FIRST: u32 = 101;

/// How often another desk may be faster.
const TRIES: u32 = 10_000;

/// The number above all those of the year that a shelf has, or, where somebody took the last one, the
/// one above the highest that has a free one above it; only a guess until a job has it.
///
/// # Errors
/// Where the shelf can't be reached, or has no number left.
pub fn next_number(shelf: &dyn Shelf, day: NaiveDate) -> Result<JobKey, SaveError> {
    let year = u32::try_from(day.year().rem_euclid(100)).unwrap_or(0);
    let highest = shelf.highest_number(year)?;
    let next = match highest {
        None => FIRST,
        Some(highest) if highest < HIGHEST_NUMBER => highest + 1,
        Some(_) => next_free(shelf, year)?.ok_or(SaveError::NoNumberLeft { year })?,
    };
    Ok(JobKey::new(&format!("{year:02}-{:04}", next.max(FIRST)))?)
}

/// The number above the highest of the year that has a free one above it.
fn next_free(shelf: &dyn Shelf, year: u32) -> Result<Option<u32>, SaveError> {
    let all = shelf.changes(&Cursor::default())?.there;
    let numbers = all.iter().filter_map(|doc| match doc {
        Doc::Job(key) => key.number_of(year),
        Doc::Shop => None,
    });
    let taken: BTreeSet<u32> = numbers.collect();
    let free = |number: &u32| *number <= HIGHEST_NUMBER && !taken.contains(number);
    Ok(taken.iter().rev().map(|number| number + 1).find(free))
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
    let numbered = |key: &JobKey| {
        Arc::new(Job {
            number: key.as_str().to_owned(),
            opened: job.opened.or(Some(day)),
            ..job.clone()
        })
    };
    // A line broke when it was saved before: it may have its number already.
    for (doc, version) in shelf.not_known() {
        let Doc::Job(key) = &doc else { continue };
        let ours = numbered(key);
        if Version::of(&content(&ours)?) == version
            && shelf
                .read(&doc)?
                .is_some_and(|there| there.version == version)
        {
            return save(shelf, key, &ours, Some(version));
        }
    }
    let mut last = None;
    for _ in 0..TRIES {
        let key = next_number(shelf.as_ref(), day)?;
        let numbered = numbered(&key);
        match save(shelf, &key, &numbered, None) {
            // Another desk was faster.
            Err(SaveError::Commit(CommitError::Taken(doc))) => last = Some(CommitError::Taken(doc)),
            other => return other,
        }
    }
    let year = u32::try_from(day.year().rem_euclid(100)).unwrap_or(0);
    Err(last.map_or(SaveError::NoNumberLeft { year }, SaveError::Commit))
}
