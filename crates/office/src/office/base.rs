//! The office itself: a shelf, a disk for what lies beyond it, the shop.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use chrono::NaiveDate;
use quillbore_job::{Field, Job, Shop};

use super::read::stored;
use super::shop::ShopKept;
use crate::disk::Disk;
use crate::drawer::put_free;
use crate::failure::Failure;
use crate::files;
use crate::names::JobKey;
use crate::numbers::save_as_next;
use crate::pool::{Pool, Teaching};
use crate::save::{Opened, SaveError, save};
use crate::shelf::{Folder, Shelf};

/// The office: a shelf, a disk for what lies beyond it, the shop.
#[derive(Clone, Debug)]
pub struct Office {
    /// The shelf.
    pub shelf: Arc<dyn Shelf>,
    /// Its folder, where it is one: paths into it mean jobs of the shelf.
    pub root: Option<PathBuf>,
    /// The disk for what somebody names by a path.
    pub disk: Arc<dyn Disk>,
    /// The shop as it stands, with all its rate cards.
    pub(super) shop: ShopKept,
    /// The shelf whose run records count.
    pub teaches: Arc<dyn Shelf>,
    /// Those records, as far as they were followed.
    pub pool: Arc<Mutex<Pool>>,
}

impl Office {
    /// An office over a shelf in a folder.
    #[must_use]
    pub fn over(shelf: Arc<Folder>, disk: Arc<dyn Disk>, shop: Arc<Shop>) -> Self {
        let root = Some(shelf.root().to_owned());
        Self::new(shelf, root, disk, shop)
    }

    /// The same office, whose shop is what somebody named on the command line: what the shelf has of it
    /// counts for nothing.
    #[must_use]
    pub fn with_named_shop(mut self) -> Self {
        self.shop.is_named = true;
        self
    }

    /// An office over any shelf; `root` is its folder, where it is one.
    #[must_use]
    pub fn new(
        shelf: Arc<dyn Shelf>,
        root: Option<PathBuf>,
        disk: Arc<dyn Disk>,
        shop: Arc<Shop>,
    ) -> Self {
        Self {
            teaches: Arc::clone(&shelf),
            shelf,
            root,
            disk,
            pool: Arc::new(Mutex::new(Pool::new(Arc::clone(&shop)))),
            shop: ShopKept::new(shop),
        }
    }

    /// The shop with the rates in force on a day.
    #[must_use]
    pub fn shop_on(&self, day: NaiveDate) -> Shop {
        files::shop_on(&self.shop(), day)
    }

    /// The same, with what the run records of the shelf make of its start values.
    ///
    /// A shelf that can't be reached teaches what it taught before.
    #[must_use]
    pub fn shop_as_taught(&self, day: NaiveDate) -> Shop {
        self.shop_as_taught_for(day, None)
    }

    /// The same for a job of the shelf: what it keeps of the drawer itself is free for it.
    #[must_use]
    pub fn shop_as_taught_for(&self, day: NaiveDate, job: Option<&JobKey>) -> Shop {
        let mut shop = self.shop_on(day);
        let records = self.records();
        put_free(&mut shop, &self.shop(), &records, job);
        shop.tables.lessons = records.teaching(day).lessons;
        shop
    }

    /// What the run records of the shelf teach on a day.
    #[must_use]
    pub fn teaching(&self, day: NaiveDate) -> Teaching {
        self.records().teaching(day)
    }

    /// Looks at the run records of the shelf: figures that somebody takes away rest on all of them.
    ///
    /// # Errors
    /// Where they can't be read.
    pub fn look_at_records(&self) -> Result<(), Failure> {
        let mut pool = self.pool.lock().unwrap_or_else(PoisonError::into_inner);
        pool.judge_by(&self.shop());
        pool.look(self.teaches.as_ref())?;
        Ok(())
    }

    /// The run records of the shelf as they stand now.
    #[must_use]
    pub fn records(&self) -> Pool {
        let mut pool = self.pool.lock().unwrap_or_else(PoisonError::into_inner);
        pool.judge_by(&self.shop());
        let _ = pool.look(self.teaches.as_ref());
        pool.clone()
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

    /// The job that another one does again, by the number typed in it, where the shelf has it.
    #[must_use]
    pub fn before(&self, job: &Job) -> Option<Arc<Job>> {
        self.job_numbered(job.text(Field::Again))
    }

    /// The job of a number that somebody typed; none where it names none.
    #[must_use]
    pub fn job_numbered(&self, typed: &str) -> Option<Arc<Job>> {
        let key = JobKey::new(typed.trim()).ok()?;
        let (job, _) = stored(self.shelf.as_ref(), &key).ok()?;
        Some(job)
    }
}
