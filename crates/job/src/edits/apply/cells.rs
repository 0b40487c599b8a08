//! A block of text into the hole table.

use std::sync::Arc;

use quillbore_calc::RowId;

use super::change::Change;
use super::length::check_length;
use super::refused::EditRefused;
use super::rows;
use crate::edits::edit::CellAt;
use crate::job::Job;
use crate::typed::entry::Unit;
use crate::typed::row::{Column, Row, RowReader, put};

pub(super) fn set(
    job: &mut Job,
    at: CellAt,
    block: &[Vec<Option<String>>],
    unit: Unit,
) -> Result<Change, EditRefused> {
    // Blank lines at a block's end are no rows.
    let last = block.iter().rposition(|cells| !is_blank(cells));
    let rows = last.map_or(0, |last| at.row.saturating_add(last + 1));
    lay(job, at, block, rows, unit)
}

/// Lays a block over the table from a cell on; the table has `wanted_rows` then, if it hadn't more.
pub(super) fn lay(
    job: &mut Job,
    at: CellAt,
    block: &[Vec<Option<String>>],
    wanted_rows: usize,
    unit: Unit,
) -> Result<Change, EditRefused> {
    let first = Column::ALL
        .iter()
        .position(|column| *column == at.column)
        .unwrap_or(0);
    let columns = &Column::ALL[first..];
    check(job, at, block, columns)?;
    let added = rows::add(job, wanted_rows.saturating_sub(job.rows.len()))?;

    let mut reader = RowReader::new(job.angle_basis());
    let mut change = Change::default();
    for (cells, row) in block.iter().zip(job.rows.iter_mut().skip(at.row)) {
        let touched = put_row(row, cells, columns, &mut change, |row, column, text| {
            reader.put(row, column, text, unit);
        });
        // New identities are larger than all before them.
        let new = added.first().is_some_and(|first| row.id >= *first);
        if touched || new {
            change.rows.push(row.id);
        }
    }
    change.added = added;
    Ok(change)
}

/// Puts texts into one row's cells; true where one of them differs from before.
fn put_row(
    row: &mut Arc<Row>,
    cells: &[Option<String>],
    columns: &[Column],
    change: &mut Change,
    mut put: impl FnMut(&mut Row, Column, &str),
) -> bool {
    let mut new = Row::clone(row);
    for (column, text) in columns.iter().zip(cells) {
        let Some(text) = text else { continue };
        put(&mut new, *column, text);
        let cell = new.cell(*column);
        change.unread += usize::from(cell.why.is_some());
        change.read += usize::from(cell.why.is_none() && !cell.text.is_empty());
    }
    let touched = new != **row;
    if touched {
        *row = Arc::new(new);
    }
    touched
}

fn check(
    job: &Job,
    at: CellAt,
    block: &[Vec<Option<String>>],
    columns: &[Column],
) -> Result<(), EditRefused> {
    if at.row > job.rows.len() {
        return Err(EditRefused::BelowTheTable {
            row: at.row,
            rows: job.rows.len(),
        });
    }
    for cells in block {
        for text in cells.iter().flatten() {
            check_length(text)?;
        }
        // Empty cells past the last column lose nothing.
        let width = cells
            .iter()
            .rposition(|cell| cell.as_deref().is_some_and(|text| !text.trim().is_empty()))
            .map_or(0, |last| last + 1);
        if width > columns.len() {
            return Err(EditRefused::PastLastColumn {
                from: at.column,
                columns: width,
                room: columns.len(),
            });
        }
    }
    Ok(())
}

fn is_blank(cells: &[Option<String>]) -> bool {
    cells.iter().flatten().all(|text| text.trim().is_empty())
}

/// Reads every angle's text again, since what angles are measured from has changed.
pub(crate) fn read_angles_again(job: &mut Job) -> Vec<RowId> {
    let basis = job.angle_basis();
    let mut touched = Vec::new();
    for row in &mut job.rows {
        let units = [row.angle.unit(), row.exit.unit()];
        if units == [None, None] {
            continue;
        }
        let mut new = Row::clone(row);
        if let Some(unit) = row.angle.unit() {
            put(&mut new, Column::Angle, row.angle.text(), unit, basis);
        }
        if let Some(unit) = row.exit.unit() {
            put(&mut new, Column::Exit, row.exit.text(), unit, basis);
        }
        if new != **row {
            touched.push(row.id);
            *row = Arc::new(new);
        }
    }
    touched
}
