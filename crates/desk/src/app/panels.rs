//! Lays the panels out: shelf, head, sheet with its notes, foot.

use std::sync::Arc;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use super::{App, OpenJob};
use crate::learned::learned_ui;
use crate::look;
use crate::sheet::line::commit_drafts;
use crate::sheet::shared::Shared;
use crate::sheet::{foot, head, sheet_ui, shelf_list, waiting};
use crate::view::Ask;

impl App {
    pub(super) fn panels(&mut self, ui: &mut Ui, asks: &mut Vec<Ask>) {
        let names: Vec<String> = self.jobs.iter().map(OpenJob::name).collect();
        let together = self.together();
        let together: Vec<String> = together
            .into_iter()
            .map(|at| self.jobs[at].desk.file_name())
            .collect();
        let (at, sheet) = (self.at, self.sheet());
        let Self {
            jobs,
            list,
            settings,
            find_focus,
            learned,
            ..
        } = self;
        let OpenJob { desk, view, id, .. } = &mut jobs[at];
        let t = look::tokens(ui);
        let job = desk.job().clone();
        let results = desk.results().clone();
        let shared = Shared {
            job: &job,
            results: &results,
            shop: &desk.shop,
            taught: desk.taught(),
            teaching: &desk.teaching,
            day: desk.day,
            sheet,
            before: desk.before().map(Arc::as_ref),
            promise: desk.promise(),
            queue: desk.queue(),
            together: &together,
            by: &desk.name,
            sheet_id: *id,
        };
        let paper = Frame::new().fill(t.paper);
        let on_desk = Frame::new()
            .fill(t.desk)
            .inner_margin(Margin::symmetric(12, 4));
        if settings.shelf_open {
            Panel::left("shelf")
                .resizable(false)
                .exact_size(172.0)
                .frame(on_desk)
                .show(ui, |ui| {
                    let open = desk.opened.as_ref().map(|opened| &opened.key);
                    let recent = &settings.recent;
                    shelf_list::shelf_ui(ui, open, list, find_focus, recent, asks);
                });
        }
        Panel::bottom("foot")
            .resizable(false)
            .frame(on_desk.inner_margin(Margin::symmetric(18, 8)))
            .show(ui, |ui| {
                foot::foot_ui(ui, &shared, view, &desk.notice);
            });
        Panel::top("head")
            .resizable(false)
            .frame(on_desk.inner_margin(Margin::symmetric(18, 7)))
            .show(ui, |ui| {
                head::open_jobs_ui(ui, &names, at, asks);
                let labels = (desk.history.undo_label(), desk.history.redo_label());
                head::head_ui(ui, &shared, labels, desk.history.is_dirty(), asks);
                head::elsewhere_ui(ui, desk.held_elsewhere());
                waiting::waiting_ui(ui, &shared, view, asks);
            });
        CentralPanel::default().frame(paper).show(ui, |ui| {
            if learned.open {
                learned_ui(ui, learned, asks);
            } else {
                sheet_ui(ui, &shared, settings, view, asks);
            }
        });
        if asks.iter().any(wants_drafts_committed) {
            let mut committed = Vec::new();
            commit_drafts(&shared, view, &mut committed);
            asks.splice(0..0, committed);
        }
    }
}

/// Whether what is being typed has to be put in its place before something is done.
fn wants_drafts_committed(ask: &Ask) -> bool {
    match ask {
        Ask::Do(action) => action.wants_drafts_committed(),
        Ask::Issue(_)
        | Ask::IssueTogether
        | Ask::Pin(_)
        | Ask::RunsOfMarks
        | Ask::GoTo(_)
        | Ask::Open(_) => true,
        _ => false,
    }
}
