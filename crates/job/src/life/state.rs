//! Where a job stands.

use super::parts::{ordered, settled, sum};
use crate::job::Job;
use crate::pinned::paper::Paper;
use crate::pinned::slip::choices::Outcome;
use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;
use crate::typed::field::Field;

/// Where a job stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Somebody asked.
    Inquiry,
    /// A quotation is out.
    Quoted,
    /// The order is here.
    Ordered,
    /// Order and parts are here.
    PartsHere,
    /// The traveler is released.
    OnTheFloor,
    /// Everything that was ordered went out, or never will.
    Delivered,
    /// Nobody goes on with it.
    LaidAside,
}

/// Where a job stands.
#[must_use]
pub fn state(job: &Job) -> State {
    if !job.text(Field::LaidAside).trim().is_empty() {
        return State::LaidAside;
    }
    let ordered = ordered(job);
    let settled = settled(job);
    if settled > 0 && ordered.is_some_and(|ordered| settled >= ordered) {
        State::Delivered
    } else if job.standing(Paper::Traveler).next().is_some() {
        State::OnTheFloor
    } else if ordered.is_some() && sum::<kind::Received, _>(job, line::Count) > 0 {
        State::PartsHere
    } else if ordered.is_some() {
        State::Ordered
    } else if job.standing(Paper::Quotation).next().is_some() {
        State::Quoted
    } else {
        State::Inquiry
    }
}

/// How the quotation that stands ended; `None` while nobody said. A reply to
/// one that was replaced says nothing of its successor.
#[must_use]
pub fn outcome(job: &Job) -> Option<Outcome> {
    let replaced =
        |reply: &View<'_, kind::Reply>| job.replaced_by(reply.get(line::Paper)).is_some();
    let mut replies = job.slips_of::<kind::Reply>().rev();
    let reply = replies.find(|reply| !replaced(reply))?;
    reply.get(line::Outcome)
}
