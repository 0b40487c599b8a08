//! Reading a job off a shelf.

use std::path::PathBuf;
use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::file::{ReadError, read_job};
use quillbore_job::shop::sheet::read_sheet;

use crate::failure::Failure;
use crate::names::JobKey;
use crate::save::Opened;
use crate::shelf::{Doc, Shelf, ShelfError, Stored, Version};
use crate::words::office as words;

/// A job as it stands on a shelf.
///
/// # Errors
/// Where it is not there, can't be read or is no job.
pub(crate) fn read(shelf: &Arc<dyn Shelf>, key: &JobKey) -> Result<Opened, Failure> {
    opened(shelf, key, shelf.read(&Doc::Job(key.clone())))
}

/// The same of what was found under its name.
fn opened(
    shelf: &Arc<dyn Shelf>,
    key: &JobKey,
    found: Result<Option<Stored>, ShelfError>,
) -> Result<Opened, Failure> {
    let place = || PathBuf::from(shelf.place());
    let (job, version) = job_in(found).map_err(|not| match not {
        NotRead::Shelf(error) => error.into(),
        NotRead::NotThere => words::no_such_job(key, &place()),
        NotRead::NoJob(_) if is_shop(shelf.as_ref(), key) => words::shop_as_job(key, &place()),
        NotRead::NoJob(why) => words::no_job(key, &why, &place()),
    })?;
    Ok(Opened {
        shelf: Arc::clone(shelf),
        key: key.clone(),
        version,
        base: job,
        mark: shelf.mark()?,
    })
}

/// A job as it stands on a shelf, kept for the time when that is away; where it is away now, the job as
/// it was seen last, and whether it is that.
///
/// # Errors
/// As [`read`], and where it was never seen here.
pub(crate) fn read_or_seen(
    shelf: &Arc<dyn Shelf>,
    key: &JobKey,
) -> Result<(Opened, bool), Failure> {
    let doc = Doc::Job(key.clone());
    let found = shelf.read(&doc);
    if let Ok(Some(stored)) = &found {
        shelf.keep_seen(&doc, stored);
    }
    let is_away = matches!(
        found,
        Err(ShelfError::NoServer { .. } | ShelfError::NoEntry { .. })
    );
    let seen = is_away.then(|| shelf.last_seen(&doc)).flatten();
    let seen = seen.and_then(|seen| Some((read_job(&seen.bytes).ok()?, seen.version)));
    match seen {
        Some((job, version)) => {
            let as_seen = Opened {
                shelf: Arc::clone(shelf),
                key: key.clone(),
                version,
                base: Arc::new(job),
                mark: shelf.known_mark(),
            };
            Ok((as_seen, true))
        }
        None => Ok((opened(shelf, key, found)?, false)),
    }
}

/// Whether what has a job's name are the data of a shop.
fn is_shop(shelf: &dyn Shelf, key: &JobKey) -> bool {
    let stored = shelf.read(&Doc::Job(key.clone()));
    matches!(stored, Ok(Some(stored)) if read_sheet(&stored.bytes).is_ok())
}

/// Why there is no job to be read.
pub(super) enum NotRead {
    /// The shelf can't be read.
    Shelf(ShelfError),
    /// Nothing has its name.
    NotThere,
    /// What has its name is no job.
    NoJob(ReadError),
}

/// The job that a shelf has under a name, and what its content is known by.
///
/// # Errors
/// Where it is not there, can't be read or is no job.
pub(super) fn stored(shelf: &dyn Shelf, key: &JobKey) -> Result<(Arc<Job>, Version), NotRead> {
    job_in(shelf.read(&Doc::Job(key.clone())))
}

fn job_in(found: Result<Option<Stored>, ShelfError>) -> Result<(Arc<Job>, Version), NotRead> {
    let stored = found.map_err(NotRead::Shelf)?.ok_or(NotRead::NotThere)?;
    let job = read_job(&stored.bytes).map_err(NotRead::NoJob)?;
    Ok((Arc::new(job), stored.version))
}
