//! What a job would come to with the rows of a file, beside what it comes to now.

use std::sync::mpsc::Receiver;

use quillbore_job::results::{Results, results_now};
use quillbore_job::{Edit, Job, Shop, apply};

/// A job's price and hours before and after an edit; `None` where it has no price.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// Before.
    pub before: Option<Weight>,
    /// After.
    pub after: Option<Weight>,
}

/// What a job comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weight {
    /// Price each.
    pub each: rust_decimal::Decimal,
    /// Price of the lot.
    pub lot: rust_decimal::Decimal,
}

/// A job that is being reckoned with an edit that isn't done yet.
#[derive(Debug)]
pub struct Weighing(pub(super) Receiver<Weighed>);

impl Weighing {
    /// What it came to, once; `None` while it is being reckoned.
    #[must_use]
    pub fn take(&self) -> Option<Weighed> {
        self.0.try_recv().ok()
    }
}

/// Reckons a job with and without an edit.
pub(super) fn weighed_now(job: &Job, edit: &Edit, shop: &Shop) -> Weighed {
    let weight = |job: &Job| weight(&results_now(job, &shop.for_job(job)));
    Weighed {
        before: weight(job),
        after: apply(job, edit).ok().and_then(|(job, _)| weight(&job)),
    }
}

fn weight(results: &Results) -> Option<Weight> {
    let price = results.figures.price.as_ref()?;
    let first = price.breaks.first()?;
    Some(Weight {
        each: first.each,
        lot: first.lot,
    })
}
