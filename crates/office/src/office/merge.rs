//! Two desks' work on one job put together.

use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::file::read_job;
use quillbore_job::merge::{Clash, merge};

use super::base::Office;
use crate::failure::Failure;
use crate::save::{Opened, SaveError, save};
use crate::shelf::Doc;

/// Two desks' work put together.
#[derive(Debug)]
pub struct MergedWork {
    /// The job with both desks' work.
    pub job: Arc<Job>,
    /// What of either does not stand in it.
    pub clashes: Vec<Clash>,
    /// What the other desk had saved, which the merged job rests on.
    pub theirs: Opened,
    /// The merged job as saved, or why it could not be.
    pub saved: Result<Opened, SaveError>,
}

impl Office {
    /// Puts the other desk's work and ours together, and saves it; where saving is refused the
    /// merged job is given back unsaved.
    ///
    /// # Errors
    /// Where what the other desk saved can't be read, or both together are more than a job can hold.
    pub fn merge(&self, ours: &Job, opened: &Opened) -> Result<MergedWork, Failure> {
        let doc = Doc::Job(opened.key.clone());
        let stored = opened.shelf.read(&doc)?;
        let stored = stored.ok_or_else(|| {
            Failure::new(
                format!("Job {} is gone from the shelf", opened.key),
                "save it under this or another name as a new job",
            )
        })?;
        let theirs = read_job(&stored.bytes)
            .map_err(|error| Failure::new(error.to_string(), error.hint()))?;
        let theirs = Opened {
            version: stored.version,
            base: Arc::new(theirs),
            ..opened.clone()
        };
        let merged = merge(&opened.base, ours, &theirs.base)
            .map_err(|refused| Failure::new(refused.to_string(), refused.hint()))?;
        let job = Arc::new(merged.job);
        let saved = save(&opened.shelf, &opened.key, &job, Some(theirs.version));
        Ok(MergedWork {
            job,
            clashes: merged.clashes,
            theirs,
            saved,
        })
    }
}
