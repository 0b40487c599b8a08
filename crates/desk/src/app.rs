//! The window: lays out shelf, head, sheet, notes and foot, and does what they ask in one place.

use std::path::{Path, PathBuf};

use egui::{CentralPanel, Context, Frame, Margin, Panel, Theme, Ui, ViewportCommand};
use quillbore_job::{Edit, Unit};
use quillbore_paper::Sheet;

use crate::actions::{Action, pressed};
use crate::desk::Desk;
use crate::dialogs::{Answer as Chosen, Dialogs, Question};
use crate::look;
use crate::print::Kind;
use crate::settings::Settings;
use crate::sheet::fields::commit_drafts;
use crate::sheet::{Shared, foot, head, sheet_ui, shelf_list, waiting};
use crate::shelf;
use crate::view::{Answer, Ask, Next, View, Waiting};

/// The window's application.
pub struct App {
    /// The desk.
    pub desk: Desk,
    /// The window's own state.
    pub view: View,
    settings: Settings,
    settings_path: Option<PathBuf>,
    dialogs: Box<dyn Dialogs>,
    closing: bool,
    told_title: String,
}

impl App {
    /// A window over a desk; `settings_path` is where its looks are kept, if anywhere.
    #[must_use]
    pub fn new(
        ctx: &Context,
        desk: Desk,
        dialogs: Box<dyn Dialogs>,
        settings: Settings,
        settings_path: Option<PathBuf>,
    ) -> Self {
        look::dress(ctx);
        let mut app = Self {
            desk,
            view: View::default(),
            settings,
            settings_path,
            dialogs,
            closing: false,
            told_title: String::new(),
        };
        app.dress(ctx);
        app.view.shelf = shelf::list(&app.desk.shelf);
        app
    }

    /// One frame: what was pressed, the panels, then everything that was asked.
    pub fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        self.desk.poll();
        let mut asks: Vec<Ask> = pressed(&ctx).into_iter().map(Ask::Do).collect();
        self.answer_dialog(&mut asks);
        self.guard_close(&ctx);
        self.panels(ui, &mut asks);
        let any = !asks.is_empty();
        for ask in asks {
            self.perform(&ctx, ask);
        }
        if any {
            ctx.request_repaint();
        }
        // Telling the window anything wakes it again: only what is new is told.
        let title = self.title();
        if title != self.told_title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.told_title = title;
        }
    }

    fn title(&self) -> String {
        let mark = if self.desk.history.is_dirty() {
            " (not saved)"
        } else {
            ""
        };
        format!("{}{mark} \u{2013} Quillbore", self.desk.file_name())
    }

    fn panels(&mut self, ui: &mut Ui, asks: &mut Vec<Ask>) {
        let Self {
            desk,
            view,
            settings,
            ..
        } = self;
        let t = look::tokens(ui);
        let job = desk.job().clone();
        let results = desk.results().clone();
        let shared = Shared {
            job: &job,
            results: &results,
            shop: &desk.shop,
            day: desk.day,
            letter: settings.letter,
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
                    shelf_list::shelf_ui(ui, open, view, asks);
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
                let labels = (desk.history.undo_label(), desk.history.redo_label());
                head::head_ui(ui, &shared, labels, desk.history.is_dirty(), asks);
                waiting::waiting_ui(ui, view, asks);
            });
        CentralPanel::default().frame(paper).show(ui, |ui| {
            sheet_ui(ui, &shared, view, asks);
        });
        if asks
            .iter()
            .any(|ask| matches!(ask, Ask::Do(action) if action.wants_drafts_committed()))
        {
            let mut committed = Vec::new();
            commit_drafts(&shared, view, &mut committed);
            asks.splice(0..0, committed);
        }
    }

    fn perform(&mut self, ctx: &Context, ask: Ask) {
        match ask {
            Ask::Edit(edit) => self.edit(&edit),
            Ask::Do(action) => self.act(ctx, action),
            Ask::Open(path) => self.guarded(Next::Open(path)),
            Ask::GoOn(answer) => self.go_on(ctx, answer),
            Ask::Browse => self.browse(),
        }
    }

    fn edit(&mut self, edit: &Edit) {
        let at = self.view.grid.cursor();
        self.desk.edit(edit, at, at);
    }

    fn act(&mut self, ctx: &Context, action: Action) {
        match action {
            Action::New => self.guarded(Next::New),
            Action::Open => self.guarded(Next::AskOpen),
            Action::Save => {
                if self.desk.file.is_none() {
                    self.ask_save_path(None);
                } else {
                    self.desk.save();
                    self.view.shelf = shelf::list(&self.desk.shelf);
                }
            }
            Action::SaveAs => self.ask_save_path(None),
            Action::Print => {
                let folder = self.desk.papers_folder();
                self.view.waiting = Some(Waiting::PrintPath(folder.display().to_string()));
            }
            Action::Undo => {
                if let Some(at) = self.desk.undo() {
                    self.view.grid.go_to(at);
                }
            }
            Action::Redo => {
                if let Some(at) = self.desk.redo() {
                    self.view.grid.go_to(at);
                }
            }
            Action::OtherUnit => {
                let other = match self.desk.job().unit {
                    Unit::Mm => Unit::Inch,
                    Unit::Inch => Unit::Mm,
                };
                self.edit(&Edit::SetUnit(other));
            }
            Action::OtherPaper => self.change(ctx, |settings| settings.dark = !settings.dark),
            Action::Shelf => {
                self.change(ctx, |settings| settings.shelf_open = !settings.shelf_open);
            }
            Action::Larger => self.change(ctx, |settings| {
                settings.zoom = (settings.zoom + 0.1).min(3.0);
            }),
            Action::Smaller => self.change(ctx, |settings| {
                settings.zoom = (settings.zoom - 0.1).max(0.5);
            }),
            Action::UsualSize => self.change(ctx, |settings| settings.zoom = 1.0),
        }
    }

    fn change(&mut self, ctx: &Context, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress(ctx);
        if let Some(path) = &self.settings_path
            && let Err(error) = self.settings.write(path)
        {
            self.desk.notice = format!("The settings can't be kept: {error}: {}", path.display());
        }
    }

    fn dress(&self, ctx: &Context) {
        ctx.set_theme(if self.settings.dark {
            Theme::Dark
        } else {
            Theme::Light
        });
        ctx.set_zoom_factor(self.settings.zoom);
    }

    /// Does what comes next, unless the job is not saved: then it is asked first.
    fn guarded(&mut self, next: Next) {
        if self.desk.history.is_dirty() {
            self.view.waiting = Some(Waiting::Guard(next));
        } else {
            self.do_next(next);
        }
    }

    fn do_next(&mut self, next: Next) {
        self.view.waiting = None;
        match next {
            Next::New => self.desk.new_job(),
            Next::AskOpen => {
                let folder = self.desk.shelf.join("");
                self.view.waiting = Some(Waiting::OpenPath(folder.display().to_string()));
                return;
            }
            Next::Open(path) => self.desk.open(&path),
            Next::Close => self.closing = true,
        }
        self.forget_views();
    }

    /// Another job is on the desk: cursor, drafts and open workings were of the one before.
    fn forget_views(&mut self) {
        let shelf = std::mem::take(&mut self.view.shelf);
        let View {
            find,
            folded,
            laid_out,
            all_columns,
            ..
        } = std::mem::take(&mut self.view);
        self.view = View {
            shelf,
            find,
            folded,
            laid_out,
            all_columns,
            ..View::default()
        };
    }

    fn go_on(&mut self, ctx: &Context, answer: Answer) {
        let Some(waiting) = self.view.waiting.take() else {
            return;
        };
        match (waiting, answer) {
            (_, Answer::Stay) => {}
            (Waiting::OpenPath(path), _) => self.do_next(Next::Open(PathBuf::from(path))),
            (Waiting::PrintPath(folder), _) => self.print(Path::new(&folder)),
            (Waiting::SavePath(path, next), _) => {
                if self.desk.save_as(Path::new(&path)) {
                    self.view.shelf = shelf::list(&self.desk.shelf);
                    if let Some(next) = next {
                        self.do_next(next);
                    }
                } else {
                    self.view.waiting = Some(Waiting::SavePath(path, next));
                }
            }
            (Waiting::Guard(next), Answer::Leave) => self.do_next(next),
            (Waiting::Guard(next), Answer::Yes) => {
                if self.desk.file.is_none() {
                    self.ask_save_path(Some(next));
                } else if self.desk.save() {
                    self.do_next(next);
                }
            }
        }
        if self.closing {
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    fn print(&mut self, folder: &Path) {
        let sheet = if self.settings.letter {
            Sheet::Letter
        } else {
            Sheet::A4
        };
        self.desk.print(Kind::ALL, sheet, folder);
    }

    /// Asks for a path to save to; the next free number of the year stands there.
    fn ask_save_path(&mut self, next: Option<Next>) {
        let path = shelf::free_path(&self.desk.shelf, self.desk.day);
        self.view.waiting = Some(Waiting::SavePath(path.display().to_string(), next));
    }

    fn browse(&mut self) {
        let folder = self.desk.shelf.clone();
        let question = match &self.view.waiting {
            Some(Waiting::OpenPath(_)) => Question::OpenJob { folder },
            Some(Waiting::SavePath(path, _)) => {
                let name = Path::new(path)
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned();
                Question::SaveJob { folder, name }
            }
            Some(Waiting::PrintPath(_)) => Question::PapersFolder {
                folder: self.desk.papers_folder(),
            },
            Some(Waiting::Guard(_)) | None => return,
        };
        self.dialogs.ask(question);
    }

    fn answer_dialog(&mut self, asks: &mut Vec<Ask>) {
        let Some((_, Chosen::Chosen(chosen))) = self.dialogs.answer() else {
            return;
        };
        match &mut self.view.waiting {
            Some(
                Waiting::OpenPath(path) | Waiting::SavePath(path, _) | Waiting::PrintPath(path),
            ) => {
                *path = chosen.display().to_string();
                asks.push(Ask::GoOn(Answer::Yes));
            }
            Some(Waiting::Guard(_)) | None => {}
        }
    }

    /// Keeps the window open while the job is not saved, and asks.
    fn guard_close(&mut self, ctx: &Context) {
        if ctx.input(|input| input.viewport().close_requested())
            && !self.closing
            && self.desk.history.is_dirty()
        {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.view.waiting = Some(Waiting::Guard(Next::Close));
        }
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        self.frame(ui);
    }
}
