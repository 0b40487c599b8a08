//! One line of a shelf's list.

use std::cmp::Ordering;

use quillbore_job::Job;

use super::of_job::Digest;
use crate::names::JobKey;

/// A line of a shelf's list: a job, one that can't be read, or something that can't be a job.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfLine {
    /// What it is called there: a job's number, or the whole name of what can't be a job.
    pub name: String,
    /// The job that it is; `None` for what can't be one.
    pub job: Option<JobKey>,
    /// What is known of it, or the sentence that says why nothing is.
    pub says: Result<Digest, String>,
}

impl ShelfLine {
    /// The line of a job.
    #[must_use]
    pub fn of(key: &JobKey, job: &Job) -> Self {
        Self::job(key, Ok(Digest::of(job)))
    }

    /// The line of a job, or of one that can't be read.
    pub(super) fn job(key: &JobKey, says: Result<Digest, String>) -> Self {
        Self {
            name: key.as_str().to_owned(),
            job: Some(key.clone()),
            says,
        }
    }

    /// How a list is ordered: the newest number first, a job before what only has its name. Two lines
    /// that are equal here are the same line.
    pub(super) fn order(&self, other: &Self) -> Ordering {
        let names = other.name.cmp(&self.name);
        names.then_with(|| other.job.is_some().cmp(&self.job.is_some()))
    }
}
