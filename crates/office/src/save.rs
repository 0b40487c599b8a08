//! Saving a job: only what opens again as this job is ever written.

use std::path::PathBuf;
use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::file::{ReadError, read_job, write_job};

use crate::differs::{Differs, differs};
use crate::names::{JobKey, NameRefused};
use crate::shelf::{Commit, CommitError, Doc, Mark, Shelf, ShelfError, Stored, Version};

/// Why a job could not be saved.
#[derive(Debug)]
pub enum SaveError {
    /// What would be written does not read back as this job; nothing was written.
    WouldNotOpen {
        /// Why it can't be read, where it can't.
        source: Option<ReadError>,
        /// Where it is read as another job, in what.
        differs: Option<Differs>,
    },
    /// No job may have that name.
    Name(NameRefused),
    /// Every number of the year is taken.
    NoNumberLeft {
        /// The year.
        year: u32,
    },
    /// The shelf did not take it.
    Commit(CommitError),
}

impl From<NameRefused> for SaveError {
    fn from(refused: NameRefused) -> Self {
        Self::Name(refused)
    }
}

impl From<CommitError> for SaveError {
    fn from(error: CommitError) -> Self {
        Self::Commit(error)
    }
}

impl From<ShelfError> for SaveError {
    fn from(error: ShelfError) -> Self {
        Self::Commit(error.into())
    }
}

impl SaveError {
    /// Whether nobody said yet that the folder is a shelf.
    #[must_use]
    pub const fn is_no_shelf(&self) -> bool {
        matches!(
            self,
            Self::Commit(CommitError::Shelf(ShelfError::NotMarked { .. }))
        )
    }

    /// Whether somebody else saved the job meanwhile.
    #[must_use]
    pub const fn is_changed(&self) -> bool {
        matches!(self, Self::Commit(CommitError::Changed(_)))
    }
}

/// A job as it stands on a shelf.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The shelf.
    pub shelf: Arc<dyn Shelf>,
    /// What it is called there.
    pub key: JobKey,
    /// What its content is known by.
    pub version: Version,
    /// What is in it.
    pub base: Arc<Job>,
    /// The mark of the shelf, as it was then: a draft names it without asking the shelf.
    pub mark: Option<Mark>,
}

impl Opened {
    /// The job's file, as sentences name it.
    #[must_use]
    pub fn file(&self) -> PathBuf {
        if !self.shelf.is_on_disk() {
            return PathBuf::from(crate::words::save::on_server(
                self.key.as_str(),
                &self.shelf.place(),
            ));
        }
        let place = PathBuf::from(self.shelf.place());
        let name = format!("{}.ron", self.key);
        // A single file is its own place.
        if place
            .file_name()
            .is_some_and(|own| own.to_string_lossy() == name)
        {
            return place;
        }
        place.join(name)
    }

    /// The folder beside it, as sentences name it.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        self.file().with_file_name(format!("{}.files", self.key))
    }
}

impl PartialEq for Opened {
    /// The same content under the same name at the same place.
    fn eq(&self, other: &Self) -> bool {
        let place = |opened: &Self| opened.shelf.place();
        self.key == other.key && self.version == other.version && place(self) == place(other)
    }
}

/// The content of a job's file.
///
/// # Errors
/// Where it would not open again as this job.
pub fn content(job: &Job) -> Result<Vec<u8>, SaveError> {
    let bytes = write_job(job).into_bytes();
    match read_job(&bytes) {
        Ok(again) if again == *job => Ok(bytes),
        Ok(again) => Err(SaveError::WouldNotOpen {
            source: None,
            differs: differs(job, &again),
        }),
        Err(error) => Err(SaveError::WouldNotOpen {
            source: Some(error),
            differs: None,
        }),
    }
}

/// Saves a job over the version that it rests on; `None` for one that must not be there yet.
///
/// # Errors
/// Where it would not open again, another version stands there, or a step fails.
pub fn save(
    shelf: &Arc<dyn Shelf>,
    key: &JobKey,
    job: &Arc<Job>,
    rests_on: Option<Version>,
) -> Result<Opened, SaveError> {
    let stored = Stored::new(content(job)?);
    let version = stored.version;
    let doc = Doc::Job(key.clone());
    shelf.commit(&Commit::one(doc.clone(), stored.bytes.clone(), rests_on))?;
    shelf.keep_seen(&doc, &stored);
    Ok(Opened {
        shelf: Arc::clone(shelf),
        key: key.clone(),
        version,
        base: Arc::clone(job),
        mark: shelf.mark().ok().flatten(),
    })
}
