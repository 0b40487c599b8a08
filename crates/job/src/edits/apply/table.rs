//! The rows of a table from elsewhere: cells, places and report in one step.

use std::collections::BTreeSet;
use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;

use super::change::Change;
use super::refused::EditRefused;
use super::{cells, places, rows};
use crate::edits::edit::{CellAt, RowsAt};
use crate::job::Job;
use crate::pinned::report::{MOST_REPORTS, MOST_TOLD, Report, TooMuch};
use crate::typed::entry::Unit;
use crate::typed::row::Column;

/// One row for each list of cells or of places, whichever are more.
pub(super) fn set(
    job: &mut Job,
    at: RowsAt,
    block: &[Vec<Option<String>>],
    lists: &[Vec<Place>],
    unit: Unit,
) -> Result<Change, EditRefused> {
    let (first, gone) = match at {
        RowsAt::Append => (job.rows.len(), Change::default()),
        RowsAt::Over { row } => (row, Change::default()),
        RowsAt::Replace => {
            let all: Vec<RowId> = job.rows.iter().map(|row| row.id).collect();
            (0, rows::delete(job, &all)?)
        }
    };
    let height = block.len().max(lists.len());
    let corner = CellAt {
        row: first,
        column: Column::Mark,
    };
    let laid = cells::lay(job, corner, block, first.saturating_add(height), unit)?;
    let mut touched: BTreeSet<RowId> = laid.rows.into_iter().chain(laid.added.clone()).collect();
    for (row, list) in job.rows.iter_mut().skip(first).zip(lists) {
        // A line without places says nothing of those that a row has.
        if !list.is_empty() && places::give(row, list)? {
            touched.insert(row.id);
        }
    }
    let reached = job.rows.iter().skip(first).take(height).map(|row| row.id);
    Ok(Change {
        rows: reached.filter(|id| touched.contains(id)).collect(),
        added: laid.added,
        read: laid.read,
        unread: laid.unread,
        ..gone
    })
}

/// Keeps the report of a table in the job.
pub(super) fn keep(job: &mut Job, report: &Arc<Report>) -> Result<(), EditRefused> {
    match report.too_much() {
        Some(TooMuch::Told) => return Err(EditRefused::ReportTooLong { most: MOST_TOLD }),
        Some(TooMuch::Text) => {
            let most = crate::ground::limits::LONGEST_TEXT;
            return Err(EditRefused::TextTooLong { most });
        }
        None => {}
    }
    if job.reports.len() >= MOST_REPORTS {
        return Err(EditRefused::TooManyReports { most: MOST_REPORTS });
    }
    job.reports.push(Arc::clone(report));
    Ok(())
}
