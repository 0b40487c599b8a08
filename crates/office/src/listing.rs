//! The shelf as a window knows it: followed beside the window, searched in memory.

mod beside;
mod kept;
mod looked;

use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::shop::Calendar;
use quillbore_job::{Form, Job, Shop, Unit};

use crate::clock::Clock;
use crate::digest::{Asking, Follower, Index, Query, ShelfLine, Sort};
use crate::names::JobKey;
use crate::shelf::Shelf;
use crate::week::five_days;
use crate::words;
use beside::{Beside, Told};
use looked::{newest, opened, unreachable};

/// The jobs of a shelf, what is typed to find one, and how they are sorted.
#[derive(Debug)]
pub struct Listing {
    /// The jobs, ready to be searched.
    pub index: Arc<Index>,
    /// Grows with every change of the index.
    pub version: u64,
    /// What is typed to find a job.
    pub find: String,
    /// How the jobs are sorted.
    pub sort: Sort,
    /// When the shop works: "due this week" goes by it.
    pub calendar: Calendar,
    /// The unit that bare numbers of what is typed are meant in.
    pub unit: Unit,
    /// The shop's own currency: prices that are asked for are in it.
    pub currency: String,
    /// The shop by whose names materials are found.
    shop: Option<Arc<Shop>>,
    /// How numbers and days are written.
    form: Form,
    /// What is to be said of the shelf itself.
    pub notice: String,
    /// A look at the shelf is under way.
    pub busy: bool,
    clock: Arc<dyn Clock>,
    /// The newest day on which a job was opened.
    newest: Option<NaiveDate>,
    /// Why the shelf could not be read when it was looked at last.
    failed: Option<String>,
    found: Vec<u32>,
    found_of: Option<FoundOf>,
    /// How what is typed was understood.
    understood: String,
    way: Way,
}

/// What jobs were found by.
#[derive(Debug)]
struct FoundOf {
    find: String,
    version: u64,
    sort: Sort,
    calendar: Calendar,
    unit: Unit,
    currency: String,
    today: NaiveDate,
}

#[derive(Debug)]
enum Way {
    Thread(Beside),
    AtOnce {
        shelf: Arc<dyn Shelf>,
        follower: Box<Follower>,
    },
}

impl Listing {
    /// A list that is read where it is asked: for tests.
    #[must_use]
    pub fn at_once(shelf: Arc<dyn Shelf>, clock: Arc<dyn Clock>) -> Self {
        let follower = Box::default();
        let mut listing = Self::with(clock, Way::AtOnce { shelf, follower });
        listing.look_again();
        listing
    }

    /// A list that is read on a thread, which calls `wake` when there is news. What is kept in
    /// `cache` is shown first. Nobody waits for the thread's end: a shelf that hangs must not hold the
    /// window.
    #[must_use]
    pub fn on_thread(
        shelf: Arc<dyn Shelf>,
        clock: Arc<dyn Clock>,
        cache: impl Into<Option<PathBuf>>,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let mut listing = Self::with(clock, Way::Thread(Beside::new(shelf, cache.into(), wake)));
        listing.look_again();
        listing
    }

    fn with(clock: Arc<dyn Clock>, way: Way) -> Self {
        Self {
            index: Arc::default(),
            version: 0,
            find: String::new(),
            sort: Sort::default(),
            calendar: five_days(),
            shop: None,
            unit: Unit::default(),
            currency: String::new(),
            form: Form::default(),
            notice: String::new(),
            busy: false,
            clock,
            newest: None,
            failed: None,
            found: Vec::new(),
            found_of: None,
            understood: String::new(),
            way,
        }
    }

    /// Looks at the shelf anew.
    pub fn look_again(&mut self) {
        match &mut self.way {
            Way::Thread(beside) => self.busy = beside.look(),
            Way::AtOnce { shelf, follower } => {
                let looked = follower.look(shelf.as_ref(), &mut |_| true);
                self.failed = looked
                    .err()
                    .map(|error| unreachable(shelf.as_ref(), &error));
                let lines = follower.lines();
                self.newest = newest(&lines);
                Arc::make_mut(&mut self.index).follow(lines);
                self.changed();
            }
        }
    }

    /// Takes in what the thread told meanwhile.
    pub fn poll(&mut self) {
        let Way::Thread(beside) = &mut self.way else {
            return;
        };
        let Some(told) = beside.told() else { return };
        let Told {
            index,
            newest,
            failed,
            ..
        } = told;
        self.busy = beside.is_busy();
        (self.index, self.newest, self.failed) = (Arc::new(index), newest, failed);
        self.changed();
    }

    /// Takes in a job that was just saved from here: it is listed at once, and the shelf need not be
    /// looked at for it.
    pub fn took(&mut self, key: &JobKey, job: &Job) {
        let line = match &mut self.way {
            Way::AtOnce { follower, .. } => follower.took(key, job),
            Way::Thread(beside) => {
                let line = Arc::new(ShelfLine::of(key, job));
                beside.took(key, &line);
                line
            }
        };
        self.newest = self.newest.max(opened(&line));
        Arc::make_mut(&mut self.index).put(line);
        self.changed();
    }

    /// Why nothing at all is known of the shelf, where it can't be read.
    #[must_use]
    pub fn not_read(&self) -> Option<&str> {
        let why = self.failed.as_deref();
        why.filter(|_| self.index.lines.is_empty())
    }

    /// Whether nothing is known yet, since the first look goes on.
    #[must_use]
    pub fn is_first_look(&self) -> bool {
        self.busy && self.index.lines.is_empty() && self.failed.is_none()
    }

    /// From here on numbers and days are written in this form.
    pub fn write_in(&mut self, form: Form) {
        if form != self.form {
            self.form = form;
            self.found_of = None;
            self.tell();
        }
    }

    fn changed(&mut self) {
        self.version += 1;
        self.tell();
    }

    fn tell(&mut self) {
        let today = self.clock.today();
        self.notice = match (&self.failed, self.newest) {
            // What was known stays to be looked at.
            (Some(why), _) => why.clone(),
            (None, Some(newest)) if newest > today => {
                words::digest::clock_behind(today, newest, self.form)
            }
            (None, _) => String::new(),
        };
    }

    /// The jobs that are what is typed ([`Query::read`]), as they are sorted, by their place in the
    /// index.
    pub fn found(&mut self) -> &[u32] {
        self.look_up();
        &self.found
    }

    /// How what is typed was understood, in one line; empty where all of it is only letters.
    pub fn understood(&mut self) -> &str {
        self.look_up();
        &self.understood
    }

    fn look_up(&mut self) {
        let today = self.clock.today();
        if self
            .found_of
            .as_ref()
            .is_some_and(|of| self.is_of(of, today))
        {
            return;
        }
        let query = Query::read(
            &self.find,
            &Asking {
                today,
                calendar: &self.calendar,
                unit: self.unit,
                form: self.form,
            },
        );
        let query = match &self.shop {
            Some(shop) => query.with_materials(shop),
            None => query,
        };
        self.found = self.index.find(&query, self.sort);
        self.understood = query.said(&self.currency, self.unit, self.form);
        self.found_of = Some(FoundOf {
            find: self.find.clone(),
            version: self.version,
            sort: self.sort,
            calendar: self.calendar.clone(),
            unit: self.unit,
            currency: self.currency.clone(),
            today,
        });
    }

    fn is_of(&self, of: &FoundOf, on: NaiveDate) -> bool {
        let FoundOf {
            find,
            version,
            sort,
            calendar,
            unit,
            currency,
            today,
        } = of;
        (version, sort, unit, today) == (&self.version, &self.sort, &self.unit, &on)
            && *find == self.find
            && *currency == self.currency
            && *calendar == self.calendar
    }

    /// Finds materials by the names of this shop from now on.
    pub fn knows_materials_of(&mut self, shop: &Arc<Shop>) {
        let is_known = self
            .shop
            .as_ref()
            .is_some_and(|known| Arc::ptr_eq(known, shop));
        if !is_known {
            self.shop = Some(Arc::clone(shop));
            self.found_of = None;
        }
    }

    /// The job that the typed text means when Enter is pressed: the code of a paper, a number, or
    /// else the first job found.
    pub fn meant(&mut self) -> Option<JobKey> {
        let typed = self.find.trim().to_owned();
        self.numbered(&typed).or_else(|| {
            self.found();
            let found = self.found.iter();
            let mut found = found.filter_map(|at| self.index.lines.get(*at as usize));
            found.find_map(|line| line.job.clone())
        })
    }

    /// The job that a number or the code of a paper names.
    fn numbered(&self, typed: &str) -> Option<JobKey> {
        if let Some(line) = self.index.by_number(typed) {
            return line.job.clone();
        }
        let code = quillbore_paper::code::read(typed)?;
        let mut jobs = self.index.lines.iter().filter_map(|line| line.job.as_ref());
        let job = jobs.find(|key| key.as_str().eq_ignore_ascii_case(&code.job));
        job.cloned()
    }
}
