//! The day from which the working days of a lot count.

use chrono::NaiveDate;

use super::on_floor::{on_floor, parts_on};
use super::order::call_off;
use super::parts::ordered;
use super::state::{State, state};
use crate::job::Job;
use crate::pinned::slip::lists::{kind, line};

/// The day from which the working days of the lot that is worked on next count: that on which order
/// and parts of it were in, and, until its traveler is released, no day before today.
///
/// `None` while order or enough parts are missing, where a slip doesn't say its day, and once nobody
/// goes on with the job or all of it was delivered.
#[must_use]
pub fn begins(job: &Job, today: NaiveDate) -> Option<NaiveDate> {
    if matches!(state(job), State::Delivered | State::LaidAside) {
        return None;
    }
    let (ordered_on, parts) = asked(job)?;
    let both = ordered_on.max(received_on(job, parts)?);
    Some(both.max(released_on(job, parts).unwrap_or(today)))
}

/// When the lot was ordered or called off, and how many parts must be here for it, those of the lots
/// before it among them.
fn asked(job: &Job) -> Option<(NaiveDate, u32)> {
    let orders = job.slips_of::<kind::Order>();
    let ordered_on = orders.map(|order| order.get(line::Date));
    let ordered_on = ordered_on.collect::<Option<Vec<_>>>()?.into_iter().max()?;
    let Some(called) = call_off(job) else {
        return Some((ordered_on, ordered(job)?));
    };
    let mut parts: u32 = 0;
    for slip in job.slips_of::<kind::Release>() {
        parts = parts.saturating_add(slip.get(line::Quantity).unwrap_or(0));
        if slip.id() == called.id() {
            break;
        }
    }
    let called_on = called.get(line::Date)?;
    Some((called_on.max(ordered_on), parts))
}

/// The day on which so many parts were here.
fn received_on(job: &Job, parts: u32) -> Option<NaiveDate> {
    let slips = job.slips_of::<kind::Received>();
    let came = slips.filter_map(|slip| Some((slip.get(line::Date)?, slip.get(line::Count)?)));
    let mut came: Vec<(NaiveDate, u32)> = came.collect();
    came.sort_unstable();
    let mut here: u32 = 0;
    let enough = |(_, count): &(NaiveDate, u32)| {
        here = here.saturating_add(*count);
        here >= parts
    };
    let (day, _) = came.into_iter().find(enough).filter(|_| parts > 0)?;
    Some(day)
}

/// The day on which the travelers that stand came to so many parts.
fn released_on(job: &Job, parts: u32) -> Option<NaiveDate> {
    let mut released: u32 = 0;
    let enough = |(_, quantity): &(NaiveDate, u32)| {
        released = released.saturating_add(*quantity);
        released >= parts
    };
    let travelers = on_floor(job).into_iter();
    let mut parts = travelers.map(|paper| (paper.date, parts_on(paper)));
    parts.find(enough).map(|(day, _)| day)
}
