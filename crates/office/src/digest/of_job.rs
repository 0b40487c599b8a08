//! The digest of one job.

use quillbore_job::Job;
use serde::{Deserialize, Serialize};

use super::joint::{self, Joint};
use super::matters::matters;
use super::open::OpenMatter;
use super::summary::Summary;

/// What the shelf knows of one job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Digest {
    /// The job in a few lines.
    pub summary: Summary,
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
            open: matters(job),
            joint: joint::of(job),
        }
    }
}
