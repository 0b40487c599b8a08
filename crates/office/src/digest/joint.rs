//! Papers that several jobs share: one job keeps the paper, the others know of it. Where a crash came
//! between, some of them don't.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::{Issued, Job};
use serde::{Deserialize, Serialize};

use super::line::ShelfLine;
use crate::names::JobKey;

/// A paper that a job shares with others.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Joint {
    /// This job keeps the paper, and it stands.
    Keeps {
        /// The paper's number.
        paper: String,
        /// The other jobs that it has lines of, rising.
        #[serde(with = "keys")]
        others: Vec<JobKey>,
    },
    /// Another job keeps the paper, whether it stands or not.
    KeptBy {
        /// The paper's number.
        paper: String,
        /// The number of the job that keeps it.
        keeper: String,
    },
}

/// A paper of several jobs that some of them don't know of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HalfJoint {
    /// The paper's number.
    pub paper: String,
    /// The job that keeps it.
    pub keeper: JobKey,
    /// The jobs that don't know of it, rising.
    pub missing_in: Vec<JobKey>,
}

/// The papers that a job shares with others.
pub(super) fn of(job: &Job) -> Vec<Joint> {
    let papers = job.issued.iter().map(Arc::as_ref);
    papers.filter_map(|issued| shared(job, issued)).collect()
}

fn shared(job: &Job, issued: &Issued) -> Option<Joint> {
    let paper = issued.number.clone();
    if let Some(keeper) = &issued.kept_by {
        let keeper = keeper.clone();
        return Some(Joint::KeptBy { paper, keeper });
    }
    // A copy under another name has the papers of the job that it was copied from.
    let (of, _) = issued.number.rsplit_once('-')?;
    if of != job.number {
        let keeper = of.to_owned();
        return Some(Joint::KeptBy { paper, keeper });
    }
    let lines = issued.lines.iter().filter(|line| line.job != job.number);
    // No job of any other name lies on a shelf.
    let others: BTreeSet<JobKey> = lines
        .filter_map(|line| JobKey::new(&line.job).ok())
        .collect();
    (!others.is_empty() && job.stands(issued)).then(|| Joint::Keeps {
        paper,
        others: others.into_iter().collect(),
    })
}

/// The papers of several jobs that some of them don't know of, in the order of their keepers. Of a
/// job that is gone or can't be read nobody can say what it knows.
#[must_use]
pub fn half_joint(lines: &[Arc<ShelfLine>]) -> Vec<HalfJoint> {
    let digests = || {
        lines.iter().filter_map(|line| {
            let digest = line.says.as_ref().ok()?;
            Some((line.job.as_ref()?, digest.joint.as_slice()))
        })
    };
    // They are few among many jobs, so the others need not be set in order.
    let mut kept: Vec<_> = digests()
        .flat_map(|(keeper, joint)| joint.iter().map(move |joint| (keeper, joint)))
        .filter_map(|(keeper, joint)| match joint {
            Joint::Keeps { paper, others } => Some((keeper, paper, others)),
            Joint::KeptBy { .. } => None,
        })
        .collect();
    kept.sort();
    let others: BTreeSet<&JobKey> = kept.iter().flat_map(|(.., others)| *others).collect();
    let others = digests().filter(|(key, _)| others.contains(key));
    let others: BTreeMap<&JobKey, &[Joint]> = others.collect();
    let half = kept.into_iter().map(|(keeper, paper, jobs)| {
        let misses = |job: &&JobKey| others.get(job).is_some_and(|joint| !knows(joint, paper));
        HalfJoint {
            paper: paper.clone(),
            keeper: keeper.clone(),
            missing_in: jobs.iter().filter(misses).cloned().collect(),
        }
    });
    half.filter(|half| !half.missing_in.is_empty()).collect()
}

fn knows(joint: &[Joint], wanted: &str) -> bool {
    joint.iter().any(|joint| match joint {
        Joint::Keeps { paper, .. } | Joint::KeptBy { paper, .. } => paper == wanted,
    })
}

/// How names of jobs are written into a cache.
mod keys {
    use serde::de::Error as _;
    use serde::{Deserialize as _, Deserializer, Serializer};

    use crate::names::JobKey;

    pub(super) fn serialize<S: Serializer>(keys: &[JobKey], to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(keys.iter().map(JobKey::as_str))
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<JobKey>, D::Error> {
        let names = Vec::<String>::deserialize(from)?;
        let keys = names.iter().map(|name| JobKey::new(name));
        keys.collect::<Result<_, _>>().map_err(D::Error::custom)
    }
}
