//! Helpers shared by the tests of the whole.

pub mod attack;
pub mod shops;
pub mod shops_jobs;
pub mod sweep;

use quillbore_job::{CellAt, Column, Edit, EditRefused, Field, Job, Unit, apply};

/// A job with one cell typed into the row with this mark; a new row where none has it.
pub fn set_cell(job: &Job, mark: &str, column: Column, text: &str) -> Result<Job, EditRefused> {
    let row = job.rows.iter().position(|row| row.mark.text() == mark);
    let at = |row, column| CellAt { row, column };
    let typed = |job: &Job, at, text: &str| {
        let edit = Edit::SetCells {
            at,
            rows: vec![vec![Some(text.to_owned())]],
            unit: job.unit,
        };
        apply(job, &edit).map(|(job, _)| job)
    };
    match row {
        Some(row) => typed(job, at(row, column), text),
        None => {
            let row = job.rows.len();
            let marked = typed(job, at(row, Column::Mark), mark)?;
            typed(&marked, at(row, column), text)
        }
    }
}

/// A job with one field typed, in the job's unit.
pub fn set_field(job: &Job, field: Field, text: &str) -> Result<Job, EditRefused> {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: job.unit,
    };
    apply(job, &edit).map(|(job, _)| job)
}

/// A job with a table of holes, as lines of `mark | count | size | depth | end | ...`.
pub fn set_holes(job: &Job, unit: Unit, lines: &str) -> Result<Job, EditRefused> {
    let rows = lines
        .lines()
        .map(|line| {
            line.split('|')
                .map(|cell| Some(cell.trim().to_owned()))
                .collect()
        })
        .collect();
    let edit = Edit::SetCells {
        at: CellAt {
            row: job.rows.len(),
            column: Column::Mark,
        },
        rows,
        unit,
    };
    apply(job, &edit).map(|(job, _)| job)
}
