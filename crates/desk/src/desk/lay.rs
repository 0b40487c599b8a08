//! Jobs laid on the desk: a new one, one that was opened, one that is done again or was not saved.

use std::collections::VecDeque;
use std::sync::Arc;

use quillbore_job::history::History;
use quillbore_job::results::Kept;
use quillbore_job::{Issued, Job, Unit};
use quillbore_office::Office;
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::Clock;
use quillbore_office::open::OnDesk;
use quillbore_office::pool::Teaching;
use quillbore_office::save::Opened;
use quillbore_office::shelf::Held;
use quillbore_office::worker::Worker;

use super::errand::Then;
use super::news::News;
use super::state::{ComesFirst, Desk};
use crate::grid::GridAt;

impl Desk {
    /// A desk with a new, empty job.
    #[must_use]
    pub fn new(office: Arc<Office>, clock: Arc<dyn Clock>, clerk: Clerk, worker: Worker) -> Self {
        let day = clock.today();
        // A sheet that comes between the two is told as another one, never the other way round.
        let shop_version = office.shop_version();
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
            shop_version,
            teaching: Teaching::default(),
            day,
            name: String::new(),
            notice: String::new(),
            changed_elsewhere: false,
            cursor: GridAt::default(),
            across_merges: Vec::new(),
            office,
            clock,
            results,
            is_settled: false,
            kept,
            worker,
            pool: None,
            learned_of: None,
            clerk,
            held: Held::Unknown,
            before: None,
            first: ComesFirst::default(),
            promise: None,
            todo: VecDeque::new(),
            busy: None,
            issuing: None,
            news: Vec::new(),
            then: Then::Tell,
            made: None,
            beside: Vec::new(),
        };
        desk.refresh();
        desk.look_at_records();
        desk.take_replies();
        desk
    }

    /// A desk for which everything is done where it is asked: for tests.
    #[must_use]
    pub fn at_once(office: Arc<Office>, clock: Arc<dyn Clock>) -> Self {
        let clerk = Clerk::at_once(Arc::clone(&office));
        Self::new(office, clock, clerk, Worker::at_once())
    }

    /// Begins the new, empty job that lies here in a unit: that is no edit that undo takes back.
    pub fn begin_in(&mut self, unit: Unit) {
        if self.is_untouched() && self.job().unit != unit {
            let job = Job {
                unit,
                ..self.job().as_ref().clone()
            };
            self.history = History::new(job, true);
            self.refresh();
            self.take_replies();
        }
    }

    /// Puts a job that stands nowhere on the desk, such as one that is to be done again.
    pub fn put(&mut self, job: Job) {
        self.history = History::new(job, false);
        self.first = ComesFirst::default();
        self.across_merges.clear();
        self.opened = None;
        self.held = Held::Unknown;
        self.notice.clear();
        self.beside.clear();
        self.refresh();
        self.take_replies();
    }

    /// Puts back a job that was not saved, over what it was opened from.
    pub fn put_back(&mut self, job: Job, opened: Option<Opened>) {
        self.put(job);
        self.opened = opened;
        self.hold();
        self.take_replies();
    }

    /// Puts an opened job on the desk.
    pub fn take_opened(&mut self, on_desk: OnDesk) {
        self.held = on_desk.held;
        self.changed_elsewhere = false;
        self.notice = on_desk.told.join(" ");
        self.history = History::new(on_desk.job.as_ref().clone(), true);
        self.first = ComesFirst::default();
        self.across_merges.clear();
        self.news.push(News::Stands(on_desk.opened.clone()));
        self.opened = Some(on_desk.opened);
        self.look_beside();
        self.refresh();
        self.take_replies();
    }

    /// Takes in an entry that a joint quotation gave this job, as it was `seen` when it was issued.
    pub fn take_in(&mut self, issued: Issued, opened: Opened, seen: &Arc<Job>) {
        let unchanged = Arc::ptr_eq(self.job(), seen);
        self.history.put_issued(issued);
        self.across_merges.clear();
        if unchanged {
            self.history.mark_saved();
        }
        self.news.push(News::Stands(opened.clone()));
        self.opened = Some(opened);
        self.refresh();
        self.take_replies();
    }
}
