//! The working that is open, as it was worked out last: a frame has no time to reckon a job anew on every
//! machine of the shop.

use std::sync::Arc;

use quillbore_calc::figure::{Figure, Working};
use quillbore_job::Job;
use quillbore_job::results::Results;
use quillbore_job::results::foot::opened;
use quillbore_job::results::promise::Promise;

use crate::sheet::shared::Shared;

/// The working that is open, by what it was worked out from.
pub struct WorkingKept {
    figure: Figure,
    job: Arc<Job>,
    results: Arc<Results>,
    promise: Option<Promise>,
    hours_alone: f64,
    working: Option<Arc<Working>>,
}

impl WorkingKept {
    /// The working of a figure: what was worked out before, where nothing changed since.
    pub fn of(kept: &mut Option<Self>, shared: &Shared<'_>, figure: Figure) -> Option<Arc<Working>> {
        if let Some(kept) = kept
            && kept.is_of(shared, figure)
        {
            return kept.working.clone();
        }
        let found = opened(
            shared.job,
            shared.results,
            shared.shop,
            shared.promise,
            figure,
        );
        let now = Self {
            figure,
            job: Arc::clone(shared.job),
            results: Arc::clone(shared.results),
            promise: shared.promise.copied(),
            hours_alone: shared.shop.calendar.unattended_hours_per_day,
            working: found.map(Arc::new),
        };
        kept.insert(now).working.clone()
    }

    fn is_of(&self, shared: &Shared<'_>, figure: Figure) -> bool {
        self.figure == figure
            && Arc::ptr_eq(&self.job, shared.job)
            && Arc::ptr_eq(&self.results, shared.results)
            && self.promise.as_ref() == shared.promise
            && self
                .hours_alone
                .total_cmp(&shared.shop.calendar.unattended_hours_per_day)
                .is_eq()
    }
}
