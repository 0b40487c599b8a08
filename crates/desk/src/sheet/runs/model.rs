//! The run records as the grid reads them: what was typed, line below line.

use std::borrow::Cow;

use quillbore_job::apply::EditRefused;
use quillbore_job::life::{RunPlan, Stretch};
use quillbore_job::slip::{RUN_COLUMNS, Slip};
use quillbore_job::{Edit, Entry, Form, Job, Line, RunAt, SlipKind, Value};

use quillbore_paper::shown;

use super::columns::grid_column;
use crate::grid::{CellState, GridAt, GridColumn, GridModel};
use crate::sheet::shared::Shared;
use crate::words::runs as words;
use crate::words::sheet::with_unit;

/// The height of a row: the plan in pencil, what happened in ink.
pub(super) const ROW: f32 = 38.0;

/// What is known of a line that is new.
pub(super) struct NewRun<'a> {
    /// It is typed by hand: a block that is pasted says itself of which day it is.
    pub(super) is_typed: bool,
    /// Today.
    pub(super) day: String,
    /// Whoever sits at the desk.
    pub(super) by: &'a str,
}

/// The run records as the grid reads them, in the order in which they were written.
pub(super) struct Runs<'a> {
    job: &'a Job,
    form: Form,
    plan: &'a RunPlan,
    pub(super) slips: Vec<&'a Slip>,
    pub(super) shown: Vec<Line>,
    columns: Vec<GridColumn>,
}

impl<'a> Runs<'a> {
    pub(super) fn new(shared: &Shared<'a>, plan: &'a RunPlan, shown: Vec<Line>) -> Self {
        let slips = shared.job.slips.iter().map(AsRef::as_ref);
        let unit = shared.job.unit;
        Self {
            job: shared.job,
            form: shared.shop.form,
            plan,
            slips: slips
                .filter(|slip: &&Slip| slip.kind == SlipKind::Run)
                .collect(),
            columns: shown.iter().map(|line| grid_column(*line, unit)).collect(),
            shown,
        }
    }

    fn entry(&self, at: GridAt) -> Option<&'a Entry<Value>> {
        let line = self.shown.get(at.col)?;
        Some(self.slips.get(at.row)?.line(*line))
    }

    /// What is planned of a stretch in a column.
    fn said(&self, stretch: &Stretch, line: Line) -> String {
        let length = |at: usize| {
            let mm = stretch.length_mm.map(|lengths| lengths[at]);
            mm.map_or_else(String::new, |mm| {
                self.form.length_by_rule(mm, self.job.unit)
            })
        };
        let minutes = |minutes: Option<f64>| {
            minutes.map_or_else(String::new, |minutes| self.form.minutes(minutes))
        };
        match line {
            Line::ElectrodeNumber => shown::numbers(stretch.first, stretch.last),
            Line::Mark => {
                let index = self.job.row_index(stretch.row);
                let row = index.map(|index| &self.job.rows[index]);
                row.map_or_else(String::new, |row| row.mark.text().to_owned())
            }
            Line::Holes => self.form.exact(stretch.holes),
            Line::TubeBefore => length(0),
            Line::TubeAfter => length(1),
            Line::SparkMinutes => minutes(stretch.sparking_min),
            Line::FloorMinutes => minutes(stretch.clock_min),
            _ => String::new(),
        }
    }

    /// A block from a cell on as one edit, each text in the column that it lies on.
    ///
    /// # Errors
    /// Where it reaches past the last column: nothing is dropped in silence.
    pub(super) fn set_cells(
        &self,
        at: GridAt,
        rows: Vec<Vec<String>>,
        new: &NewRun<'_>,
    ) -> Result<Edit, EditRefused> {
        let (from, room) = (self.shown[at.col], self.shown.len() - at.col);
        let width = |cells: &Vec<String>| {
            let last = cells.iter().rposition(|text| !text.trim().is_empty());
            last.map_or(0, |last| last + 1)
        };
        if let Some(columns) = rows.iter().map(width).find(|width| *width > room) {
            return Err(EditRefused::PastLastLine {
                from,
                columns,
                room,
            });
        }
        let place = |col: usize| {
            let line = self.shown.get(col);
            let mut all = RUN_COLUMNS.iter();
            line.and_then(|line| all.position(|column| column.line() == *line))
        };
        let spread = |cells: Vec<String>| {
            let mut row = vec![None; RUN_COLUMNS.len()];
            for (index, text) in cells.into_iter().enumerate() {
                if let Some(cell) = place(at.col + index).and_then(|at| row.get_mut(at)) {
                    *cell = Some(text);
                }
            }
            row
        };
        let line = RUN_COLUMNS[0].line();
        let mut rows: Vec<Vec<Option<String>>> = rows.into_iter().map(spread).collect();
        if new.is_typed && at.row >= self.slips.len() {
            // A line that somebody begins by hand is of today and by whoever types, until it says else.
            for row in &mut rows {
                for (line, text) in [(Line::Date, new.day.as_str()), (Line::By, new.by)] {
                    let at = RUN_COLUMNS.iter().position(|column| column.line() == line);
                    if let Some(cell) = at.and_then(|at| row.get_mut(at))
                        && !text.is_empty()
                    {
                        cell.get_or_insert_with(|| text.to_owned());
                    }
                }
            }
        }
        Ok(Edit::SetRuns {
            at: RunAt { row: at.row, line },
            rows,
            unit: self.job.unit,
        })
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
        let kind = self.shown.get(at.col).map(|line| line.kind());
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

    /// The electrode's number and the mark.
    fn sticky_columns(&self) -> usize {
        2
    }

    fn row_height(&self) -> f32 {
        ROW
    }

    /// The plan of a record; on the row below the last one what no record covers yet comes first.
    fn pencilled(&self, at: GridAt) -> String {
        let is_row = at.row < self.slips.len();
        let stretch = if is_row {
            self.plan.beside.get(at.row).and_then(Option::as_ref)
        } else {
            self.plan.left.first()
        };
        let planned = stretch.zip(self.shown.get(at.col));
        planned.map_or_else(String::new, |(stretch, line)| self.said(stretch, *line))
    }
}
