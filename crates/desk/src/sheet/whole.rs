//! What is said of all rows of a job together: reckoned once for each state of its figures, since a frame
//! has no time to go over ten thousand rows.

use std::sync::Arc;

use quillbore_calc::finding::Level;
use quillbore_job::life::{HoursEach, hours_each};
use quillbore_job::results::foot::{Foot, foot};
use quillbore_job::results::promise::Promise;
use quillbore_job::results::{ByRuns, NextStep, Results};
use quillbore_job::{Form, Job, Shop};

use super::alike::planned_each;
use super::head::waits;
use crate::words::{holes as hole_words, own};

/// What is said of all rows of a job together.
pub struct Whole {
    job: Arc<Job>,
    results: Arc<Results>,
    promise: Option<Promise>,
    before: Option<Arc<Job>>,
    form: Form,
    /// The holes in short.
    pub holes: String,
    /// What run records make of minutes and wear, over all rows; empty where there are none.
    pub own: String,
    /// The same as factors.
    pub by_runs: ByRuns,
    /// Minutes that a part is planned to take: sparking, and by the clock without setting up.
    pub planned_each: Option<[f64; 2]>,
    /// What a part took by the run records, where they say.
    pub took_each: Option<HoursEach>,
    /// The foot.
    pub foot: Foot,
    /// What comes next, and what is in its way.
    pub next: NextStep,
    /// Stops and checks that wait for somebody.
    pub waiting: [usize; 2],
}

impl Whole {
    /// What is said now: what was said before, where nothing changed.
    pub fn of(
        kept: &mut Option<Arc<Self>>,
        (job, results): (&Arc<Job>, &Arc<Results>),
        shop: &Shop,
        promise: Option<&Promise>,
        before: Option<&Arc<Job>>,
    ) -> Arc<Self> {
        if let Some(whole) = kept
            && whole.is_of(job, results, promise, before)
            && whole.form == shop.form
        {
            return Arc::clone(whole);
        }
        let figures = &results.figures;
        let of_rows = figures.holes.iter().filter_map(|hole| hole.own.as_deref());
        let notes = |level: Level| results.notes.iter().filter(move |note| waits(note, level));
        let whole = Arc::new(Self {
            holes: hole_words::in_short(job, shop.form),
            own: own::in_short(&of_rows.collect::<Vec<_>>(), shop.form).unwrap_or_default(),
            by_runs: ByRuns::of(figures),
            planned_each: planned_each(figures),
            took_each: hours_each(job),
            foot: foot(job, results, shop, promise),
            next: results.next(job, before.map(AsRef::as_ref)),
            waiting: [Level::Stop, Level::Check].map(|level| notes(level).count()),
            job: Arc::clone(job),
            results: Arc::clone(results),
            promise: promise.copied(),
            before: before.cloned(),
            form: shop.form,
        });
        Arc::clone(kept.insert(whole))
    }

    fn is_of(
        &self,
        job: &Arc<Job>,
        results: &Arc<Results>,
        promise: Option<&Promise>,
        before: Option<&Arc<Job>>,
    ) -> bool {
        Arc::ptr_eq(&self.job, job)
            && Arc::ptr_eq(&self.results, results)
            && self.promise.as_ref() == promise
            && self.before.as_ref().map(Arc::as_ptr) == before.map(Arc::as_ptr)
    }
}
