//! What is written where a paper is issued: the paper as a new file, and the jobs that name it.

use std::path::Path;
use std::sync::Arc;

use quillbore_job::{Issued, Job};

use super::outcome::{IssuedNow, NotIssued};
use super::ready::Ready;
use crate::failure::Failure;
use crate::names::{AttachmentName, JobKey};
use crate::save::{Opened, SaveError, content};
use crate::shelf::{Attachment, Commit, CommitError, Doc, Shelf, Version, Write};
use crate::words::issue as words;

/// A job that stands on a shelf, with what is not saved of it.
pub(super) struct Standing {
    pub(super) job: Arc<Job>,
    pub(super) opened: Opened,
}

impl Standing {
    /// Numbers are taken on a shelf, by the job that has the number: a copy of its file, or one that
    /// lies somewhere else, would give the same number twice.
    pub(super) fn may_issue(&self) -> Result<(), Failure> {
        let opened = &self.opened;
        if opened.shelf.mark()?.is_none() {
            return Err(words::on_no_shelf().at(Path::new(&opened.shelf.place())));
        }
        if opened.key.as_str() != self.job.number {
            return Err(words::other_number(opened.key.as_str(), &self.job.number));
        }
        Ok(())
    }
}

/// How writing a paper ended.
pub(super) enum Put {
    /// It is issued, and this is to be told.
    Done(Vec<String>),
    /// Something else has the name of its file; nothing was written.
    NameTaken,
}

/// What is going to be written: for each job its new content and entry.
pub(super) struct Plan {
    jobs: Vec<Planned>,
}

struct Planned {
    issued: Issued,
    opened: Opened,
    bytes: Vec<u8>,
    expected: Version,
}

impl Plan {
    pub(super) fn new(standing: &[Standing], entries: &[Issued]) -> Result<Self, SaveError> {
        let mut jobs = Vec::new();
        for (one, issued) in standing.iter().zip(entries) {
            let mut job = one.job.as_ref().clone();
            job.issued.push(Arc::new(issued.clone()));
            let bytes = content(&job)?;
            jobs.push(Planned {
                issued: issued.clone(),
                expected: one.opened.version,
                opened: Opened {
                    version: Version::of(&bytes),
                    base: Arc::new(job),
                    ..one.opened.clone()
                },
                bytes,
            });
        }
        Ok(Self { jobs })
    }

    /// Writes the paper and the jobs that name it.
    ///
    /// # Errors
    /// Where somebody saved one of the jobs or the shop meanwhile, or a step fails; nothing is issued
    /// then.
    pub(super) fn put(
        &self,
        shelf: &dyn Shelf,
        keeper: &JobKey,
        name: &AttachmentName,
        made: &Ready,
        by_shop: Option<&Write>,
    ) -> Result<Put, NotIssued> {
        match shelf.commit(&self.commit(keeper, name.clone(), made, by_shop)) {
            Ok(done) if done.locked => Ok(Put::Done(Vec::new())),
            Ok(_) => Ok(Put::Done(vec![words::NO_LOCKS.to_owned()])),
            Err(CommitError::AttachmentTaken(..)) => Ok(Put::NameTaken),
            Err(CommitError::Changed(docs)) => {
                let jobs = docs.into_iter().filter_map(|doc| match doc {
                    Doc::Job(key) => Some(key),
                    Doc::Shop => None,
                });
                let jobs: Vec<JobKey> = jobs.collect();
                let numbered = None;
                Err(if jobs.is_empty() {
                    NotIssued::ShopChanged { numbered }
                } else {
                    NotIssued::SavedMeanwhile { jobs, numbered }
                })
            }
            Err(CommitError::Gone(Doc::Shop)) => Err(NotIssued::ShopChanged { numbered: None }),
            Err(CommitError::NotSettled { error, .. }) => {
                Ok(Put::Done(vec![words::not_settled(&error)]))
            }
            Err(CommitError::HalfDone { done, .. }) => {
                // What is left is tried once more: the paper is out, and its keeper says so.
                let again = shelf.commit(&self.left(&done)).err();
                let told = again.map(|again| words::half_done(&made.issued.number, &again));
                Ok(Put::Done(told.into_iter().collect()))
            }
            Err(error) => Err(Failure::from(error).into()),
        }
    }

    /// The paper, then its keeper's job, then the others; the shop is compared with them and stays.
    fn commit(
        &self,
        keeper: &JobKey,
        name: AttachmentName,
        made: &Ready,
        by_shop: Option<&Write>,
    ) -> Commit {
        let jobs = self.jobs.iter().map(Planned::write);
        Commit {
            attachments: vec![Attachment {
                job: keeper.clone(),
                name,
                bytes: made.bytes.clone(),
            }],
            documents: jobs.chain(by_shop.cloned()).collect(),
        }
    }

    /// What is still to be written where only the first documents are.
    fn left(&self, done: &[(Doc, Version)]) -> Commit {
        let is_done = |write: &Write| done.iter().any(|(doc, _)| *doc == write.doc);
        let writes = self.jobs.iter().map(Planned::write);
        Commit {
            attachments: Vec::new(),
            documents: writes.filter(|write| !is_done(write)).collect(),
        }
    }

    pub(super) fn done(self, place: String, told: Vec<String>) -> Option<IssuedNow> {
        let mut jobs = self.jobs.into_iter();
        let own = jobs.next()?;
        Some(IssuedNow {
            issued: own.issued,
            opened: own.opened,
            others: jobs.map(|job| (job.issued, job.opened)).collect(),
            place,
            told,
        })
    }
}

impl Planned {
    fn write(&self) -> Write {
        Write {
            doc: Doc::Job(self.opened.key.clone()),
            bytes: self.bytes.clone(),
            expected: Some(self.expected),
        }
    }
}
