//! The window: lays out shelf, head, sheet, notes and foot of the job on top, and does what they ask
//! in one place.

mod dropped;
mod keep;
mod opening;
mod paste;
mod perform;
mod reorder;

use std::path::PathBuf;
use std::sync::Arc;

use egui::{CentralPanel, Context, Frame, Margin, Panel, Theme, Ui, ViewportCommand};
use quillbore_job::life::{self, State};
use quillbore_job::{Field, Job};
use quillbore_office::Office;
use quillbore_office::clerk::Clerk;
use quillbore_office::digest::{Summary, Wanted as LikeWanted, similar};
use quillbore_office::drafts::Keeper;
use quillbore_office::listing::Listing;
use quillbore_office::office::{OnDesk as Opening, Wanted};
use quillbore_office::start::Standing;
use quillbore_paper::Sheet;

use crate::actions::pressed;
use crate::desk::Desk;
use crate::dialogs::{Answer as Chosen, Dialogs};
use crate::look;
use crate::settings::Settings;
use crate::sheet::fields::commit_drafts;
use crate::sheet::shared::Shared;
use crate::sheet::{foot, head, sheet_ui, shelf_list, waiting};
use crate::view::{Answer, Ask, Next, View, Waiting};

/// The window's application.
pub struct App {
    /// The jobs on the desk; never none.
    jobs: Vec<OnDesk>,
    at: usize,
    next_id: u64,
    /// The shelf.
    pub list: Listing,
    settings: Settings,
    settings_path: Option<PathBuf>,
    office: Arc<Office>,
    /// Who opens jobs; each job on the desk has its own clerk for the rest.
    clerk: Clerk,
    /// Jobs that are being opened.
    opening: Vec<Wanted>,
    drafts: Option<Keeper>,
    /// Work of earlier runs that is still to be asked about.
    left: Vec<quillbore_office::drafts::Left>,
    /// The jobs on one quotation with another, as they were when it was asked for.
    joint: Vec<(u64, Arc<Job>)>,
    dialogs: Box<dyn Dialogs>,
    make_desk: Box<dyn Fn() -> Desk>,
    find_focus: bool,
    closing: bool,
    told_title: String,
    last_kept: f64,
    was_focused: bool,
    /// The window is to be closed once nothing is being written any more.
    close_when_done: bool,
}

/// A job on the desk, with what the window remembers of it.
struct OnDesk {
    desk: Desk,
    view: View,
    /// What tells it from every other job that lay on this desk.
    id: u64,
    /// What goes on once it is saved.
    after: Option<After>,
}

/// What goes on once a job is saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum After {
    /// What was asked at the guard.
    Leave(Next),
}

/// What a window is made of.
pub struct Parts {
    /// A first job.
    pub first: Desk,
    /// Makes an empty desk for every further one.
    pub make_desk: Box<dyn Fn() -> Desk>,
    /// The office.
    pub office: Arc<Office>,
    /// Who opens jobs.
    pub clerk: Clerk,
    /// The shelf.
    pub list: Listing,
    /// How files and folders are asked for.
    pub dialogs: Box<dyn Dialogs>,
    /// The settings.
    pub settings: Settings,
    /// Their file, if they are kept.
    pub settings_path: Option<PathBuf>,
    /// Who keeps drafts, if they are kept.
    pub drafts: Option<Keeper>,
    /// How the shelf was found.
    pub standing: Standing,
}

impl App {
    /// A window over a first job.
    #[must_use]
    pub fn new(ctx: &Context, parts: Parts) -> Self {
        look::dress(ctx);
        let mut app = Self {
            jobs: vec![OnDesk::new(parts.first, 0)],
            next_id: 1,
            at: 0,
            list: parts.list,
            settings: parts.settings,
            settings_path: parts.settings_path,
            office: parts.office,
            clerk: parts.clerk,
            opening: Vec::new(),
            drafts: parts.drafts,
            left: Vec::new(),
            joint: Vec::new(),
            dialogs: parts.dialogs,
            make_desk: parts.make_desk,
            find_focus: false,
            closing: false,
            told_title: String::new(),
            last_kept: 0.0,
            was_focused: true,
            close_when_done: false,
        };
        app.dress(ctx);
        if let Standing::NotMarked(jobs) = parts.standing {
            app.view_mut().waiting = Some(Waiting::Adopt(jobs));
        }
        if let Some(drafts) = &mut app.drafts {
            drafts.look(Arc::clone(&app.office));
        }
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
        self.take_replies(&ctx);
        self.take_news(&ctx);
        self.look_when_back(&ctx);
        self.list.poll();
        self.take_drafts_told();
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
        self.take_news(&ctx);
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

    /// Looks at the shelf again when somebody comes back to the window: other desks went on.
    fn look_when_back(&mut self, ctx: &Context) {
        let focused = ctx.input(|input| input.viewport().focused.unwrap_or(true));
        if focused && !std::mem::replace(&mut self.was_focused, focused) {
            self.list.look_again();
        }
        self.was_focused = focused;
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
            before: desk.before().map(Arc::as_ref),
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
                && desk.opened.is_some()
                && life::state(desk.job()) == State::Inquiry
        };
        (0..self.jobs.len()).filter(fits).collect()
    }

    /// Looks for similar jobs when the job or the shelf is another than when it was done last.
    fn look_alike(&mut self) {
        let version = self.list.version;
        let index = Arc::clone(&self.list.index);
        let OnDesk { desk, view, .. } = &mut self.jobs[self.at];
        let now = (desk.history.state(), version);
        if view.alike.as_ref().is_some_and(|a| (a.0, a.1) == now) {
            return;
        }
        let summary = Summary::of(desk.job());
        let tables = &desk.shop.tables;
        let family_of = |name: &str| {
            let at = desk.shop.material(name)?;
            Some((at, at.of(&tables.materials)?.family))
        };
        let own = family_of(desk.job().text(Field::Material));
        let wanted = LikeWanted {
            number: &summary.number,
            family: own.map(|(_, family)| family),
            material: own.map(|(at, _)| at),
            size_mm: summary.size_mm,
            depth_mm: summary.depth_mm,
            quantity: summary.quantity,
        };
        const MOST: usize = 4;
        let found = similar(&index, &wanted, &family_of, MOST);
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

    /// Keeps the window open while something is being written, or a job is not saved, and asks.
    fn guard_close(&mut self, ctx: &Context) {
        let is_busy = self.jobs.iter().any(|job| job.desk.is_busy());
        if self.close_when_done && !is_busy {
            self.close_when_done = false;
            ctx.send_viewport_cmd(ViewportCommand::Close);
            return;
        }
        if !ctx.input(|input| input.viewport().close_requested()) || self.closing {
            return;
        }
        if is_busy && !self.close_when_done {
            // A paper that is on its way out is not cut short; a shelf that hangs must not hold the
            // window for ever, so who asks twice is let go.
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.close_when_done = true;
            self.desk_mut().notice =
                "The window closes once what is being written is written; close it again to leave \
                 that undone."
                    .to_owned();
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
            id,
            after: None,
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
