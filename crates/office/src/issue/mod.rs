//! Issuing: a paper leaves the house under a number that no other has, made of what stands on the
//! shelf at that moment, and its job names it.
//!
//! It looks first and writes once: every search and draw is settled for the version that somebody
//! looked at, then one commit compares the versions of all jobs under their locks, writes the paper
//! as a new file and the jobs that name it. Where somebody saved meanwhile nothing is written.

pub mod interrupted;
pub mod joint;
mod number;
pub(crate) mod outcome;
mod ready;

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::life;
use quillbore_job::results::{Results, results_now};
use quillbore_job::{Issued, Job, Paper, Shop};
use quillbore_paper::Sheet;

pub use outcome::{IssuedNow, NotIssued};
pub use ready::{Ready, ready, rests_on};

use crate::failure::Failure;
use crate::names::{AttachmentName, JobKey};
use crate::office::Office;
use crate::print::Sitting;
use crate::save::{Opened, SaveError, content};
use crate::shelf::{Attachment, Commit, CommitError, Doc, Version, Write};
use crate::words::issue as words;

/// How often another paper may turn out to have the number.
const TRIES: u32 = 1_000;

/// A job as somebody looks at it, with what it rests on.
#[derive(Clone, Debug)]
pub struct Seen {
    /// The job, with what is not saved yet.
    pub job: Arc<Job>,
    /// Where it was opened from; `None` for one that is on no shelf yet.
    pub opened: Option<Opened>,
}

/// A paper that is to be issued.
#[derive(Clone, Debug)]
pub struct ToIssue {
    /// Which paper.
    pub paper: Paper,
    /// The job that keeps it.
    pub own: Seen,
    /// The other jobs on one quotation with it.
    pub others: Vec<Seen>,
    /// The sheet it is printed on.
    pub sheet: Sheet,
    /// The day on it, whose rates count.
    pub day: NaiveDate,
}

impl Office {
    /// Issues a paper of one job, or a quotation of several.
    ///
    /// # Errors
    /// Where something is in the way, somebody saved meanwhile, or a step fails; nothing is issued
    /// then.
    pub fn issue(&self, wanted: &ToIssue) -> Result<IssuedNow, NotIssued> {
        let shop = self.shop_on(wanted.day);
        let own_results = self.settled(&wanted.own, wanted.paper, &shop, None)?;
        let mut results = Vec::new();
        for other in &wanted.others {
            let number = other.job.number.clone();
            results.push(self.settled(other, wanted.paper, &shop, Some(number))?);
        }
        let failed = |failure| NotIssued::Failed {
            failure,
            numbered: None,
        };
        // A number is part of what is printed, so a new job gets it first.
        let (own, numbered) = match &wanted.own.opened {
            Some(opened) => {
                let (job, opened) = (Arc::clone(&wanted.own.job), opened.clone());
                (Standing { job, opened }, None)
            }
            None => {
                let saved = self.save(&wanted.own.job, None, wanted.day);
                let opened = saved.map_err(|error| failed(error.into()))?;
                let job = Arc::clone(&opened.base);
                let numbered = Some(Box::new(opened.clone()));
                (Standing { job, opened }, numbered)
            }
        };
        let mut standing = vec![own];
        for other in &wanted.others {
            let opened = other
                .opened
                .clone()
                .ok_or_else(|| failed(words::other_unsaved()))?;
            let job = Arc::clone(&other.job);
            standing.push(Standing { job, opened });
        }
        let sittings: Vec<Sitting<'_>> = standing
            .iter()
            .zip(std::iter::once(&own_results).chain(&results))
            .map(|(standing, results)| Sitting {
                job: &standing.job,
                results,
            })
            .collect();
        let done = self.issue_standing(wanted, &shop, &standing, &sittings);
        done.map_err(|not| match not {
            NotIssued::SavedMeanwhile { jobs, .. } => NotIssued::SavedMeanwhile { jobs, numbered },
            NotIssued::Failed { failure, .. } => NotIssued::Failed { failure, numbered },
            not @ NotIssued::InTheWay { .. } => not,
        })
    }

    /// Results that rest on every search and draw, never on a quick estimate, where nothing is in
    /// the way of the paper.
    fn settled(
        &self,
        seen: &Seen,
        paper: Paper,
        shop: &Shop,
        of: Option<String>,
    ) -> Result<Results, NotIssued> {
        let results = results_now(&seen.job, shop);
        let before = self.before(&seen.job);
        let blockers = life::blockers(paper, &seen.job, &results.found(), before.as_deref());
        if blockers.is_empty() {
            return Ok(results);
        }
        Err(NotIssued::InTheWay { of, blockers })
    }

    fn issue_standing(
        &self,
        wanted: &ToIssue,
        shop: &Shop,
        standing: &[Standing],
        sittings: &[Sitting<'_>],
    ) -> Result<IssuedNow, NotIssued> {
        let failed = |failure: Failure| NotIssued::Failed {
            failure,
            numbered: None,
        };
        let Some(keeper) = standing.first() else {
            return Err(failed(words::no_job()));
        };
        for one in standing {
            one.may_issue().map_err(failed)?;
        }
        let (shelf, key) = (&keeper.opened.shelf, &keeper.opened.key);
        // Names that are taken by what is no file, such as a folder, and so is not listed.
        let mut taken: Vec<AttachmentName> = Vec::new();
        for _ in 0..TRIES {
            let mut beside = shelf
                .attachments(key)
                .map_err(|error| failed(error.into()))?;
            beside.extend(taken.iter().cloned());
            let number = number::next(&keeper.job, wanted.paper, &beside).map_err(failed)?;
            let made = ready(
                wanted.paper,
                number,
                sittings,
                shop,
                wanted.day,
                wanted.sheet,
            );
            let made = made.map_err(failed)?;
            let entries = joint::entries(&made.issued, standing.iter().map(|one| &one.job));
            let plan = Plan::new(standing, &entries).map_err(|error| failed(error.into()))?;
            let name = AttachmentName::new(&made.issued.file).map_err(|e| failed(e.into()))?;
            let commit = plan.commit(key, name.clone(), &made);
            let mut told = Vec::new();
            match shelf.commit(&commit) {
                Ok(done) => {
                    if !done.locked {
                        told.push(words::NO_LOCKS.to_owned());
                    }
                }
                Err(CommitError::AttachmentTaken(..)) => {
                    taken.push(name);
                    continue;
                }
                Err(CommitError::Changed(docs)) => {
                    let jobs = docs.into_iter().filter_map(|doc| match doc {
                        Doc::Job(key) => Some(key),
                        Doc::Shop => None,
                    });
                    return Err(NotIssued::SavedMeanwhile {
                        jobs: jobs.collect(),
                        numbered: None,
                    });
                }
                Err(CommitError::NotSettled { error, .. }) => {
                    told.push(words::not_settled(&error));
                }
                Err(CommitError::HalfDone { done, .. }) => {
                    // What is left is tried once more: the paper is out, and its keeper says so.
                    let left = plan.left(&done);
                    if let Err(again) = shelf.commit(&left) {
                        told.push(words::half_done(&made.issued.number, &again));
                    }
                }
                Err(error) => return Err(failed(error.into())),
            }
            let place = shelf.place_of(key, &name);
            return plan
                .done(place, told)
                .ok_or_else(|| failed(words::no_job()));
        }
        Err(failed(words::no_number_left()))
    }
}

/// A job that stands on a shelf, with what is not saved of it.
struct Standing {
    job: Arc<Job>,
    opened: Opened,
}

impl Standing {
    /// Numbers are taken on a shelf, by the job that has the number: a copy of its file, or one that
    /// lies somewhere else, would give the same number twice.
    fn may_issue(&self) -> Result<(), Failure> {
        let opened = &self.opened;
        if opened.shelf.mark()?.is_none() {
            return Err(words::on_no_shelf().at(std::path::Path::new(&opened.shelf.place())));
        }
        if opened.key.as_str() != self.job.number {
            return Err(words::other_number(opened.key.as_str(), &self.job.number));
        }
        Ok(())
    }
}

/// What is going to be written: for each job its new content and entry.
struct Plan {
    jobs: Vec<Planned>,
}

struct Planned {
    issued: Issued,
    opened: Opened,
    bytes: Vec<u8>,
    expected: Version,
}

impl Plan {
    fn new(standing: &[Standing], entries: &[Issued]) -> Result<Self, SaveError> {
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

    /// The paper, then its keeper's job, then the others.
    fn commit(&self, keeper: &JobKey, name: AttachmentName, made: &Ready) -> Commit {
        Commit {
            attachments: vec![Attachment {
                job: keeper.clone(),
                name,
                bytes: made.bytes.clone(),
            }],
            documents: self.jobs.iter().map(Planned::write).collect(),
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

    fn done(self, place: String, told: Vec<String>) -> Option<IssuedNow> {
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
