//! What issuing comes to.

use quillbore_job::Issued;
use quillbore_job::life::Blocker;

use crate::failure::Failure;
use crate::names::JobKey;
use crate::save::Opened;
use crate::shelf::ShelfError;

/// A paper that was issued.
#[derive(Debug)]
pub struct IssuedNow {
    /// The entry of the job that keeps it.
    pub issued: Issued,
    /// That job as it stands now.
    pub opened: Opened,
    /// The entries of the other jobs, and how they stand now; in the order they were given.
    pub others: Vec<(Issued, Opened)>,
    /// Where the paper is.
    pub place: String,
    /// What is to be told beside that it was issued.
    pub told: Vec<String>,
}

/// Why a paper was not issued.
#[derive(Debug)]
pub enum NotIssued {
    /// Something is in the way, of this job or of another one by its number.
    InTheWay {
        /// The other job.
        of: Option<String>,
        /// What.
        blockers: Vec<Blocker>,
    },
    /// Somebody saved these jobs meanwhile: what they did is looked at first.
    SavedMeanwhile {
        /// The jobs.
        jobs: Vec<JobKey>,
        /// The job on top as it was saved, where it had none before.
        numbered: Option<Box<Opened>>,
    },
    /// Another desk changed the shop meanwhile: its figures are looked at first.
    ShopChanged {
        /// The job on top as it was saved, where it had none before.
        numbered: Option<Box<Opened>>,
    },
    /// The shelf's run records, which its figures went without, can be read: its figures by them are looked
    /// at first.
    RecordsRead,
    /// It could not be done.
    Failed {
        /// Why.
        failure: Failure,
        /// The job on top as it was saved, where it had none before.
        numbered: Option<Box<Opened>>,
    },
}

impl From<ShelfError> for NotIssued {
    fn from(error: ShelfError) -> Self {
        Failure::from(error).into()
    }
}

impl From<Failure> for NotIssued {
    fn from(failure: Failure) -> Self {
        Self::Failed {
            failure,
            numbered: None,
        }
    }
}
