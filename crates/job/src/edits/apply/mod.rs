//! Doing an edit to a job: pure, in one place for window, import, commands and tests alike.

mod answers;
pub(crate) mod cells;
pub(crate) mod change;
mod length;
mod overrules;
mod places;
pub(crate) mod refused;
mod rows;
mod runs;
mod slips;
mod table;

use cells::read_angles_again;
pub use change::Change;
pub use refused::EditRefused;

use std::sync::Arc;

use length::check_length;

use crate::edits::edit::Edit;
use crate::job::Job;
use crate::typed::entry::Unit;
use crate::typed::field::Field;
use crate::typed::read_field::read_field;

/// Does an edit to a job and says what it touched; the rows that it doesn't touch stay shared.
pub fn apply(job: &Job, edit: &Edit) -> Result<(Job, Change), EditRefused> {
    let mut job = job.clone();
    let change = change_to(&mut job, edit)?;
    Ok((job, change))
}

/// Does an edit to a job that is thrown away where it is refused.
fn change_to(job: &mut Job, edit: &Edit) -> Result<Change, EditRefused> {
    slips::keep_old_words(job);
    Ok(match edit {
        Edit::SetField { field, text, unit } => set_field(job, *field, text, *unit)?,
        Edit::SetCells { at, rows, unit } => cells::set(job, *at, rows, *unit)?,
        Edit::InsertRows { before, count } => rows::insert(job, *before, *count)?,
        Edit::DeleteRows { rows } => rows::delete(job, rows)?,
        Edit::SetPlaces { row, places } => places::set(job, *row, places)?,
        Edit::SetRows {
            at,
            cells,
            places,
            unit,
            report,
        } => {
            let mut change = table::set(job, *at, cells, places, *unit)?;
            if let Some(report) = report {
                table::keep(job, report)?;
                change.other = true;
            }
            change
        }
        Edit::Together { edits } => together(job, edits)?,
        Edit::SetUnit(unit) => set_unit(job, *unit),
        Edit::Overrule {
            figure,
            text,
            reason,
            unit,
        } => overrules::put(job, figure, text, reason, *unit)?,
        Edit::AddSlip { kind, lines, unit } => slips::add(job, *kind, lines, *unit)?,
        Edit::SetLine {
            slip,
            line,
            text,
            unit,
        } => slips::set(job, *slip, *line, text, *unit)?,
        Edit::SetRuns { at, rows, unit } => runs::set(job, *at, rows, *unit)?,
        Edit::RemoveSlip { slip } => slips::remove(job, *slip)?,
        Edit::WithdrawOverrule { figure } => overrules::withdraw(job, figure)?,
        Edit::Answer(answer) => answers::put(job, answer)?,
        Edit::WithdrawAnswer { row, concern } => answers::withdraw(job, *row, *concern)?,
    })
}

/// Every edit on what the one before left; where one is refused the job stays as it was.
fn together(job: &mut Job, edits: &[Edit]) -> Result<Change, EditRefused> {
    // A copy for each of thousands of edits would be a copy of the whole job each.
    let before = job.clone();
    let (mut read, mut unread) = (0, 0);
    for edit in edits {
        let change = change_to(job, edit)?;
        read += change.read;
        unread += change.unread;
    }
    Ok(Change {
        read,
        unread,
        ..Change::between(&before, job)
    })
}

fn set_field(job: &mut Job, field: Field, text: &str, unit: Unit) -> Result<Change, EditRefused> {
    check_length(text)?;
    let entry = read_field(field, text, unit);
    let mut change = Change {
        read: usize::from(entry.value().is_some()),
        unread: usize::from(entry.why().is_some()),
        ..Change::default()
    };
    if entry == *job.field(field) {
        return Ok(change);
    }
    let fields = Arc::make_mut(&mut job.fields);
    if entry.is_empty() {
        fields.remove(&field);
    } else {
        fields.insert(field, entry);
    }
    change.fields.push(field);
    if field == Field::AngleBasis {
        change.rows = read_angles_again(job);
    }
    Ok(change)
}

fn set_unit(job: &mut Job, unit: Unit) -> Change {
    let other = job.unit != unit;
    job.unit = unit;
    Change {
        other,
        ..Change::default()
    }
}
