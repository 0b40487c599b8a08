//! What is computed of the job, and the job before it: brought up to what is typed.

use std::borrow::Cow;
use std::ptr;
use std::sync::Arc;

use quillbore_job::Field;
use quillbore_job::life;
use quillbore_job::results::promise::promise;
use quillbore_job::taught::taught;
use quillbore_office::clerk::Request;
use quillbore_office::digest::ShelfLine;
use quillbore_office::drawer::put_free;
use quillbore_office::names::JobKey;
use quillbore_office::office::queue::{Queue, first};
use quillbore_office::pool::Pool;

use super::state::{Desk, JobBefore, LearnedOf};

impl Desk {
    /// Computes what an edit changed; what rests on searches follows as they are done.
    pub(super) fn refresh(&mut self) {
        self.learn();
        self.recompute();
        // Where searches are done at once their answers may ask for nothing more, or for some.
        while self.take_answers() {
            self.recompute();
        }
        self.look_before();
    }

    /// Asks for the run records of the shelf as they stand now.
    pub fn look_at_records(&self) {
        self.clerk.ask(Request::Records);
    }

    /// Whether figures go without the run records of the shelf: they have not come yet, or can't be read.
    pub(super) fn is_without_records(&self) -> bool {
        let pool = self.pool.as_ref();
        pool.is_none_or(|pool| pool.not_read().is_some())
    }

    /// Learns anew where the records of the shelf or of this job are others than before.
    fn learn(&mut self) {
        let own = taught(self.history.now(), &self.office.shop());
        let key = self.opened.as_ref().map(|opened| opened.key.clone());
        let same = |of: &LearnedOf| {
            of.pool.as_ref().map(Arc::as_ptr) == self.pool.as_ref().map(Arc::as_ptr)
                && of.day == self.day
                && of.key == key
                && of.own == own
        };
        if self.learned_of.as_ref().is_some_and(same) {
            return;
        }
        // What is learned and lies in the drawer is of the shop itself, whatever job it goes by.
        if self.shop.goes_by.is_some() {
            self.shop = self.shop.own().clone();
        }
        let none = || Pool::new(self.office.shop());
        let pool = self.pool.clone().unwrap_or_else(|| Arc::new(none()));
        put_free(&mut self.shop, &self.office.shop(), &pool, key.as_ref());
        self.teaching = pool.teaching_with(self.day, key.as_ref(), &own);
        if self.teaching.lessons != self.shop.tables.lessons {
            self.shop.tables.lessons = Arc::clone(&self.teaching.lessons);
        }
        self.learned_of = Some(LearnedOf {
            pool: self.pool.clone(),
            own,
            key,
            day: self.day,
        });
    }

    /// Computes the results with what is known, and wants what is not.
    pub(super) fn recompute(&mut self) {
        self.go_by_the_job();
        let (results, open) = self.kept.results(self.history.now(), &self.shop);
        self.is_settled = open.is_empty();
        self.worker.want(open);
        self.results = Arc::new(results);
        self.promise_anew();
    }

    /// Takes what was agreed with the customer, and the currency of the quotation, for the shop's.
    fn go_by_the_job(&mut self) {
        let other = match self.shop.for_job(self.history.now()) {
            Cow::Borrowed(same) if ptr::eq(same, &raw const self.shop) => return,
            other => other.into_owned(),
        };
        self.shop = other;
    }

    /// Works out when the lot is done, with what is known of the jobs that come first.
    pub(super) fn promise_anew(&mut self) {
        let (job, results) = (self.history.now(), &self.results);
        let hours = self.first.queue.hours;
        self.promise = promise(job, results, &self.shop, hours, self.day);
    }

    /// Looks which jobs of the shelf's list come first on the machine, where job or list is another
    /// than at the last look, and asks for their hours where they are others.
    pub fn look_first(&mut self, version: u64, lines: &[Arc<ShelfLine>]) {
        let now = (self.history.state(), version);
        let looked = self.first.looked.replace(now);
        if looked == Some(now) {
            return;
        }
        // Most edits change nothing of it, and a list is long.
        let job = self.history.now();
        let of = (job.text(Field::Machine).to_owned(), life::state(job));
        let same = self.first.of.as_ref() == Some(&of);
        if same && looked.is_some_and(|(_, list)| list == version) {
            return;
        }
        self.first.of = Some(of);
        let own = self.opened.as_ref().map(|opened| &opened.key);
        let found = first(job, own, lines);
        if found.iter().copied().eq(&self.first.lines) {
            return;
        }
        self.first.lines = found.into_iter().cloned().collect();
        let jobs = keys(&self.first.lines);
        let day = self.day;
        self.clerk.ask(Request::Queue { jobs, day });
    }

    /// Takes in the hours of jobs that come first, where they still do.
    pub(super) fn take_queue(&mut self, jobs: &[JobKey], queue: Queue) {
        if keys(&self.first.lines) == jobs {
            self.first.queue = queue;
            self.promise_anew();
        }
    }

    /// Keeps what searches have found; whether they have found anything.
    pub(super) fn take_answers(&mut self) -> bool {
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
        self.before = Some(JobBefore {
            number: number.clone(),
            job: None,
        });
        if !number.is_empty() {
            self.clerk.ask(Request::Before { number });
        }
    }
}

/// The jobs that lines of a list are of.
fn keys(lines: &[Arc<ShelfLine>]) -> Vec<JobKey> {
    lines.iter().filter_map(|line| line.job.clone()).collect()
}
