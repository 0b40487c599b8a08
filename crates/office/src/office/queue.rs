//! What comes first on a machine: other jobs of the shelf that are ordered, have their parts here or
//! are on the floor, and the hours that they still take.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::life::{self, State};
use quillbore_job::results::promise::hours_left;
use quillbore_job::same_name::same_name;
use quillbore_job::words::life::state;
use quillbore_job::{Field, Job};

use super::base::Office;
use super::read::stored;
use crate::digest::{Follower, ShelfLine};
use crate::names::JobKey;
use crate::shelf::ShelfError;

/// How many jobs are read for their hours at most: no shop has more of them before one machine.
pub(crate) const MOST_READ: usize = 200;

/// States of a job that waits for its machine, the one that is farthest from it first.
const WAITING: [State; 3] = [State::Ordered, State::PartsHere, State::OnTheFloor];

/// What comes first on a machine.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Queue {
    /// Machine hours of it [h].
    pub hours: f64,
    /// Jobs that these are of.
    pub jobs: usize,
    /// Jobs that have no hours, since something in them is missing or can't be read.
    pub without_hours: usize,
}

/// The jobs that come first on the machine of a job, which lies under `own`: all that wait for it and
/// are as far as the job itself or farther.
#[must_use]
pub fn first<'a>(
    job: &Job,
    own: Option<&JobKey>,
    lines: impl IntoIterator<Item = &'a Arc<ShelfLine>>,
) -> Vec<&'a Arc<ShelfLine>> {
    let machine = job.text(Field::Machine).trim();
    let stands = life::state(job);
    let far = WAITING.iter().filter(|waiting| **waiting >= stands);
    let far: Vec<&str> = far.map(|waiting| state(*waiting)).collect();
    let comes_first = |line: &&Arc<ShelfLine>| {
        let summary = line.says.as_ref().map(|digest| &digest.summary);
        !machine.is_empty()
            && line.job.as_ref() != own
            && summary.is_ok_and(|summary| {
                far.contains(&summary.state.as_str()) && same_name(&summary.machine, machine)
            })
    };
    lines.into_iter().filter(comes_first).collect()
}

impl Office {
    /// The hours that jobs of the shelf still take, at the figures of a day.
    #[must_use]
    pub fn queue(&self, jobs: &[JobKey], day: NaiveDate) -> Queue {
        let known = self.hours_each(jobs, day);
        Queue {
            hours: known.values().fold(0.0, |sum, hours| sum + hours),
            jobs: known.len(),
            without_hours: jobs.len().saturating_sub(known.len()),
        }
    }

    /// The hours that each of these jobs of the shelf still takes [h], at the figures of a day; those
    /// that have none are left out, and so are those beyond the first 200.
    #[must_use]
    pub fn hours_each(&self, jobs: &[JobKey], day: NaiveDate) -> BTreeMap<JobKey, f64> {
        let shop = self.shop_as_taught(day);
        let hours = |key: &JobKey| {
            let (job, _) = stored(self.teaches.as_ref(), key).ok()?;
            hours_left(&job, &shop.for_job(&job))
        };
        let jobs = jobs.iter().take(MOST_READ);
        jobs.filter_map(|key| Some((key.clone(), hours(key)?)))
            .collect()
    }

    /// What comes first on the machine of a job, which lies under `own`; the whole shelf is looked
    /// through for it.
    ///
    /// # Errors
    /// Where the shelf can't be read.
    pub fn queue_before(
        &self,
        job: &Job,
        own: &JobKey,
        day: NaiveDate,
    ) -> Result<Queue, ShelfError> {
        let mut follower = Follower::default();
        follower.look(self.teaches.as_ref(), &mut |_| true)?;
        let lines = follower.lines();
        let first = first(job, Some(own), &lines).into_iter();
        let jobs: Vec<JobKey> = first.filter_map(|line| line.job.clone()).collect();
        Ok(self.queue(&jobs, day))
    }
}
