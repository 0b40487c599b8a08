//! The state of the desk: the open job, its history, where it stands, its results, and what the
//! clerk is doing for it. No drawing here, and nothing that waits for the shelf.

mod errands;
mod replies;

#[cfg(test)]
mod tests;

use std::collections::VecDeque;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::history::{Doing, History};
use quillbore_job::life::{self, Blocker};
use quillbore_job::results::{Kept, Results};
use quillbore_job::{Edit, Field, Job, Paper, Shop};
use quillbore_office::Office;
use quillbore_office::clerk::{Clerk, Request};
use quillbore_office::clock::Clock;
use quillbore_office::save::Opened;
use quillbore_office::shelf::Held;
use quillbore_office::worker::Worker;

pub use errands::Errand;
pub use replies::News;

use crate::grid::CellAt;

/// The desk with one job on it.
pub struct Desk {
    /// The job and the way it came about.
    pub history: History<CellAt>,
    /// What it was opened from or last saved as.
    pub opened: Option<Opened>,
    /// The shop, with the rates of today.
    pub shop: Shop,
    /// Today.
    pub day: NaiveDate,
    /// What this desk calls itself, for the other desks.
    pub name: String,
    /// What the last open, save or print said.
    pub notice: String,
    /// The job was saved by another desk since it was opened: a save was refused.
    pub changed_elsewhere: bool,
    /// Where the cursor of the hole table was at the last errand.
    cursor: CellAt,
    /// For each merge that is on no shelf yet what a job without it rests on; once the merge is taken
    /// back, what a job with it rests on.
    across_merges: Vec<Option<Opened>>,
    office: Arc<Office>,
    clock: Arc<dyn Clock>,
    results: Arc<Results>,
    kept: Kept,
    worker: Worker,
    clerk: Clerk,
    held: Held,
    before: Option<Before>,
    /// What is still to be asked of the clerk, one after the other.
    todo: VecDeque<Errand>,
    /// The state of the history for which the clerk does something.
    busy: Option<u64>,
    news: Vec<News>,
}

/// The job that this one does again, by its number.
#[derive(Clone, Debug)]
struct Before {
    number: String,
    job: Option<Arc<Job>>,
}

impl Desk {
    /// A desk with a new, empty job.
    #[must_use]
    pub fn new(office: Arc<Office>, clock: Arc<dyn Clock>, clerk: Clerk, worker: Worker) -> Self {
        let day = clock.today();
        let shop = office.shop_on(day);
        let job = Job {
            opened: Some(day),
            ..Job::default()
        };
        let mut kept = Kept::default();
        let results = Arc::new(kept.results(&job, &shop).0);
        let mut desk = Self {
            history: History::new(job, true),
            opened: None,
            shop,
            day,
            name: String::new(),
            notice: String::new(),
            changed_elsewhere: false,
            cursor: CellAt::default(),
            across_merges: Vec::new(),
            office,
            clock,
            results,
            kept,
            worker,
            clerk,
            held: Held::Unknown,
            before: None,
            todo: VecDeque::new(),
            busy: None,
            news: Vec::new(),
        };
        desk.refresh();
        desk
    }

    /// A desk for which everything is done where it is asked: for tests.
    #[must_use]
    pub fn at_once(office: Arc<Office>, clock: Arc<dyn Clock>) -> Self {
        let clerk = Clerk::at_once(Arc::clone(&office));
        Self::new(office, clock, clerk, Worker::at_once())
    }

    /// The other desk that has this job open, in its own words.
    #[must_use]
    pub fn held_elsewhere(&self) -> Option<&str> {
        match &self.held {
            Held::Elsewhere(name) if name.is_empty() => Some("another desk"),
            Held::Elsewhere(name) => Some(name),
            Held::Here(_) | Held::NoLocks | Held::Unknown => None,
        }
    }

    /// The job that this one does again, where the shelf has it.
    #[must_use]
    pub fn before(&self) -> Option<&Arc<Job>> {
        self.before.as_ref()?.job.as_ref()
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
            "new-job".to_owned()
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

    /// Does an edit; a refusal is told in the notice and changes nothing.
    pub fn edit(&mut self, edit: &Edit, before: CellAt, after: CellAt) {
        match self.history.do_edit(
            edit,
            Doing {
                gesture: None,
                before,
                after,
            },
        ) {
            Ok(_) => {
                self.notice.clear();
                self.refresh();
            }
            Err(refused) => self.notice = sentence(&refused.to_string(), refused.hint()),
        }
    }

    /// Takes the last step back; where the cursor was before it.
    pub fn undo(&mut self) -> Option<CellAt> {
        let merges = self.history.merges();
        if self.is_merge_under_way() {
            return None;
        }
        let at = self.history.undo();
        self.opened_goes_with(merges);
        self.refresh();
        at
    }

    /// Does the last step taken back again; where the cursor was after it.
    pub fn redo(&mut self) -> Option<CellAt> {
        let merges = self.history.merges();
        if self.is_merge_under_way() {
            return None;
        }
        let at = self.history.redo();
        self.opened_goes_with(merges);
        self.refresh();
        at
    }

    /// Whether the clerk saves a job with another desk's work in it: until that is done nobody can
    /// say what a state without it would rest on.
    fn is_merge_under_way(&mut self) -> bool {
        let waits = self.busy.is_some() && self.history.merges() > 0;
        if waits {
            self.notice = "Wait until the merged job is saved.".to_owned();
        }
        waits
    }

    /// Where a merge was taken back or done again since there were `merges`, the job rests on another
    /// version: one without the other desk's work must not be saved over it.
    fn opened_goes_with(&mut self, merges: usize) {
        let now = self.history.merges();
        if now != merges
            && let Some(other) = self.across_merges.get_mut(now.min(merges))
        {
            std::mem::swap(&mut self.opened, other);
        }
    }

    /// Puts a job that stands nowhere on the desk, such as one that is to be done again.
    pub fn put(&mut self, job: Job) {
        self.history = History::new(job, false);
        self.across_merges.clear();
        self.opened = None;
        self.held = Held::Unknown;
        self.notice.clear();
        self.refresh();
    }

    /// Puts back a job that was not saved, over what it was opened from.
    pub fn put_back(&mut self, job: Job, opened: Option<Opened>) {
        self.put(job);
        self.opened = opened;
        self.hold();
    }

    /// Takes in what clerk and searches have done meanwhile, and what day it is.
    pub fn poll(&mut self) {
        let today = self.clock.today();
        if today != self.day {
            // Another day may have other rates.
            self.day = today;
            self.shop = self.office.shop_on(today);
            self.refresh();
        }
        self.take_replies();
        if self.take_answers() {
            self.recompute();
        }
    }

    /// What happened to this job since the last look, for the window to act on.
    pub fn take_news(&mut self) -> Vec<News> {
        std::mem::take(&mut self.news)
    }

    /// Tells the other desks that this job is open here, where it stands somewhere.
    fn hold(&mut self) {
        // What was held is let go of first: it may be the same job.
        self.held = Held::Unknown;
        if let Some(opened) = &self.opened {
            self.clerk.ask(Request::Hold {
                opened: opened.clone(),
                by: self.name.clone(),
            });
        }
        self.take_replies();
    }

    /// Computes what an edit changed; what rests on searches follows as they are done.
    fn refresh(&mut self) {
        self.recompute();
        // Where searches are done at once their answers may ask for nothing more, or for some.
        while self.take_answers() {
            self.recompute();
        }
        self.look_before();
    }

    /// Computes the results with what is known, and wants what is not.
    fn recompute(&mut self) {
        let (results, open) = self.kept.results(self.history.now(), &self.shop);
        self.worker.want(open);
        self.results = Arc::new(results);
    }

    /// Keeps what searches have found; whether they have found anything.
    fn take_answers(&mut self) -> bool {
        let answers = self.worker.answers();
        let any = !answers.is_empty();
        for (question, answer) in answers {
            self.kept.put(question, answer);
        }
        any
    }

    /// Asks for the job that this one does again, when its number is new.
    fn look_before(&mut self) {
        let number = self.job().text(Field::Again).trim().to_owned();
        if self.before.as_ref().is_some_and(|b| b.number == number) {
            return;
        }
        self.before = Some(Before {
            number: number.clone(),
            job: None,
        });
        if !number.is_empty() {
            self.clerk.ask(Request::Before { number });
            self.take_replies();
        }
    }
}

/// A message with its hint, as one sentence.
#[must_use]
pub fn sentence(message: &str, hint: &str) -> String {
    format!("{}; {hint}", message.trim_end_matches('.'))
}
