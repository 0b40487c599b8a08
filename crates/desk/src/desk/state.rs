//! What lies on the desk, and what can be read off it.

use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::history::History;
use quillbore_job::life::{self, Blocker, State};
use quillbore_job::results::promise::Promise;
use quillbore_job::results::{Kept, Results};
use quillbore_job::taught::Taught;
use quillbore_job::{Job, Paper, Shop};
use quillbore_office::Office;
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::Clock;
use quillbore_office::digest::ShelfLine;
use quillbore_office::issue::Seen;
use quillbore_office::names::JobKey;
use quillbore_office::office::Attached;
use quillbore_office::office::queue::Queue;
use quillbore_office::places;
use quillbore_office::pool::{Pool, Teaching};
use quillbore_office::save::Opened;
use quillbore_office::shelf::{Held, Version};
use quillbore_office::worker::Worker;

use super::errand::{Errand, Then};
use super::news::News;
use crate::grid::GridAt;
use crate::words::desk as words;

/// The desk with one job on it.
pub struct Desk {
    /// The job and the way it came about.
    pub history: History<GridAt>,
    /// What it was opened from or last saved as.
    pub opened: Option<Opened>,
    /// The shop, with the rates of today and what run records make of its start values.
    pub shop: Shop,
    /// The shop's sheet that it was made of, as the office tells it.
    pub(super) shop_version: Option<Version>,
    /// What the run records of the shelf and of this job teach, and where they stand.
    pub teaching: Teaching,
    /// Today.
    pub day: NaiveDate,
    /// What this desk calls itself, for the other desks.
    pub name: String,
    /// What the last open, save or print said.
    pub notice: String,
    /// The job was saved by another desk since it was opened: a save was refused.
    pub changed_elsewhere: bool,
    /// Where the cursor of the hole table was at the last errand.
    pub(super) cursor: GridAt,
    /// For each merge that is on no shelf yet what a job without it rests on; once the merge is taken
    /// back, what a job with it rests on.
    pub(super) across_merges: Vec<Option<Opened>>,
    pub(super) office: Arc<Office>,
    pub(super) clock: Arc<dyn Clock>,
    pub(super) results: Arc<Results>,
    /// The results rest on no search that is still to be done.
    pub(super) is_settled: bool,
    pub(super) kept: Kept,
    pub(super) worker: Worker,
    /// The run records of the shelf, once it was looked at.
    pub(super) pool: Option<Arc<Pool>>,
    /// From what was learned last.
    pub(super) learned_of: Option<LearnedOf>,
    pub(super) clerk: Clerk,
    pub(super) held: Held,
    pub(super) before: Option<JobBefore>,
    pub(super) first: ComesFirst,
    pub(super) promise: Option<Promise>,
    /// What is still to be asked of the clerk, one after the other.
    pub(super) todo: VecDeque<Errand>,
    /// The state of the history for which the clerk does something.
    pub(super) busy: Option<u64>,
    /// The paper that is to be issued, from the press until it is told, and the state of the history that
    /// somebody pressed at.
    pub(super) issuing: Option<(Paper, u64)>,
    pub(super) news: Vec<News>,
    /// What is done with the stored file that the clerk looks at.
    pub(super) then: Then,
    /// What the last deed made, with what was said of it.
    pub(super) made: Option<Made>,
    /// The files beside the job, once they were looked at.
    pub(super) beside: Vec<Attached>,
}

/// What a deed made, with what was said of it: it is offered as long as that is said.
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// What was said.
    pub said: String,
    /// The number of an issued paper, where it is one.
    pub paper: Option<String>,
    /// Its file.
    pub file: PathBuf,
}

/// From what was learned: the shelf's records, this job's own as they stand, and the day.
#[derive(Clone, Debug)]
pub(super) struct LearnedOf {
    pub(super) pool: Option<Arc<Pool>>,
    pub(super) own: Vec<Taught>,
    pub(super) key: Option<JobKey>,
    pub(super) day: NaiveDate,
}

/// The job that this one does again, by its number.
#[derive(Clone, Debug)]
pub(super) struct JobBefore {
    pub(super) number: String,
    pub(super) job: Option<Arc<Job>>,
}

/// What comes first on the job's machine.
#[derive(Clone, Debug, Default)]
pub(super) struct ComesFirst {
    /// States of the job and of the shelf's list that it was looked for in.
    pub(super) looked: Option<(u64, u64)>,
    /// The job's machine and where it stood in its life at the last look through the list.
    pub(super) of: Option<(String, State)>,
    /// The jobs, as the list knows them.
    pub(super) lines: Vec<Arc<ShelfLine>>,
    /// Their hours, once the clerk told them.
    pub(super) queue: Queue,
}

impl Desk {
    /// The other desk that has this job open, in its own words.
    #[must_use]
    pub fn held_elsewhere(&self) -> Option<&str> {
        match &self.held {
            Held::Elsewhere(name) if name.is_empty() => Some(words::ANOTHER_DESK),
            Held::Elsewhere(name) => Some(name),
            Held::Here(_) | Held::NoLocks | Held::Unknown => None,
        }
    }

    /// The shop's sheet that its figures are reckoned by, as the office tells it.
    #[must_use]
    pub const fn shop_version(&self) -> Option<Version> {
        self.shop_version
    }

    /// Whether nothing is being searched for, and the shelf's records are known.
    #[must_use]
    pub const fn is_settled(&self) -> bool {
        self.is_settled && self.pool.is_some()
    }

    /// What the last deed made, while it is told.
    #[must_use]
    pub fn made(&self) -> Option<&Made> {
        self.made.as_ref().filter(|made| made.said == self.notice)
    }

    /// Says what was done with what the last deed made; more can be done with it still.
    pub fn handed_over(&mut self, said: String) {
        if let Some(made) = self.made.as_mut().filter(|made| made.said == self.notice) {
            made.said.clone_from(&said);
        }
        self.notice = said;
    }

    /// The run records of the shelf, once they were looked at.
    #[must_use]
    pub const fn records(&self) -> Option<&Arc<Pool>> {
        self.pool.as_ref()
    }

    /// The files beside the job that are none of its papers, as far as they were looked at.
    #[must_use]
    pub fn beside(&self) -> &[Attached] {
        &self.beside
    }

    /// The job that this one does again, where the shelf has it.
    #[must_use]
    pub fn before(&self) -> Option<&Arc<Job>> {
        self.before.as_ref()?.job.as_ref()
    }

    /// When its lot is done, as far as that is known.
    #[must_use]
    pub const fn promise(&self) -> Option<&Promise> {
        self.promise.as_ref()
    }

    /// What comes first on its machine.
    #[must_use]
    pub const fn queue(&self) -> &Queue {
        &self.first.queue
    }

    /// True where nothing was typed and it stands nowhere: another job may take this place.
    #[must_use]
    pub fn is_untouched(&self) -> bool {
        self.opened.is_none() && !self.history.is_dirty() && !self.is_busy()
    }

    /// Whether the clerk does something for this job, or is going to.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.busy.is_some() || !self.todo.is_empty()
    }

    /// The job's own run records, each held against the start values.
    #[must_use]
    pub fn taught(&self) -> &[Taught] {
        self.learned_of.as_ref().map_or(&[], |of| &of.own)
    }

    /// The job as it stands.
    #[must_use]
    pub fn job(&self) -> &Arc<Job> {
        self.history.now()
    }

    /// What was computed of it.
    #[must_use]
    pub const fn results(&self) -> &Arc<Results> {
        &self.results
    }

    /// How the shelf is called in sentences.
    #[must_use]
    pub fn shelf(&self) -> String {
        self.office.shelf.place()
    }

    /// The name that files of this job begin with.
    #[must_use]
    pub fn file_name(&self) -> String {
        let number = &self.job().number;
        if number.is_empty() {
            words::NEW_JOB_FILE.to_owned()
        } else {
            number.clone()
        }
    }

    /// What is in the way of issuing a paper of this job, by what was computed of it.
    #[must_use]
    pub fn blockers(&self, paper: Paper, results: &Results) -> Vec<Blocker> {
        let before = self.before().map(Arc::as_ref);
        life::blockers(paper, self.job(), &results.found(), before)
    }

    /// The job as it stands, with what it rests on.
    #[must_use]
    pub fn seen(&self) -> Seen {
        Seen {
            job: Arc::clone(self.job()),
            opened: self.opened.clone(),
        }
    }

    /// The folder that files are looked for in first: that of the shelf, else the user's own.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        let root = self.office.root.clone();
        root.unwrap_or_else(|| places::typed("~"))
    }

    /// The folder that previews of this job go to, unless another is named.
    #[must_use]
    pub fn papers_folder(&self) -> PathBuf {
        let beside = self.opened.as_ref();
        match beside.filter(|opened| opened.shelf.is_on_disk()) {
            Some(opened) => opened.folder(),
            None => self.folder().join(words::PAPERS_FOLDER),
        }
    }

    /// Where the job stands, as sentences name it.
    pub(super) fn place(&self) -> String {
        match &self.opened {
            Some(opened) => opened.file().to_string_lossy().into_owned(),
            None => self.shelf(),
        }
    }
}
