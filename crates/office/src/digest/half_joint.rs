//! Shared papers that some of their jobs don't know of, since a crash came between.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::joint::Joint;
use super::line::ShelfLine;
use crate::names::JobKey;

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
