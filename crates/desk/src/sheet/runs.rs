//! The run records as one table, a line for each stretch of holes, as on the traveler.

mod columns;
mod model;

use std::sync::Arc;

use egui::{Rangef, Ui};
use quillbore_job::life::{RunPlan, Stretch, stretches};
use quillbore_job::pasted_runs::{is_headed, pasted};
use quillbore_job::results::{Beside, Results};
use quillbore_job::slip::{RUN_COLUMNS, Slip};
use quillbore_job::{Edit, Job, Line, RunAt, SlipKind};

use super::parts::pencil;
use super::shared::{Anchors, Shared};
use crate::grid::{GridAsk, GridModel as _, GridShown, SetWhy, commit, grid_ui, size};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::{own, runs as words};
use columns::shown;
use model::{NewRun, ROW, Runs};

/// Rows of the table that always have their place.
const LEAST_ROWS: usize = 3;

/// Rows of the table that are in sight at most.
const MOST_ROWS: usize = 15;

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
    let plan = plan(shared, view);
    let model = Runs::new(shared, &plan, shown(view.all_run_columns));
    let mut wanted = Vec::new();
    let rows = (model.row_count() + 1).clamp(LEAST_ROWS, MOST_ROWS);
    let size = size(&model, ui.available_width(), rows);
    let table = grid_ui(ui, "runs", &model, &mut view.runs, size, &mut wanted);
    put_anchors(&table, &model, anchors);
    for want in wanted {
        asks.extend(asked(want, &model, shared));
    }
    let words = ui.horizontal_wrapped(|ui| words_ui(ui, &model, view, asks));
    let at = model.slips.get(view.runs.cursor().row);
    let taught = at.and_then(|slip| shared.taught.iter().find(|taught| taught.slip == slip.id));
    // The line is there also where nothing is to be said, so that what stands below never jumps.
    let held = taught.map_or_else(
        || " ".to_owned(),
        |taught| own::held_against(taught, shared.shop.form),
    );
    pencil(ui, &held);
    pencil(ui, words::WHICH_MINUTES);
    words.inner
}

/// Puts what is being typed in a cell in its place, as leaving the cell would do.
pub fn commit_runs(shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let plan = plan(shared, view);
    let model = Runs::new(shared, &plan, shown(view.all_run_columns));
    let mut wanted = Vec::new();
    commit(&model, &mut view.runs, &mut wanted);
    for want in wanted {
        asks.extend(asked(want, &model, shared));
    }
}

/// The plan beside the records, as it was worked out last.
pub struct PlanKept {
    job: Arc<Job>,
    results: Arc<Results>,
    stretches: Arc<[Stretch]>,
    /// Nothing was being searched when it was worked out.
    settled: bool,
    /// The plan of each record, and what is left.
    pub plan: Arc<RunPlan>,
}

/// The plan beside the records. Once it is settled it stands still while records are typed: what they
/// teach moves the estimate, and not what was planned when the work went to the floor.
fn plan(shared: &Shared<'_>, view: &mut SheetView) -> Arc<RunPlan> {
    if let Some(kept) = &view.run_plan
        && Arc::ptr_eq(&kept.job, shared.job)
        && Arc::ptr_eq(&kept.results, shared.results)
    {
        return Arc::clone(&kept.plan);
    }
    let kept = view.run_plan.take();
    let stands = kept.filter(|kept| kept.settled && same_work(&kept.job, shared.job));
    let (stretches, settled) = match stands {
        Some(kept) => (kept.stretches, true),
        None => {
            let (figures, tables) = (&shared.results.figures, &shared.shop.tables);
            let all = stretches(shared.job, figures, tables);
            (all.into(), shared.is_settled)
        }
    };
    let plan = Arc::new(RunPlan::of(shared.job, &stretches));
    view.run_plan = Some(PlanKept {
        job: Arc::clone(shared.job),
        results: Arc::clone(shared.results),
        stretches,
        settled,
        plan: Arc::clone(&plan),
    });
    plan
}

/// Whether two states of a job are planned alike: nothing but slips, answers and papers differs.
fn same_work(one: &Job, other: &Job) -> bool {
    one.rows == other.rows && one.fields == other.fields && one.overrules == other.overrules
}

/// Where a line stands among the columns; the first one where it is not shown.
#[must_use]
pub fn column_at(line: Line, all: bool) -> usize {
    let mut shown = shown(all).into_iter();
    shown.position(|shown| shown == line).unwrap_or(0)
}

/// Whether there may be something to record: an order is here, or parts, or a record.
fn has_begun(shared: &Shared<'_>) -> bool {
    let begins = |slip: &Slip| {
        matches!(
            slip.kind,
            SlipKind::Order | SlipKind::Received | SlipKind::Run
        )
    };
    shared.job.slips.iter().any(|slip| begins(slip))
}

/// Side notes stand beside the line that they speak of.
fn put_anchors(table: &GridShown, model: &Runs<'_>, anchors: &mut Anchors) {
    for (row, y) in &table.rows {
        if let Some(slip) = model.slips.get(*row) {
            let at = Rangef::new(y - ROW / 2.0, y + ROW / 2.0);
            anchors.put(Beside::Slip(slip.id, None), at);
            for column in &RUN_COLUMNS {
                anchors.put(Beside::Slip(slip.id, Some(column.line())), at);
            }
        }
    }
}

/// The words under the table.
fn words_ui(
    ui: &mut Ui,
    model: &Runs<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) -> Option<u32> {
    if look::toggle_word(ui, words::ALL_COLUMNS, view.all_run_columns).clicked() {
        view.all_run_columns = !view.all_run_columns;
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, words::OF_MARKS).clicked() {
        asks.push(Ask::RunsOfMarks);
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, words::OF_PLAN).clicked() {
        asks.push(Ask::RunsOfPlan);
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, words::DELETE_LINE).clicked() {
        view.runs.press_later(egui::Key::Delete);
    }
    let row = view.runs.cursor().row;
    let slip = model.slips.get(row)?;
    ui.add_space(8.0);
    let more = look::quiet_word(ui, &words::more_of(row));
    more.clicked().then_some(slip.id)
}

/// What the table wants, as one edit of the job.
fn asked(want: GridAsk, model: &Runs<'_>, shared: &Shared<'_>) -> Option<Ask> {
    match want {
        GridAsk::SetCells { at, rows, why } => {
            if why == SetWhy::Pasted && is_headed(&rows) {
                let line = model.shown[at.col];
                let at = RunAt { row: at.row, line };
                return Some(Ask::Edit(pasted(at, rows, shared.job.unit)));
            }
            let new = NewRun {
                is_typed: why == SetWhy::Typed,
                day: shared.shop.form.day(shared.day),
                by: shared.by,
            };
            Some(match model.set_cells(at, rows, &new) {
                Ok(edit) => Ask::Edit(edit),
                Err(refused) => Ask::Refused(refused),
            })
        }
        GridAsk::DeleteRows { at, count } => {
            let slips = model.slips.iter().skip(at).take(count);
            let gone = slips.map(|slip| Edit::RemoveSlip { slip: slip.id });
            Edit::together(gone.collect()).map(Ask::Edit)
        }
        // Lines stand in the order in which they were written, and nothing in them is computed.
        GridAsk::InsertRows { .. } | GridAsk::OpenWorking(_) | GridAsk::NotTyped(_) => None,
    }
}
