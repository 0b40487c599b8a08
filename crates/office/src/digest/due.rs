//! When the next parts of a job are due.

use chrono::NaiveDate;
use quillbore_job::life::{self, order};
use quillbore_job::slip::{kind, line};
use quillbore_job::{Field, Job};

/// Parts that are due next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct NextDue {
    /// The day.
    pub(super) day: NaiveDate,
    /// The slip that names it, by its identity in the job; the sheet where it is none.
    pub(super) slip: Option<u32>,
    /// Parts of that day that are not delivered, where an order says how many are.
    pub(super) left: Option<u32>,
}

/// When the next parts are due: by the orders and call-offs, else by the sheet.
pub(super) fn next_due(job: &Job) -> Option<NextDue> {
    by_slips(job).or_else(|| {
        Some(NextDue {
            day: job.date(Field::Due)?,
            slip: None,
            left: left(job),
        })
    })
}

/// The first day on which ordered parts are due and not all were delivered.
fn by_slips(job: &Job) -> Option<NextDue> {
    let orders = job.slips_of::<kind::Order>().filter_map(|slip| {
        let count = order::quantity_of(job, slip).unwrap_or(0);
        Some((slip.get(line::Due)?, count, slip.id()))
    });
    let called = job.slips_of::<kind::Release>().filter_map(|slip| {
        let count = slip.get(line::Quantity).unwrap_or(0);
        Some((slip.get(line::Due)?, count, slip.id()))
    });
    let mut due: Vec<(NaiveDate, u32, u32)> = orders.chain(called).collect();
    due.sort_unstable();
    let mut delivered = life::settled(job);
    for (day, count, slip) in due {
        if delivered < count.max(1) {
            let of_day = Some(count - delivered).filter(|_| count > 0);
            let left = of_day.zip(left(job)).map(|(one, all)| one.min(all));
            let slip = Some(slip);
            return Some(NextDue { day, slip, left });
        }
        delivered -= count;
    }
    None
}

/// Parts of all orders that are not delivered; `None` where nobody said how many were ordered.
fn left(job: &Job) -> Option<u32> {
    life::ordered(job).filter(|ordered| *ordered > 0)?;
    life::left_to_deliver(job)
}
