//! Papers that several jobs share: one job keeps the paper, the others know of it.

use std::collections::BTreeSet;
use std::sync::Arc;

use quillbore_job::{Issued, Job};
use serde::{Deserialize, Serialize};

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
