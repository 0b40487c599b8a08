//! Two desks' work on one job put together.

use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::merge::{Clash, merge};

use super::base::Office;
use super::read::{NotRead, stored};
use crate::failure::Failure;
use crate::save::{Opened, SaveError, save};
use crate::words::office as words;

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
        let there = stored(opened.shelf.as_ref(), &opened.key);
        let (base, version) = there.map_err(|not| match not {
            NotRead::Shelf(error) => error.into(),
            NotRead::NotThere => words::gone(&opened.key),
            NotRead::NoJob(why) => Failure::new(why.to_string(), why.hint()),
        })?;
        let theirs = Opened {
            version,
            base,
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
