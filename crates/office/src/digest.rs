//! What is known of a shelf without opening its jobs: one digest of each job, gathered from the
//! documents as they change.
//!
//! A job's truth is its own document. A digest says what lists, searches, the day's work and later
//! learning need of it; all of them together are kept as a cache that can be thrown away at any time.

mod base;
mod bits;
mod cache;
mod follow;
mod index;
mod joint;
mod line;
mod open;
mod run;
mod similar;
mod summary;

use quillbore_job::Job;
use serde::{Deserialize, Serialize};

pub use follow::{Follower, Looked};
pub use index::Index;
pub use joint::{HalfJoint, Joint, half_joint};
pub use line::ShelfLine;
pub use open::OpenMatter;
pub use run::RunRecord;
pub use similar::{Alike, Wanted, similar};
pub use summary::{Price, Summary};

/// What the shelf knows of one job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Digest {
    /// The job in a few lines.
    pub summary: Summary,
    /// What really happened, run by run.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub records: Vec<RunRecord>,
    /// What waits in it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub open: Vec<OpenMatter>,
    /// The papers that it shares with other jobs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub joint: Vec<Joint>,
}

impl Digest {
    /// The digest of a job.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        Self {
            summary: Summary::of(job),
            records: run::records(job),
            open: open::matters(job),
            joint: joint::of(job),
        }
    }
}
