//! A slip pinned to the sheet, with what is known of it already.

use std::collections::BTreeMap;

use quillbore_job::life::{RunPlan, stretches};
use quillbore_job::prefilled::new_slip;
use quillbore_job::run_lines::{runs_of_marks, runs_of_plan};
use quillbore_job::slip::kind;
use quillbore_job::{Edit, Line, SlipKind};

use super::App;
use crate::grid::GridAt;
use crate::sheet::runs::column_at;
use crate::words::runs as words;

/// So many lines are still looked over at once.
const FEW_LINES: usize = 20;

/// More lines at once nobody types.
const MOST_LINES: usize = 200;

impl App {
    /// Pins a slip with what is known, lays it out, and puts the keyboard on it.
    pub(super) fn pin(&mut self, kind: SlipKind) {
        let desk = self.desk();
        let id = desk.job().next_slip;
        let edit = new_slip(
            desk.job(),
            kind,
            desk.day,
            desk.shop.form,
            &self.settings.desk_name,
        );
        self.edit(&edit);
        let view = self.view_mut();
        view.paper = None;
        view.open_slips.insert(id);
        view.focus_slip = Some(id);
    }

    /// Adds a run record for each mark that has none, with the tube that it is drilled with today, and
    /// goes to the first place that is still empty.
    pub(super) fn pin_runs(&mut self) {
        let desk = self.desk();
        let tubes = &desk.shop.tables.tubes;
        let holes = desk.results().figures.holes.iter();
        let planned: BTreeMap<_, &str> = holes
            .filter_map(|hole| Some((hole.row, hole.tube?.of(tubes)?.name.as_str())))
            .collect();
        let tube_of =
            |row: &quillbore_job::Row| planned.get(&row.id).map(|name| (*name).to_owned());
        let by = &self.settings.desk_name;
        let edit = runs_of_marks(desk.job(), desk.day, desk.shop.form, by, tube_of);
        self.add_runs(edit, words::NONE_TO_ADD);
    }

    /// Adds the first run records: a line for each electrode of a plan of few, else for each mark.
    pub(super) fn pin_first_runs(&mut self) {
        let desk = self.desk();
        let (job, figures) = (desk.job(), &desk.results().figures);
        match stretches(job, figures, &desk.shop.tables).len() {
            1..=FEW_LINES => self.pin_planned_runs(),
            _ => self.pin_runs(),
        }
    }

    /// Adds a run record for each electrode of the plan that none covers yet, and goes to the first place
    /// that is still empty.
    pub(super) fn pin_planned_runs(&mut self) {
        let desk = self.desk();
        let tables = &desk.shop.tables;
        let all = stretches(desk.job(), &desk.results().figures, tables);
        let plan = RunPlan::of(desk.job(), &all);
        if plan.left.len() > MOST_LINES {
            self.desk_mut().notice = words::too_many_electrodes(plan.left.len(), MOST_LINES);
            return;
        }
        let by = &self.settings.desk_name;
        let edit = runs_of_plan(
            desk.job(),
            &plan,
            desk.day,
            desk.shop.form,
            by,
            &tables.tubes,
        );
        self.add_runs(edit, words::NONE_PLANNED);
    }

    /// Adds run records, or says that there are none to add, and puts the keyboard on the first.
    fn add_runs(&mut self, edit: Option<Edit>, none: &str) {
        let Some(edit) = edit else {
            none.clone_into(&mut self.desk_mut().notice);
            return;
        };
        let desk = self.desk();
        let row = desk.job().slips_of::<kind::Run>().count();
        self.edit(&edit);
        let view = self.view_mut();
        view.paper = None;
        let pieces = column_at(Line::Serials, view.all_run_columns);
        view.runs.go_to(GridAt::new(row, pieces));
        view.runs.take_keyboard();
    }
}
