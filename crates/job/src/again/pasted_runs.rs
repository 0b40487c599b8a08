//! A block of cells from elsewhere into the run records, with or without heads.

use std::collections::BTreeSet;

use crate::edits::edit::{Edit, RunAt};
use crate::pinned::slip::lists::Line;
use crate::pinned::slip::run_columns::RUN_COLUMNS;
use crate::typed::entry::Unit;
use crate::words::runs;

/// The edit that puts a block of cells from elsewhere into the run records. Where its first line names
/// columns, each goes where its head says, and the block begins in the first column.
#[must_use]
pub fn pasted(at: RunAt, rows: Vec<Vec<String>>, unit: Unit) -> Edit {
    let columns = rows.first().and_then(|first| columns_of(first));
    let (at, rows) = match columns {
        Some(columns) => {
            let placed = rows.into_iter().skip(1).map(|cells| place(&columns, cells));
            let line = Line::Date;
            (RunAt { line, ..at }, placed.collect())
        }
        None => {
            let whole = |cells: Vec<String>| cells.into_iter().map(Some).collect();
            (at, rows.into_iter().map(whole).collect())
        }
    };
    Edit::SetRuns { at, rows, unit }
}

/// Whether the first line of a block names columns.
#[must_use]
pub fn is_headed(rows: &[Vec<String>]) -> bool {
    rows.first()
        .is_some_and(|first| columns_of(first).is_some())
}

/// Cells in the order of the columns, by the place that each one's head names.
fn place(columns: &[Option<usize>], cells: Vec<String>) -> Vec<Option<String>> {
    let mut row = vec![None; RUN_COLUMNS.len()];
    for (column, text) in columns.iter().zip(cells) {
        if let Some(cell) = column.and_then(|at| row.get_mut(at)) {
            *cell = Some(text);
        }
    }
    row
}

/// The columns that a line names, if it is a line of heads: two at least, each once, and nothing else.
fn columns_of(first: &[String]) -> Option<Vec<Option<usize>>> {
    let mut seen = BTreeSet::new();
    let columns = first.iter().map(|cell| {
        if cell.trim().is_empty() {
            return Some(None);
        }
        let line = runs::line_named(cell)?;
        let at = RUN_COLUMNS
            .iter()
            .position(|column| column.line() == line)?;
        seen.insert(at).then_some(Some(at))
    });
    let columns: Option<Vec<Option<usize>>> = columns.collect();
    columns.filter(|_| seen.len() > 1)
}
