//! What comes next for a job, and what it still lacks for that.

use chrono::NaiveDate;
use quillbore_calc::finding::Level;

use super::kind::Missing;
use super::whole::Results;
use crate::job::Job;
use crate::life::state::{State, outcome, state};
use crate::life::{Blocker, blockers, holds_delivery, left_to_deliver};
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{kind, line};
use crate::typed::field::Field;

/// What comes next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NextStep {
    /// The quotation.
    Quote {
        /// What is not typed yet, each once.
        missing: Vec<Missing>,
        /// Whether the hole table is empty.
        no_holes: bool,
        /// What else is in the way, without what is said by the missing ones.
        others: Vec<Blocker>,
    },
    /// The traveler, once this is out of the way.
    Release(Vec<Blocker>),
    /// The delivery.
    Deliver {
        /// Parts still to be delivered, where an order says how many are.
        left: Option<u32>,
        /// What keeps them here, if anything.
        held: Option<Blocker>,
    },
    /// Nothing: the job is set aside.
    Nothing,
}

impl NextStep {
    /// Whether nothing is in the way of the traveler.
    #[must_use]
    pub const fn is_ready_to_release(&self) -> bool {
        matches!(self, Self::Release(blockers) if blockers.is_empty())
    }

    /// The parts that are here and could be released by themselves, where nothing else is in the way
    /// than that more were ordered.
    #[must_use]
    pub const fn part_here(&self) -> Option<u32> {
        match self {
            Self::Release(blockers) => match blockers.as_slice() {
                [Blocker::Missing { here, .. }] => Some(*here),
                _ => None,
            },
            _ => None,
        }
    }
}

impl Results {
    /// What comes next for their job; `before` is the job that it does again.
    #[must_use]
    pub fn next(&self, job: &Job, before: Option<&Job>) -> NextStep {
        let blockers = |paper| blockers(paper, job, &self.found(), before);
        match state(job) {
            State::Inquiry => self.quote(job, blockers(Paper::Quotation)),
            State::Quoted | State::Ordered | State::PartsHere => {
                NextStep::Release(blockers(Paper::Traveler))
            }
            State::OnTheFloor => NextStep::Deliver {
                left: left_to_deliver(job),
                held: held(job),
            },
            State::Delivered => NextStep::Deliver {
                left: None,
                held: held(job),
            },
            State::LaidAside => NextStep::Nothing,
        }
    }

    fn quote(&self, job: &Job, blockers: Vec<Blocker>) -> NextStep {
        let lacks = |wanted: &&Missing| {
            let mut notes = self.notes.iter();
            notes.any(|note| note.kind.missing() == Some(**wanted))
        };
        let missing: Vec<Missing> = Missing::ALL.iter().filter(lacks).copied().collect();
        let no_holes = job.rows.is_empty();
        let mut stops = (self.notes.iter()).filter(|note| note.level == Level::Stop);
        let other_stop = stops.any(|note| note.kind.missing().is_none());
        let nothing_missing = missing.is_empty() && !no_holes;
        // What is missing says some of it already.
        let is_news = |blocker: &Blocker| match blocker {
            Blocker::Stop => nothing_missing || other_stop,
            Blocker::SheetUnread | Blocker::Unpriced => nothing_missing,
            _ => true,
        };
        NextStep::Quote {
            others: blockers.into_iter().filter(is_news).collect(),
            missing,
            no_holes,
        }
    }
}

/// The day on which somebody wants to ask what became of the quotation, while nobody said.
#[must_use]
pub fn next_call(job: &Job) -> Option<NaiveDate> {
    if state(job) != State::Quoted || outcome(job).is_some() {
        return None;
    }
    let follow_up = job.date(Field::FollowUp);
    let calls = job.slips_of::<kind::Call>();
    let again = calls.filter_map(|call| call.get(line::CallAgain));
    again.chain(follow_up).max()
}

/// An open non-conformance that keeps parts from being delivered.
fn held(job: &Job) -> Option<Blocker> {
    let mut trouble = job.slips_of::<kind::Nonconformance>();
    trouble.any(holds_delivery).then_some(Blocker::Undecided)
}
