//! The hole table as the grid reads it: what was typed, and what was computed of it.

use std::borrow::Cow;
use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_job::job::FigureKey;
use quillbore_job::results::Results;
use quillbore_job::words::english;
use quillbore_job::{CellAt as JobCell, Column, Edit, Job, Row, Shop, Unit};

use super::columns::{Made, Shown, grid_column};
use crate::grid::{CellState, GridAt, GridColumn, GridModel};
use crate::sheet::shared::Shared;
use crate::words::holes as words;
use crate::words::sheet::with_unit;

/// The hole table as the grid reads it.
pub(super) struct Holes<'a> {
    job: &'a Job,
    results: &'a Results,
    shop: &'a Shop,
    pub(super) shown: Vec<Shown>,
    columns: Vec<GridColumn>,
}

impl<'a> Holes<'a> {
    pub(super) fn new(shared: &Shared<'a>, shown: Vec<Shown>) -> Self {
        let columns = shown
            .iter()
            .map(|shown| grid_column(*shown, shared.job.unit))
            .collect();
        Self {
            job: shared.job,
            results: shared.results,
            shop: shared.shop,
            shown,
            columns,
        }
    }

    fn figures(&self, row: usize) -> Option<&HoleFigures> {
        self.results.figures.holes.get(row).map(Arc::as_ref)
    }

    /// The typed columns from a column of the screen on; computed ones between are none.
    pub(super) fn typed_from(&self, col: usize) -> Vec<Option<Column>> {
        let shown = self.shown.iter().skip(col);
        shown
            .map(|shown| match shown {
                Shown::Typed(column) => Some(*column),
                Shown::Made(_) => None,
            })
            .collect()
    }

    /// A block from a cell on, spread over the typed columns that it lies on; what falls on computed
    /// columns is computed there anyway.
    pub(super) fn set_cells(&self, at: GridAt, rows: Vec<Vec<String>>, unit: Unit) -> Option<Edit> {
        let width = rows.iter().map(Vec::len).max().unwrap_or(0);
        let typed: Vec<usize> = (at.col..(at.col + width).min(self.shown.len()))
            .filter_map(|col| match self.shown.get(col) {
                Some(Shown::Typed(column)) => Column::ALL.iter().position(|known| known == column),
                _ => None,
            })
            .collect();
        let first = typed.iter().min().copied()?;
        let block = rows
            .into_iter()
            .map(|cells| self.spread(at.col, first, cells))
            .collect();
        let column = *Column::ALL.get(first)?;
        Some(Edit::SetCells {
            at: JobCell {
                row: at.row,
                column,
            },
            rows: block,
            unit,
        })
    }

    fn spread(&self, from: usize, first: usize, cells: Vec<String>) -> Vec<Option<String>> {
        let mut row = vec![None; Column::ALL.len() - first];
        for (index, text) in cells.into_iter().enumerate() {
            let place = match self.shown.get(from + index) {
                Some(Shown::Typed(column)) => Column::ALL
                    .iter()
                    .position(|known| known == column)
                    .and_then(|all| all.checked_sub(first)),
                Some(Shown::Made(_)) | None => None,
            };
            if let Some(cell) = place.and_then(|place| row.get_mut(place)) {
                *cell = Some(text);
            }
        }
        while row.len() > 1 && row.last().is_some_and(Option::is_none) {
            row.pop();
        }
        row
    }

    fn is_overruled(&self, made: Made, row: RowId) -> bool {
        let figure = match made {
            Made::Minutes => FigureKey::HoleMinutes(row),
            Made::Wear => FigureKey::Wear(row),
            Made::Drills => FigureKey::Gap(row),
            Made::Electrode | Made::Verdict | Made::PerHole | Made::Flush | Made::Push => {
                return false;
            }
        };
        self.job.overrule(&figure).is_some()
    }

    fn made(&self, made: Made, row: usize) -> Option<String> {
        let hole = self.figures(row)?;
        let (unit, form) = (self.job.unit, self.shop.form);
        Some(match made {
            Made::Electrode => {
                let tube = hole.tube?.of(&self.shop.tables.tubes)?;
                words::electrode(&form.length_mm(tube.outer_mm, unit), tube.channels)
            }
            Made::Drills => form.limits(hole.size_mm?, unit),
            Made::Verdict => english::verdict(hole.verdict?).to_owned(),
            Made::Minutes => form.minutes(hole.minutes?.p50),
            Made::Wear => words::wear(hole.wear_mm?, unit, form),
            Made::PerHole => hole.electrodes_per_hole?.to_string(),
            Made::Flush => form.number(hole.flush.as_deref()?.bottom.ml_min, 2),
            Made::Push => form.bare_force(hole.push_n?, unit),
        })
    }
}

impl GridModel for Holes<'_> {
    fn row_name(&self) -> &str {
        words::ROW
    }

    fn row_count(&self) -> usize {
        self.job.rows.len()
    }

    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }

    fn text(&self, at: GridAt) -> Cow<'_, str> {
        let Some(row) = self.job.rows.get(at.row) else {
            return Cow::Borrowed("");
        };
        match self.shown.get(at.col) {
            Some(Shown::Typed(column)) => {
                if *column == Column::Count && row.count.is_empty() && !row.places.is_empty() {
                    return Cow::Owned(row.places.len().to_string());
                }
                // What broke stands in the place of a size, in pencil: its own column is among the others.
                if *column == Column::Size && row.size.is_empty() {
                    return Cow::Borrowed(row.broken.text());
                }
                let look = row.cell(*column);
                let other =
                    column.is_measured() && look.unit.is_some_and(|unit| unit != self.job.unit);
                if other {
                    Cow::Owned(with_unit(look.text, look.unit))
                } else {
                    Cow::Borrowed(look.text)
                }
            }
            Some(Shown::Made(made)) => Cow::Owned(self.made(*made, at.row).unwrap_or_default()),
            None => Cow::Borrowed(""),
        }
    }

    fn typed(&self, at: GridAt) -> Cow<'_, str> {
        match self.state(at) {
            CellState::Usual => Cow::Borrowed(""),
            _ => self.text(at),
        }
    }

    fn state(&self, at: GridAt) -> CellState {
        match self.shown.get(at.col) {
            Some(Shown::Typed(column)) => {
                let row = self.job.rows.get(at.row);
                let is_tool = |row: &Row| *column == Column::Size && row.size.is_empty();
                if row.and_then(|row| row.cell(*column).why).is_some() {
                    CellState::Unread
                } else if row.is_some_and(|row| is_tool(row) && !row.broken.is_empty()) {
                    CellState::Usual
                } else {
                    CellState::Plain
                }
            }
            Some(Shown::Made(made)) => {
                let row = self.job.rows.get(at.row).map(|row| row.id);
                let overruled = row.is_some_and(|row| self.is_overruled(*made, row));
                if overruled {
                    CellState::Overruled
                } else {
                    CellState::Computed
                }
            }
            None => CellState::Plain,
        }
    }
}
