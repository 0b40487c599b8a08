//! The run records as the grid reads them: what was typed, line below line.

use std::borrow::Cow;

use quillbore_job::slip::{RUN_COLUMNS, Slip};
use quillbore_job::{Entry, Job, SlipKind, Value};

use super::columns::grid_column;
use crate::grid::{CellState, GridAt, GridColumn, GridModel};
use crate::sheet::shared::Shared;
use crate::words::runs as words;
use crate::words::sheet::with_unit;

/// The run records as the grid reads them, in the order in which they were written.
pub(super) struct Runs<'a> {
    job: &'a Job,
    pub(super) slips: Vec<&'a Slip>,
    columns: Vec<GridColumn>,
}

impl<'a> Runs<'a> {
    pub(super) fn new(shared: &Shared<'a>) -> Self {
        let slips = shared.job.slips.iter().map(AsRef::as_ref);
        let unit = shared.job.unit;
        Self {
            job: shared.job,
            slips: slips
                .filter(|slip: &&Slip| slip.kind == SlipKind::Run)
                .collect(),
            columns: RUN_COLUMNS
                .iter()
                .map(|column| grid_column(column.line(), unit))
                .collect(),
        }
    }

    fn entry(&self, at: GridAt) -> Option<&'a Entry<Value>> {
        let column = RUN_COLUMNS.get(at.col)?;
        Some(self.slips.get(at.row)?.line(column.line()))
    }
}

impl GridModel for Runs<'_> {
    fn row_name(&self) -> &str {
        words::ROW
    }

    fn row_count(&self) -> usize {
        self.slips.len()
    }

    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }

    fn text(&self, at: GridAt) -> Cow<'_, str> {
        let Some(entry) = self.entry(at) else {
            return Cow::Borrowed("");
        };
        let kind = RUN_COLUMNS.get(at.col).map(|column| column.line().kind());
        let other = entry.unit().is_some_and(|unit| unit != self.job.unit);
        if other && kind.is_some_and(quillbore_job::FieldKind::is_measured) {
            Cow::Owned(with_unit(entry.text(), entry.unit()))
        } else {
            Cow::Borrowed(entry.text())
        }
    }

    fn state(&self, at: GridAt) -> CellState {
        match self.entry(at).and_then(Entry::why) {
            Some(_) => CellState::Unread,
            None => CellState::Plain,
        }
    }
}
