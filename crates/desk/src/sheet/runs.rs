//! The run records as one table, a line for each stretch of holes, as on the traveler.

mod columns;
mod model;

use egui::Ui;
use quillbore_job::pasted_runs::pasted;
use quillbore_job::results::Beside;
use quillbore_job::slip::{RUN_COLUMNS, Slip};
use quillbore_job::{Edit, RunAt, SlipKind};

use super::parts::pencil;
use super::shared::{Anchors, Shared};
use crate::grid::{GridAsk, GridModel as _, GridShown, SetWhy, grid_ui};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::{own, runs as words};
use model::Runs;

/// The table of the run records, from the order on; gives the record whose own lines are to be laid out
/// or put away, once they were drawn: what is typed there is kept when it is left.
pub(super) fn runs_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) -> Option<u32> {
    if !has_begun(shared) {
        return None;
    }
    let top = ui.cursor().top() + 10.0;
    let model = Runs::new(shared);
    let mut wanted = Vec::new();
    let height = (model.row_count() as f32 + 1.0)
        .mul_add(21.0, 46.0)
        .clamp(90.0, 420.0);
    let table = grid_ui(ui, "runs", &model, &mut view.runs, height, &mut wanted);
    put_anchors(&table, &model, anchors, top);
    for want in wanted {
        asks.extend(asked(want, &model, shared).map(Ask::Edit));
    }
    let words = ui.horizontal_wrapped(|ui| words_ui(ui, &model, view, asks));
    let at = model.slips.get(view.runs.cursor().row);
    let taught = at.and_then(|slip| shared.taught.iter().find(|taught| taught.slip == slip.id));
    // The line is there also where nothing is to be said, so that what stands below never jumps.
    let held = taught.map_or_else(|| " ".to_owned(), own::held_against);
    pencil(ui, &held);
    pencil(ui, words::WHICH_MINUTES);
    words.inner
}

/// Whether there may be something to write down: an order is here, or parts, or a record.
fn has_begun(shared: &Shared<'_>) -> bool {
    let begins = |slip: &Slip| {
        matches!(
            slip.kind,
            SlipKind::Order | SlipKind::Received | SlipKind::Run
        )
    };
    shared.job.slips.iter().any(|slip| begins(slip))
}

/// Side notes stand beside the line that they speak of; those of lines out of sight beside the table.
fn put_anchors(table: &GridShown, model: &Runs<'_>, anchors: &mut Anchors, top: f32) {
    for (row, y) in &table.rows {
        if let Some(slip) = model.slips.get(*row) {
            anchors.put(Beside::Slip(slip.id, None), *y);
            for column in &RUN_COLUMNS {
                anchors.put(Beside::Slip(slip.id, Some(column.line())), *y);
            }
        }
    }
    for slip in &model.slips {
        anchors.put(Beside::Slip(slip.id, None), top);
    }
}

/// The words under the table.
fn words_ui(
    ui: &mut Ui,
    model: &Runs<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) -> Option<u32> {
    if look::quiet_word(ui, words::OF_MARKS).clicked() {
        asks.push(Ask::RunsOfMarks);
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, words::TAKE_LINE_OUT).clicked() {
        view.runs.press_later(egui::Key::Delete);
    }
    let row = view.runs.cursor().row;
    let slip = model.slips.get(row)?;
    ui.add_space(8.0);
    let more = look::quiet_word(ui, &words::more_of(row));
    more.clicked().then_some(slip.id)
}

/// What the table wants, as one edit of the job.
fn asked(want: GridAsk, model: &Runs<'_>, shared: &Shared<'_>) -> Option<Edit> {
    let unit = shared.job.unit;
    match want {
        GridAsk::SetCells { at, rows, why } => {
            let line = RUN_COLUMNS.get(at.col)?.line();
            let row = at.row;
            let at = RunAt { row, line };
            if why == SetWhy::Pasted {
                return Some(pasted(at, rows, unit));
            }
            let whole = |cells: Vec<String>| cells.into_iter().map(Some).collect();
            let rows = rows.into_iter().map(whole).collect();
            Some(Edit::SetRuns { at, rows, unit })
        }
        GridAsk::DeleteRows { at, count } => {
            let slips = model.slips.iter().skip(at).take(count);
            Edit::together(
                slips
                    .map(|slip| Edit::RemoveSlip { slip: slip.id })
                    .collect(),
            )
        }
        // Lines stand in the order in which they were written, and nothing in them is computed.
        GridAsk::InsertRows { .. } | GridAsk::OpenWorking(_) => None,
    }
}
