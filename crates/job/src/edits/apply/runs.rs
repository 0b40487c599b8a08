//! A block of text into the run records.

use super::change::Change;
use super::refused::EditRefused;
use super::slips::{pin, put_in};
use crate::edits::edit::RunAt;
use crate::job::Job;
use crate::pinned::slip::lists::SlipKind;
use crate::pinned::slip::run_columns::RUN_COLUMNS;
use crate::typed::entry::Unit;

pub(super) fn set(
    job: &mut Job,
    at: RunAt,
    block: &[Vec<Option<String>>],
    unit: Unit,
) -> Result<Change, EditRefused> {
    let first = RUN_COLUMNS
        .iter()
        .position(|column| column.line() == at.line)
        .ok_or(EditRefused::NoSuchLine { line: at.line })?;
    let columns = &RUN_COLUMNS[first..];
    // Where the records stand among the slips: a search for each would look through all of them.
    let mut places = run_places(job);
    check(at, places.len(), block, columns.len())?;
    // Blank lines at a block's end are no records.
    let last = block.iter().rposition(|cells| cells.iter().any(is_filled));
    let wanted = last.map_or(0, |last| at.row.saturating_add(last + 1));
    let mut change = Change::default();
    while places.len() < wanted {
        pin(job, SlipKind::Run)?;
        places.push(job.slips.len() - 1);
        change.other = true;
    }
    for (cells, place) in block.iter().zip(places.into_iter().skip(at.row)) {
        let Some(slip) = job.slips.get_mut(place) else {
            continue;
        };
        for (column, text) in columns.iter().zip(cells) {
            let Some(text) = text else { continue };
            let of_line = put_in(slip, column.line(), text, unit)?;
            change.read += of_line.read;
            change.unread += of_line.unread;
            change.other |= of_line.other;
        }
    }
    Ok(change)
}

fn run_places(job: &Job) -> Vec<usize> {
    let slips = job.slips.iter().enumerate();
    let runs = slips.filter(|(_, slip)| slip.kind == SlipKind::Run);
    runs.map(|(place, _)| place).collect()
}

fn check(
    at: RunAt,
    runs: usize,
    block: &[Vec<Option<String>>],
    room: usize,
) -> Result<(), EditRefused> {
    if at.row > runs {
        return Err(EditRefused::BelowTheTable {
            row: at.row,
            rows: runs,
        });
    }
    // Empty cells past the last column lose nothing.
    let width = |cells: &Vec<Option<String>>| {
        let last = cells.iter().rposition(is_filled);
        last.map_or(0, |last| last + 1)
    };
    match block.iter().map(width).find(|width| *width > room) {
        Some(columns) => Err(EditRefused::PastLastLine {
            from: at.line,
            columns,
            room,
        }),
        None => Ok(()),
    }
}

fn is_filled(cell: &Option<String>) -> bool {
    cell.as_deref().is_some_and(|text| !text.trim().is_empty())
}
