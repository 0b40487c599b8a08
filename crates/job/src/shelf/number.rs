//! Numbers of jobs: a year and a running number, taken by making the file, so that two desks never
//! get the same.

use std::io;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;

use crate::file::{Disk, Hash, SaveError, save};
use crate::job::Job;

/// The first number of a year.
const FIRST: u32 = 101;

/// The number above all those of the year that a shelf has; only a guess until a file has it.
///
/// # Errors
/// Where the folder can't be listed.
pub fn free_number(shelf: &Path, day: NaiveDate) -> io::Result<String> {
    let year = day.format("%y-").to_string();
    let mut last = FIRST - 1;
    for entry in std::fs::read_dir(shelf)?.flatten() {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        // The folder of a job that was taken away keeps its number too.
        let stem = name
            .strip_suffix(".ron")
            .or_else(|| name.strip_suffix(".files"));
        let number = stem.and_then(|stem| stem.strip_prefix(&year)?.parse::<u32>().ok());
        last = last.max(number.unwrap_or(0));
    }
    Ok(format!("{year}{:04}", last.saturating_add(1)))
}

/// Saves a job that has no file yet under the first number that nobody else takes meanwhile; its
/// path, and the job as it was saved.
///
/// # Errors
/// Where the folder can't be listed or the file can't be written.
pub fn save_under_next_number(
    disk: &dyn Disk,
    shelf: &Path,
    job: &Job,
    day: NaiveDate,
) -> Result<(PathBuf, Job, Hash), SaveError> {
    const TRIES: u32 = 10_000;
    let listing = |error| SaveError::Step {
        step: crate::file::SaveStep::ReadOld,
        error,
    };
    let mut job = Job {
        opened: job.opened.or(Some(day)),
        ..job.clone()
    };
    for _ in 0..TRIES {
        job.number = free_number(shelf, day).map_err(listing)?;
        let path = shelf.join(format!("{}.ron", job.number));
        match save(disk, &path, &job, None) {
            Ok(hash) => return Ok((path, job, hash)),
            // Another desk was faster.
            Err(SaveError::Taken) => {}
            Err(error) => return Err(error),
        }
    }
    Err(SaveError::Taken)
}
