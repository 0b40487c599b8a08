//! What must stand on a shelf, as a plain list.

use std::collections::{BTreeMap, BTreeSet};

use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::{Commit, CommitError, Doc, Version};

/// What must stand on a shelf.
#[derive(Clone, Default)]
pub(crate) struct Model {
    pub(crate) docs: BTreeMap<Doc, Vec<u8>>,
    pub(crate) before: BTreeMap<Doc, Vec<u8>>,
    pub(crate) beside: BTreeMap<(JobKey, AttachmentName), Vec<u8>>,
    /// Jobs that any commit or hold was about: their numbers may be taken.
    pub(crate) touched: BTreeSet<JobKey>,
    /// Which desk holds which job.
    pub(crate) holds: BTreeMap<JobKey, usize>,
}

/// What a commit must come to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    Done,
    Changed(Vec<Doc>),
    Gone(Doc),
    Taken(Doc),
    AttachmentTaken(JobKey, AttachmentName),
}

impl Outcome {
    /// What a shelf said, where it is something that a model can say.
    pub(crate) fn of(said: &CommitError) -> Option<Self> {
        match said {
            CommitError::Changed(docs) => Some(Self::Changed(docs.clone())),
            CommitError::Gone(doc) => Some(Self::Gone(doc.clone())),
            CommitError::Taken(doc) => Some(Self::Taken(doc.clone())),
            CommitError::AttachmentTaken(job, name) => {
                Some(Self::AttachmentTaken(job.clone(), name.clone()))
            }
            CommitError::NotKnown(_)
            | CommitError::HalfDone { .. }
            | CommitError::NotSettled { .. }
            | CommitError::Shelf(_) => None,
        }
    }
}

impl Model {
    /// What a commit must come to, with nothing done yet.
    pub(crate) fn outcome(&self, commit: &Commit) -> Outcome {
        let mut named = BTreeSet::new();
        for write in &commit.documents {
            if !named.insert(&write.doc) {
                return match write.expected {
                    Some(_) => Outcome::Changed(vec![write.doc.clone()]),
                    None => Outcome::Taken(write.doc.clone()),
                };
            }
        }
        let mut beside: BTreeMap<_, &Vec<u8>> = BTreeMap::new();
        for file in &commit.attachments {
            let there = beside.insert((&file.job, &file.name), &file.bytes);
            if there.is_some_and(|there| *there != file.bytes) {
                return Outcome::AttachmentTaken(file.job.clone(), file.name.clone());
            }
        }
        for write in &commit.documents {
            match (self.docs.get(&write.doc), write.expected) {
                (None, Some(_)) => return Outcome::Gone(write.doc.clone()),
                (Some(_), None) => return Outcome::Taken(write.doc.clone()),
                _ => {}
            }
        }
        let changed = commit.documents.iter().filter(|write| {
            let now = self.docs.get(&write.doc);
            now.is_some_and(|now| *now != write.bytes && Some(Version::of(now)) != write.expected)
        });
        let changed: Vec<Doc> = changed.map(|write| write.doc.clone()).collect();
        if !changed.is_empty() {
            return Outcome::Changed(changed);
        }
        for file in &commit.attachments {
            let there = self.beside.get(&(file.job.clone(), file.name.clone()));
            if there.is_some_and(|there| *there != file.bytes) {
                return Outcome::AttachmentTaken(file.job.clone(), file.name.clone());
            }
        }
        Outcome::Done
    }

    /// Does what a commit does.
    pub(crate) fn write(&mut self, commit: &Commit) {
        for file in &commit.attachments {
            let at = (file.job.clone(), file.name.clone());
            self.beside.insert(at, file.bytes.clone());
        }
        for write in &commit.documents {
            let before = self.docs.insert(write.doc.clone(), write.bytes.clone());
            if let Some(before) = before.filter(|before| *before != write.bytes) {
                self.before.insert(write.doc.clone(), before);
            }
        }
    }

    /// Notes which jobs a commit is about.
    pub(crate) fn touch(&mut self, commit: &Commit) {
        let documents = commit
            .documents
            .iter()
            .filter_map(|write| match &write.doc {
                Doc::Job(job) => Some(job),
                Doc::Shop => None,
            });
        let beside = commit.attachments.iter().map(|file| &file.job);
        self.touched.extend(documents.chain(beside).cloned());
    }
}
