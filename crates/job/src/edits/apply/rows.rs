//! Adding and taking out rows; an identity is never given twice.

use std::collections::BTreeSet;
use std::sync::Arc;

use quillbore_calc::RowId;

use super::change::Change;
use super::refused::EditRefused;
use crate::ground::limits::MOST_ROWS;
use crate::job::Job;
use crate::typed::row::Row;

pub(super) fn insert(job: &mut Job, before: usize, count: usize) -> Result<Change, EditRefused> {
    let rows = job.rows.len();
    if before > rows {
        return Err(EditRefused::BelowTheTable { row: before, rows });
    }
    let added = add(job, count)?;
    job.rows[before..].rotate_right(added.len());
    Ok(Change {
        rows: added.clone(),
        added,
        ..Change::default()
    })
}

/// Adds empty rows at the table's end.
pub(super) fn add(job: &mut Job, count: usize) -> Result<Vec<RowId>, EditRefused> {
    let too_many = EditRefused::TooManyRows { most: MOST_ROWS };
    let room = MOST_ROWS.saturating_sub(job.rows.len());
    if count > room {
        return Err(too_many);
    }
    // Identities run out only after four thousand million rows; then the table takes no more.
    let last = u32::try_from(count)
        .ok()
        .and_then(|count| job.next_row.checked_add(count))
        .ok_or(too_many)?;
    let added: Vec<RowId> = (job.next_row..last).map(RowId).collect();
    job.rows.extend(added.iter().map(|id| {
        Arc::new(Row {
            id: *id,
            ..Row::default()
        })
    }));
    job.next_row = last;
    Ok(added)
}

pub(super) fn delete(job: &mut Job, rows: &[RowId]) -> Result<Change, EditRefused> {
    let gone: BTreeSet<RowId> = rows.iter().copied().collect();
    let here: BTreeSet<RowId> = job.rows.iter().map(|row| row.id).collect();
    if let Some(row) = gone.difference(&here).next() {
        return Err(EditRefused::NoSuchRow { row: *row });
    }
    let removed = job
        .rows
        .iter()
        .map(|row| row.id)
        .filter(|id| gone.contains(id))
        .collect();
    job.rows.retain(|row| !gone.contains(&row.id));
    let overrules = job.overrules.len();
    job.overrules
        .retain(|overrule| overrule.figure.row().is_none_or(|row| !gone.contains(&row)));
    let answers = job.answers.len();
    job.answers.retain(|answer| !gone.contains(&answer.row));
    Ok(Change {
        removed,
        other: overrules != job.overrules.len() || answers != job.answers.len(),
        ..Change::default()
    })
}
