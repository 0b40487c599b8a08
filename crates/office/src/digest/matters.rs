//! What waits in a job, as far as the job alone tells.

use chrono::NaiveDate;
use quillbore_job::life::{self, Blocker, Found, State, order};
use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Field, Job, Line, Paper, SlipKind};

use super::calls::{calls, follow_up};
use super::due::next_due;
use super::open::OpenMatter;

/// Most characters that are kept of what somebody wrote.
const LONGEST: usize = 400;

/// Most characters that are kept of what can't be read.
const LONGEST_UNREAD: usize = 60;

/// Slips whose lines have to be read before anybody knows what was ordered and what is here.
const HAVE_TO_BE_READ: [SlipKind; 3] = [SlipKind::Order, SlipKind::Release, SlipKind::Received];

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
            follow_up: follow_up(job),
        }));
    }
    let at_work = !matches!(state, State::LaidAside | State::Delivered);
    if let Some(ordered) = life::ordered(job).filter(|_| at_work) {
        open.extend(job.slips_of().filter_map(|order| differs(job, order)));
        open.extend(HAVE_TO_BE_READ.iter().flat_map(|kind| unread(job, *kind)));
        open.extend(parts(job, ordered));
        open.extend(due(job));
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

/// In what an order differs from quotation and sheet, as long as that is not accepted.
fn differs(job: &Job, order: View<'_, kind::Order>) -> Option<OpenMatter> {
    let open = order::open(job, order);
    Some(OpenMatter::OrderDiffers {
        slip: order.id(),
        date: order.get(line::Date),
        what: open.first()?.clone(),
        more: open.len() - 1,
    })
}

/// Lines of a kind of slip that can't be read.
fn unread(job: &Job, kind: SlipKind) -> impl Iterator<Item = OpenMatter> {
    job.slips(kind).flat_map(move |slip| {
        let unread = slip.lines.iter().filter(|(_, entry)| entry.why().is_some());
        unread.map(move |(line, entry)| line_unread(slip.id, kind, *line, entry.text()))
    })
}

/// That a line of a slip can't be read.
pub(super) fn line_unread(slip: u32, kind: SlipKind, line: Line, typed: &str) -> OpenMatter {
    OpenMatter::Unread {
        slip,
        kind,
        line,
        typed: beginning(typed),
    }
}

fn beginning(typed: &str) -> String {
    typed.trim().chars().take(LONGEST_UNREAD).collect()
}

/// The parts that an order waits for, or those that wait for their traveler.
fn parts(job: &Job, ordered: u32) -> Option<OpenMatter> {
    let here = life::sum::<kind::Received, _>(job, line::Count);
    if waits_for_all(job) {
        let since = asked_on(job);
        return Some(OpenMatter::Parts {
            here,
            ordered,
            since,
        });
    }
    // What went out without a traveler needs none any more.
    let begun = life::parts_on_floor(job).max(life::sum::<kind::Delivery, _>(job, line::Count));
    let left = wanted(job, ordered, here).saturating_sub(begun);
    let lot = order::followed(job).quantity.filter(|lot| *lot > 0);
    let lot = lot.unwrap_or(left).min(left);
    let free = here.saturating_sub(begun);
    if lot == 0 {
        return None;
    }
    Some(if free < lot {
        OpenMatter::Parts {
            here: free,
            ordered: lot,
            since: asked_on(job),
        }
    } else {
        OpenMatter::ToRelease {
            parts: lot,
            since: came_on(job),
        }
    })
}

/// Whether the traveler of an order has to wait for all of its parts; those of one that is called off
/// bit by bit come bit by bit.
fn waits_for_all(job: &Job) -> bool {
    let blockers = life::blockers(Paper::Traveler, job, &Found::default(), None);
    let parts = |blocker: &Blocker| matches!(blocker, Blocker::NoParts | Blocker::Missing { .. });
    blockers.iter().any(parts)
}

/// Parts that are to be drilled by what was said until now: of a blanket order those that were called
/// off, and those that are here where nobody said how many.
fn wanted(job: &Job, ordered: u32, here: u32) -> u32 {
    let mut orders = job.slips_of::<kind::Order>();
    if orders.any(|order| order.get(line::Blanket) == Some(true)) {
        let called = job.slips_of::<kind::Release>();
        let called = called.filter_map(|slip| slip.get(line::Quantity));
        called.fold(0, u32::saturating_add)
    } else if ordered == 0 {
        here
    } else {
        ordered
    }
}

/// The day on which the lot was called off, else that of the newest order.
fn asked_on(job: &Job) -> Option<NaiveDate> {
    let called = order::call_off(job).and_then(|slip| slip.get(line::Date));
    let orders = job.slips_of::<kind::Order>();
    called.or_else(|| orders.filter_map(|order| order.get(line::Date)).max())
}

/// The day on which the last parts came.
fn came_on(job: &Job) -> Option<NaiveDate> {
    let came = job.slips_of::<kind::Received>();
    came.filter_map(|slip| slip.get(line::Date)).max()
}

/// The next day on which ordered parts are due.
fn due(job: &Job) -> Option<OpenMatter> {
    if let Some(next) = next_due(job) {
        return Some(OpenMatter::Due {
            day: next.day,
            slip: next.slip,
            left: next.left,
        });
    }
    let on_sheet = job.field(Field::Due);
    on_sheet.why().map(|_| OpenMatter::DueUnread {
        typed: beginning(on_sheet.text()),
    })
}

fn what_is_wrong(slip: View<'_, kind::Nonconformance>) -> String {
    let said = [slip.get(line::HolesNamed), slip.get(line::What)];
    let said: Vec<&str> = said.into_iter().filter(|text| !text.is_empty()).collect();
    said.join(": ").chars().take(LONGEST).collect()
}
