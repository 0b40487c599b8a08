//! What the grid wants, as edits of the job and figures to open.

use quillbore_calc::Figure;
use quillbore_intake::{Foreign, IntakeError};
use quillbore_job::Edit;

use super::columns::{Made, Shown};
use super::model::Holes;
use crate::grid::{GridAsk, GridAt, GridModel as _, GridShown, ROW_HEIGHT, SetWhy};
use crate::sheet::shared::Shared;
use crate::view::{Ask, Pasting, SheetView, WorkingAt};
use crate::words::grid as grid_words;
use crate::words::holes as words;

/// What is typed when the cell above says it already.
const DITTO: &str = "\"";

/// A ditto mark that was typed in a cell stands for what the cell above holds.
fn repeated(model: &Holes<'_>, at: GridAt, rows: Vec<Vec<String>>) -> Vec<Vec<String>> {
    let is_ditto = rows.iter().flatten().all(|text| text.trim() == DITTO);
    let Some(above) = at.row.checked_sub(1).filter(|_| is_ditto) else {
        return rows;
    };
    let above = GridAt::new(above, at.col);
    vec![vec![model.typed(above).into_owned()]]
}

/// Whether what was typed in a cell is what the cell above holds, and longer than the mark that says so.
fn repeats(model: &Holes<'_>, at: GridAt, rows: &[Vec<String>]) -> bool {
    let ([cells], Some(above)) = (rows, at.row.checked_sub(1)) else {
        return false;
    };
    let [typed] = cells.as_slice() else {
        return false;
    };
    let typed = typed.trim();
    typed.chars().count() > 2 && model.typed(GridAt::new(above, at.col)) == typed
}

/// What the grid wants, as edits of the job.
pub(super) fn translate(
    want: GridAsk,
    model: &Holes<'_>,
    (shared, table): (&Shared<'_>, &GridShown),
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let unit = shared.job.unit;
    match want {
        GridAsk::SetCells { at, rows, why } => {
            let is_typed = why == SetWhy::Typed;
            let repeats = is_typed && repeats(model, at, &rows);
            let rows = if is_typed {
                repeated(model, at, rows)
            } else {
                rows
            };
            if why == SetWhy::Pasted {
                let row = at.row;
                match Foreign::of_rows(&rows, &model.typed_from(at.col)) {
                    Ok(table) => {
                        asks.push(Ask::Paste(Box::new(Pasting::new(table, row, unit))));
                        return;
                    }
                    // Empty cells empty those that they lie over.
                    Err(IntakeError::Empty) => {}
                    Err(error) => {
                        asks.push(Ask::NoTable(error));
                        return;
                    }
                }
            }
            if let Some(edit) = model.set_cells(at, rows, unit) {
                asks.push(Ask::Edit(edit));
                if repeats {
                    asks.push(Ask::Tell(words::REPEATED.to_owned()));
                }
            }
        }
        GridAsk::InsertRows { at, count } => {
            asks.push(Ask::Edit(Edit::InsertRows { before: at, count }));
        }
        GridAsk::DeleteRows { at, count } => {
            let rows = shared
                .job
                .rows
                .iter()
                .skip(at)
                .take(count)
                .map(|row| row.id)
                .collect();
            asks.push(Ask::Edit(Edit::DeleteRows { rows }));
        }
        GridAsk::NotTyped(at) => {
            let heads = model.columns();
            let head = heads.get(at.col).map_or("", |column| column.head.as_str());
            asks.push(Ask::Tell(grid_words::not_typed(head)));
        }
        GridAsk::OpenWorking(at) => {
            if let (Some(Shown::Made(made)), Some(row)) =
                (model.shown.get(at.col), shared.job.rows.get(at.row))
            {
                let figure = match made {
                    Made::Electrode | Made::Verdict => Figure::Electrode(row.id),
                    Made::Drills => Figure::Gap(row.id),
                    Made::Minutes => Figure::HoleMinutes(row.id),
                    Made::Wear => Figure::Wear(row.id),
                    Made::PerHole => Figure::ElectrodesPerHole(row.id),
                    Made::Flush => Figure::Flush(row.id),
                    Made::Push => Figure::Push(row.id),
                };
                let mut shown = table.rows.iter();
                let y = shown.find(|(shown, _)| *shown == at.row);
                let at = y.map_or(WorkingAt::AboveFoot, |(_, y)| {
                    WorkingAt::Beside(y - ROW_HEIGHT / 2.0)
                });
                view.show_working(figure, at);
            }
        }
    }
}
