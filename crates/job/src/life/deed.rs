//! What somebody does next for a job, by where it stands in its life.

use super::parts::sum;
use super::state::{State, state};
use crate::job::Job;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};

/// What is done next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deed {
    /// The quotation is issued.
    Quote,
    /// The order is written on a slip.
    RecordOrder,
    /// The order is confirmed.
    Confirm,
    /// The parts are counted: on this slip, where one waits for its count, else on a new one.
    ReceiveParts(Option<u32>),
    /// The traveler is released.
    Release,
    /// What happened on the floor is recorded.
    RecordRun,
    /// The parts go out: on this slip, where one waits for its count, else on a new one.
    Deliver(Option<u32>),
    /// The packing list of what goes out is issued.
    Pack,
    /// The job is done again.
    Reorder,
}

/// What is done next for a job; nothing where it was set aside.
#[must_use]
pub fn next_deed(job: &Job) -> Option<Deed> {
    Some(match state(job) {
        State::Inquiry => Deed::Quote,
        State::Quoted => Deed::RecordOrder,
        State::Ordered if !is_confirmed(job) => Deed::Confirm,
        State::Ordered => Deed::ReceiveParts(uncounted(job, SlipKind::Received)),
        State::PartsHere => Deed::Release,
        State::OnTheFloor if !has_run(job) => Deed::RecordRun,
        State::OnTheFloor | State::Delivered if !is_packed(job) => Deed::Pack,
        State::OnTheFloor => Deed::Deliver(uncounted(job, SlipKind::Delivery)),
        State::Delivered => Deed::Reorder,
        State::LaidAside => return None,
    })
}

/// Whether an order confirmation stands.
fn is_confirmed(job: &Job) -> bool {
    let mut issued = job.issued.iter();
    issued.any(|issued| issued.paper == Paper::Confirmation && !job.is_withdrawn(issued))
}

/// Whether all parts that go out stand on the newest packing list.
fn is_packed(job: &Job) -> bool {
    let out = sum::<kind::Delivery, _>(job, line::Count);
    let mut packed = job.standing(Paper::Packing);
    let listed = packed.next_back().map_or(0, |list| {
        let lines = list.lines.iter();
        lines.fold(0, |sum: u32, line| sum.saturating_add(line.quantity))
    });
    listed >= out
}

/// Whether a run record says what happened: one that was begun with day, mark, holes and electrode says
/// only what was to be done.
fn has_run(job: &Job) -> bool {
    const HAPPENED: [Line; 9] = [
        Line::SparkMinutes,
        Line::FloorMinutes,
        Line::TubeAfter,
        Line::DepthReached,
        Line::Breakages,
        Line::Good,
        Line::Scrap,
        Line::Pins,
        Line::Trouble,
    ];
    let mut runs = job.slips.iter().filter(|slip| slip.kind == SlipKind::Run);
    runs.any(|run| HAPPENED.iter().any(|line| !run.line(*line).is_empty()))
}

/// The newest slip of a kind on which nobody wrote how many.
fn uncounted(job: &Job, kind: SlipKind) -> Option<u32> {
    let mut of_kind = job.slips.iter().filter(|slip| slip.kind == kind);
    of_kind
        .rfind(|slip| slip.line(Line::Count).is_empty())
        .map(|slip| slip.id)
}
