//! The window: lays out shelf, head, sheet, notes and foot of the job on top, and does what they ask
//! in one place.

mod dropped;
mod keep;
mod paste;
mod perform;
mod reorder;

use std::path::PathBuf;

use egui::{CentralPanel, Context, Frame, Margin, Panel, Theme, Ui, ViewportCommand};
use quillbore_job::Field;
use quillbore_job::life::{self, State};
use quillbore_paper::Sheet;

use crate::actions::pressed;
use crate::desk::Desk;
use crate::dialogs::{Answer as Chosen, Dialogs};
use crate::drafts::Draft;
use crate::look;
use crate::settings::Settings;
use crate::sheet::fields::commit_drafts;
use crate::sheet::{Shared, foot, head, sheet_ui, shelf_list, waiting};
use crate::shelf_list::ShelfList;
use crate::view::{Answer, Ask, Next, View, Waiting};

/// The window's application.
pub struct App {
    /// The jobs on the desk; never none.
    jobs: Vec<OnDesk>,
    at: usize,
    next_id: u64,
    /// The shelf.
    pub list: ShelfList,
    settings: Settings,
    places: Places,
    dialogs: Box<dyn Dialogs>,
    make_desk: Box<dyn Fn() -> Desk>,
    find_focus: bool,
    closing: bool,
    told_title: String,
    last_kept: f64,
    next_draft: u32,
}

/// A job on the desk, with what the window remembers of it.
struct OnDesk {
    desk: Desk,
    view: View,
    draft: Option<Draft>,
    /// What tells it from every other job that lay on this desk.
    id: u64,
}

/// Where the window keeps what is in no job.
#[derive(Clone, Debug, Default)]
pub struct Places {
    /// The file of the settings, if they are kept.
    pub settings: Option<PathBuf>,
    /// The folder of drafts, if they are kept.
    pub drafts: Option<PathBuf>,
    /// What tells this run's drafts from those of others.
    pub run: String,
}

impl App {
    /// A window over a first job; `make_desk` makes an empty desk for every further one.
    #[must_use]
    pub fn new(
        ctx: &Context,
        first: Desk,
        make_desk: Box<dyn Fn() -> Desk>,
        list: ShelfList,
        dialogs: Box<dyn Dialogs>,
        settings: Settings,
        places: Places,
    ) -> Self {
        look::dress(ctx);
        let mut app = Self {
            jobs: vec![OnDesk::new(first, 0)],
            next_id: 1,
            at: 0,
            list,
            settings,
            places,
            dialogs,
            make_desk,
            find_focus: false,
            closing: false,
            told_title: String::new(),
            last_kept: 0.0,
            next_draft: 0,
        };
        app.dress(ctx);
        app.offer_left();
        app
    }

    /// The job on top.
    #[must_use]
    pub fn desk(&self) -> &Desk {
        &self.jobs[self.at].desk
    }

    /// What the window remembers of it.
    #[must_use]
    pub fn view(&self) -> &View {
        &self.jobs[self.at].view
    }

    /// How many jobs lie on the desk.
    #[must_use]
    pub const fn open_jobs(&self) -> usize {
        self.jobs.len()
    }

    fn desk_mut(&mut self) -> &mut Desk {
        &mut self.jobs[self.at].desk
    }

    fn view_mut(&mut self) -> &mut View {
        &mut self.jobs[self.at].view
    }

    /// One frame: what was pressed, the panels, then everything that was asked.
    pub fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        for job in &mut self.jobs {
            job.desk.poll();
        }
        self.list.poll();
        self.look_alike();
        let mut asks: Vec<Ask> = pressed(&ctx).into_iter().map(Ask::Do).collect();
        self.answer_dialog(&mut asks);
        self.guard_close(&ctx);
        self.take_dropped(&ctx);
        self.panels(ui, &mut asks);
        let any = !asks.is_empty();
        for ask in asks {
            self.perform(&ctx, ask);
        }
        if any {
            ctx.request_repaint();
        }
        self.keep_drafts(&ctx);
        // Telling the window anything wakes it again: only what is new is told.
        let title = self.title();
        if title != self.told_title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.told_title = title;
        }
    }

    fn title(&self) -> String {
        let mark = if self.desk().history.is_dirty() {
            " (not saved)"
        } else {
            ""
        };
        format!("{}{mark} \u{2013} Quillbore", self.desk().file_name())
    }

    /// Lays another empty sheet on the desk, the last of all.
    fn add_sheet(&mut self) {
        let desk = (self.make_desk)();
        self.jobs.push(OnDesk::new(desk, self.next_id));
        self.next_id += 1;
    }

    fn sheet(&self) -> Sheet {
        if self.settings.letter {
            Sheet::Letter
        } else {
            Sheet::A4
        }
    }

    fn panels(&mut self, ui: &mut Ui, asks: &mut Vec<Ask>) {
        let names: Vec<String> = self.jobs.iter().map(OnDesk::name).collect();
        let together = self.together();
        let together: Vec<String> = together
            .into_iter()
            .map(|at| self.jobs[at].desk.file_name())
            .collect();
        let at = self.at;
        let Self {
            jobs,
            list,
            settings,
            find_focus,
            ..
        } = self;
        let OnDesk { desk, view, id, .. } = &mut jobs[at];
        let t = look::tokens(ui);
        let job = desk.job().clone();
        let results = desk.results().clone();
        let shared = Shared {
            job: &job,
            results: &results,
            shop: &desk.shop,
            day: desk.day,
            letter: settings.letter,
            before: desk.before().map(std::sync::Arc::as_ref),
            shelf: &desk.shelf,
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
                    let open = desk.file.as_ref().map(|opened| opened.path.as_path());
                    let recent = &settings.recent;
                    shelf_list::shelf_ui(ui, open, &desk.shelf, list, find_focus, recent, asks);
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
            sheet_ui(ui, &shared, settings, view, asks);
        });
        let commits = |ask: &Ask| match ask {
            Ask::Do(action) => action.wants_drafts_committed(),
            Ask::Issue(_) | Ask::IssueTogether | Ask::Pin(_) | Ask::GoTo(_) | Ask::Open(_) => true,
            _ => false,
        };
        if asks.iter().any(commits) {
            let mut committed = Vec::new();
            commit_drafts(&shared, view, &mut committed);
            asks.splice(0..0, committed);
        }
    }

    /// The other jobs on the desk that may stand on one quotation with the job on top: saved
    /// inquiries of the same customer.
    fn together(&self) -> Vec<usize> {
        let customer = |at: usize| {
            self.jobs[at]
                .desk
                .job()
                .text(Field::Customer)
                .trim()
                .to_lowercase()
        };
        let fits = |at: &usize| {
            let desk = &self.jobs[*at].desk;
            *at != self.at
                && !customer(self.at).is_empty()
                && customer(*at) == customer(self.at)
                && desk.file.is_some()
                && life::state(desk.job()) == State::Inquiry
        };
        (0..self.jobs.len()).filter(fits).collect()
    }

    /// Looks for similar jobs when the job or the shelf is another than when it was done last.
    fn look_alike(&mut self) {
        let version = self.list.version;
        let index = std::sync::Arc::clone(&self.list.index);
        let OnDesk { desk, view, .. } = &mut self.jobs[self.at];
        let now = (desk.history.state(), version);
        if view.alike.as_ref().is_some_and(|a| (a.0, a.1) == now) {
            return;
        }
        let summary = quillbore_job::shelf::Summary::of(desk.job());
        let tables = &desk.shop.tables;
        let family_of = |name: &str| {
            let at = desk.shop.material(name)?;
            Some((at, tables.materials.get(at)?.family))
        };
        let own = family_of(desk.job().text(Field::Material));
        let wanted = quillbore_job::shelf::Wanted {
            number: &summary.number,
            family: own.map(|(_, family)| family),
            material: own.map(|(at, _)| at),
            size_mm: summary.size_mm,
            depth_mm: summary.depth_mm,
            quantity: summary.quantity,
        };
        const MOST: usize = 4;
        let found = quillbore_job::shelf::similar(&index, &wanted, &family_of, MOST);
        view.alike = Some((now.0, now.1, found));
    }

    fn dress(&self, ctx: &Context) {
        ctx.set_theme(if self.settings.dark {
            Theme::Dark
        } else {
            Theme::Light
        });
        ctx.set_zoom_factor(self.settings.zoom);
    }

    fn answer_dialog(&mut self, asks: &mut Vec<Ask>) {
        let Some((_, Chosen::Chosen(chosen))) = self.dialogs.answer() else {
            return;
        };
        if let Some(Waiting::OpenPath(path) | Waiting::SavePath(path) | Waiting::PrintPath(path)) =
            &mut self.view_mut().waiting
        {
            *path = chosen.display().to_string();
            asks.push(Ask::GoOn(Answer::Yes));
        }
    }

    /// Keeps the window open while a job is not saved, and asks.
    fn guard_close(&mut self, ctx: &Context) {
        if !ctx.input(|input| input.viewport().close_requested()) || self.closing {
            return;
        }
        if let Some(at) = self.jobs.iter().position(|job| job.desk.history.is_dirty()) {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.at = at;
            self.view_mut().waiting = Some(Waiting::Guard(Next::CloseWindow));
        }
    }
}

impl OnDesk {
    fn new(desk: Desk, id: u64) -> Self {
        Self {
            desk,
            view: View::default(),
            draft: None,
            id,
        }
    }

    /// What the job is called among those on the desk.
    fn name(&self) -> String {
        let job = self.desk.job();
        let number = match job.number.as_str() {
            "" => "new job",
            number => number,
        };
        let part = job.text(Field::Part).trim();
        let mark = if self.desk.history.is_dirty() {
            ", not saved"
        } else {
            ""
        };
        format!("{number} {part}").trim().to_owned() + mark
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        self.frame(ui);
    }
}
