//! Pinning slips to a job, filling their lines, taking them off.

use std::sync::Arc;

use super::change::Change;
use super::length::check_length;
use super::refused::EditRefused;
use crate::ground::limits::MOST_SLIPS;
use crate::job::Job;
use crate::life::order;
use crate::pinned::number::is_number;
use crate::pinned::read_line::read_line;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};
use crate::pinned::slip::pinned::Slip;
use crate::pinned::slip::view::View;
use crate::typed::entry::Unit;

pub(super) fn add(
    job: &mut Job,
    kind: SlipKind,
    lines: &[(Line, String)],
    unit: Unit,
) -> Result<Change, EditRefused> {
    let id = pin(job, kind)?;
    let mut change = Change {
        other: true,
        ..Change::default()
    };
    for (line, text) in lines {
        let of_line = set(job, id, *line, text, unit)?;
        change.read += of_line.read;
        change.unread += of_line.unread;
    }
    // A word of acceptance among the lines is about all of them.
    keep_accepted(job, id);
    Ok(change)
}

/// Pins an empty slip to the sheet, and gives its identity.
pub(super) fn pin(job: &mut Job, kind: SlipKind) -> Result<u32, EditRefused> {
    let too_many = EditRefused::TooManySlips { most: MOST_SLIPS };
    if job.slips.len() >= MOST_SLIPS {
        return Err(too_many);
    }
    let id = job.next_slip;
    job.next_slip = id.checked_add(1).ok_or(too_many)?;
    job.slips.push(Arc::new(Slip {
        id,
        kind,
        lines: Arc::default(),
    }));
    Ok(id)
}

/// Puts a text into a line; a word of acceptance is kept with what there was to accept.
pub(super) fn set(
    job: &mut Job,
    id: u32,
    line: Line,
    text: &str,
    unit: Unit,
) -> Result<Change, EditRefused> {
    if !line.is_typed() {
        return Err(EditRefused::NoSuchLine { line });
    }
    if line == Line::Paper {
        keep_withdrawal(job, id, text)?;
    }
    let mut change = put(job, id, line, text, unit)?;
    if line == Line::Accepted {
        change.other |= keep_accepted(job, id);
    }
    Ok(change)
}

/// Orders out of files that kept no record of what was accepted get it before anything changes: what
/// differs by this very edit was not accepted then.
pub(super) fn keep_old_words(job: &mut Job) {
    let old = |order: &View<'_, kind::Order>| {
        let accepted = !order.get(line::Accepted).is_empty();
        accepted && order.get(line::AcceptedWhat).is_empty()
    };
    let orders = job.slips_of::<kind::Order>().filter(old);
    let ids: Vec<u32> = orders.map(View::id).collect();
    for id in ids {
        keep_accepted(job, id);
    }
}

/// Keeps beside the acceptance of an order what differs now; true where that is another than before.
fn keep_accepted(job: &mut Job, id: u32) -> bool {
    let Some(order) = job.slip(id).and_then(Slip::as_view::<kind::Order>) else {
        return false;
    };
    let what = if order.get(line::Accepted).is_empty() {
        String::new()
    } else {
        order::accepted_what(job, order)
    };
    let kept = put(job, id, Line::AcceptedWhat, &what, job.unit);
    kept.is_ok_and(|change| change.other)
}

fn put(job: &mut Job, id: u32, line: Line, text: &str, unit: Unit) -> Result<Change, EditRefused> {
    let found = job.slips.iter_mut().find(|slip| slip.id == id);
    put_in(found.ok_or(EditRefused::NoSuchSlip)?, line, text, unit)
}

/// Puts a text into a line of this very slip.
pub(super) fn put_in(
    slip: &mut Arc<Slip>,
    line: Line,
    text: &str,
    unit: Unit,
) -> Result<Change, EditRefused> {
    check_length(text)?;
    if !slip.kind.lines().contains(&line) {
        return Err(EditRefused::NoSuchLine { line });
    }
    let entry = read_line(line, text, unit);
    let change = Change {
        read: usize::from(entry.value().is_some()),
        unread: usize::from(entry.why().is_some()),
        other: entry != *slip.line(line),
        ..Change::default()
    };
    if change.other {
        let lines = Arc::make_mut(&mut Arc::make_mut(slip).lines);
        if entry.is_empty() {
            lines.remove(&line);
        } else {
            lines.insert(line, entry);
        }
    }
    Ok(change)
}

/// Refuses what would let a paper stand again in silence: the slip that withdrew it taken off, or
/// `text` in the place of its number.
fn keep_withdrawal(job: &Job, id: u32, text: &str) -> Result<(), EditRefused> {
    let slip = job.slip(id).and_then(Slip::as_view);
    let withdrawn = slip.and_then(|slip| job.taken_back_by(slip));
    match withdrawn.filter(|paper| !is_number(&paper.number, text)) {
        None => Ok(()),
        Some(paper) => Err(EditRefused::WithdrawalStays {
            number: paper.number.clone(),
        }),
    }
}

pub(super) fn remove(job: &mut Job, id: u32) -> Result<Change, EditRefused> {
    keep_withdrawal(job, id, "")?;
    let before = job.slips.len();
    job.slips.retain(|slip| slip.id != id);
    if job.slips.len() == before {
        return Err(EditRefused::NoSuchSlip);
    }
    Ok(Change {
        other: true,
        ..Change::default()
    })
}
