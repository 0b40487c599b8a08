//! What the office does with one job at a time: opened, saved, merged, printed, looked up. Nothing
//! here knows a window, and everything waits for the disk, so the window asks through
//! [`crate::clerk`].

mod attach;
mod open;
mod print_into;
pub mod reprint;
mod save_as;

use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::file::read_job;
use quillbore_job::merge::{Clash, merge};
use quillbore_job::{Field, Job, Shop};

use crate::disk::Disk;
use crate::failure::Failure;
use crate::files;
use crate::names::JobKey;
use crate::numbers::save_as_next;
use crate::save::{Opened, SaveError, save};
use crate::shelf::{Doc, Folder, Shelf};

pub(crate) use open::read;
pub use open::{OnDesk, Wanted};
pub use print_into::Into;
pub use save_as::SavedAs;

/// The office: a shelf, a disk for what lies beyond it, the shop.
#[derive(Clone, Debug)]
pub struct Office {
    /// The shelf.
    pub shelf: Arc<dyn Shelf>,
    /// Its folder, where it is one: paths into it mean jobs of the shelf.
    pub root: Option<PathBuf>,
    /// The disk for what somebody names by a path.
    pub disk: Arc<dyn Disk>,
    /// The shop, with all its rate cards.
    pub shop: Arc<Shop>,
}

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
    /// An office over a shelf in a folder.
    #[must_use]
    pub fn over(shelf: Arc<Folder>, disk: Arc<dyn Disk>, shop: Arc<Shop>) -> Self {
        Self {
            root: Some(shelf.root().to_owned()),
            shelf,
            disk,
            shop,
        }
    }

    /// The shop with the rates in force on a day.
    #[must_use]
    pub fn shop_on(&self, day: NaiveDate) -> Shop {
        files::shop_on(&self.shop, day)
    }

    /// Saves a job over what it was opened from, or on the shelf under the next number.
    ///
    /// # Errors
    /// Where somebody saved meanwhile, it would not open again, or a step fails.
    pub fn save(
        &self,
        job: &Arc<Job>,
        opened: Option<&Opened>,
        day: NaiveDate,
    ) -> Result<Opened, SaveError> {
        match opened {
            Some(opened) => save(&opened.shelf, &opened.key, job, Some(opened.version)),
            None => save_as_next(&self.shelf, job, day),
        }
    }

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

    /// The job that another one does again, by the number typed in it, where the shelf has it.
    #[must_use]
    pub fn before(&self, job: &Job) -> Option<Arc<Job>> {
        self.job_numbered(job.text(Field::Again))
    }

    /// The job of a number that somebody typed; none where it names none.
    #[must_use]
    pub fn job_numbered(&self, typed: &str) -> Option<Arc<Job>> {
        let key = JobKey::new(typed.trim()).ok()?;
        let stored = self.shelf.read(&Doc::Job(key)).ok()??;
        read_job(&stored.bytes).ok().map(Arc::new)
    }
}
