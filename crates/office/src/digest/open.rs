//! What waits in a job, as far as the job alone tells.

use chrono::NaiveDate;
use quillbore_job::life::{self, Blocker, Found, State};
use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Field, Job, Paper};
use serde::{Deserialize, Serialize};

use super::summary;

/// Most characters that are kept of what somebody wrote.
const LONGEST: usize = 400;

/// Something that waits in a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum OpenMatter {
    /// A quotation that stands and that nobody answered.
    Quotation {
        /// Its number.
        number: String,
        /// The day on it.
        date: NaiveDate,
        /// When to ask what became of it.
        follow_up: Option<NaiveDate>,
    },
    /// An order waits for parts.
    Parts {
        /// Parts here.
        here: u32,
        /// Parts ordered.
        ordered: u32,
    },
    /// Ordered parts are due and not delivered.
    Due {
        /// The day.
        day: NaiveDate,
    },
    /// A non-conformance is not closed.
    Nonconformance {
        /// The slip's identity in the job.
        slip: u32,
        /// The day.
        date: Option<NaiveDate>,
        /// What is wrong.
        what: String,
    },
    /// The sheet is another one than a traveler was released with.
    SheetChanged {
        /// The traveler.
        traveler: String,
    },
    /// The entry of an issued paper doesn't fit its seal.
    EntryChanged {
        /// The paper.
        number: String,
    },
    /// Somebody is to be called again.
    Call {
        /// The slip's identity in the job.
        slip: u32,
        /// When.
        day: NaiveDate,
        /// Whom.
        who: String,
    },
}

/// What waits in a job. Once it is set aside nobody waits for an answer, for parts or for a day; what
/// is wrong with parts, and a call that was promised, stay.
pub(super) fn matters(job: &Job) -> Vec<OpenMatter> {
    let state = life::state(job);
    let mut open = Vec::new();
    if state == State::Quoted && life::outcome(job).is_none() {
        let standing = job.standing(Paper::Quotation);
        open.extend(standing.map(|quotation| OpenMatter::Quotation {
            number: quotation.number.clone(),
            date: quotation.date,
            follow_up: job.date(Field::FollowUp),
        }));
    }
    let at_work = !matches!(state, State::LaidAside | State::Delivered);
    if let Some(ordered) = life::ordered(job).filter(|_| at_work) {
        if waits_for_parts(job) {
            let here = life::sum::<kind::Received, _>(job, line::Count);
            open.push(OpenMatter::Parts { here, ordered });
        }
        open.extend(summary::due(job).map(|day| OpenMatter::Due { day }));
    }
    let troubles = job.slips_of::<kind::Nonconformance>();
    let not_closed = troubles.filter(|slip| slip.get(line::Closed).is_none());
    open.extend(not_closed.map(|slip| OpenMatter::Nonconformance {
        slip: slip.id(),
        date: slip.get(line::Date),
        what: what_is_wrong(slip),
    }));
    let changed = life::changed_since_release(job).into_iter();
    let at_work = changed.filter(|_| at_work);
    open.extend(at_work.map(|(traveler, _)| OpenMatter::SheetChanged { traveler }));
    let broken = job.issued.iter().filter(|issued| !issued.is_trusted());
    open.extend(broken.map(|issued| OpenMatter::EntryChanged {
        number: issued.number.clone(),
    }));
    open.extend(calls(job));
    open
}

/// Whether the traveler of an order has to wait for parts; those of one that is called off bit by bit
/// come bit by bit.
fn waits_for_parts(job: &Job) -> bool {
    let blockers = life::blockers(Paper::Traveler, job, &Found::default(), None);
    let parts = |blocker: &Blocker| matches!(blocker, Blocker::NoParts | Blocker::Missing { .. });
    blockers.iter().any(parts)
}

fn what_is_wrong(slip: View<'_, kind::Nonconformance>) -> String {
    let said = [slip.get(line::HolesNamed), slip.get(line::What)];
    let said: Vec<&str> = said.into_iter().filter(|text| !text.is_empty()).collect();
    said.join(": ").chars().take(LONGEST).collect()
}

/// Calls to make: until a later slip says that somebody called on the day or after it. A call that
/// comes before the day may be about something else.
fn calls(job: &Job) -> Vec<OpenMatter> {
    let calls: Vec<View<'_, kind::Call>> = job.slips_of::<kind::Call>().collect();
    let mut open = Vec::new();
    for (at, slip) in calls.iter().enumerate() {
        let Some(day) = slip.get(line::CallAgain) else {
            continue;
        };
        let called =
            |later: &View<'_, kind::Call>| later.get(line::Date).is_some_and(|date| date >= day);
        if !calls[at + 1..].iter().any(called) {
            open.push(OpenMatter::Call {
                slip: slip.id(),
                day,
                who: slip.get(line::Who).to_owned(),
            });
        }
    }
    open
}
