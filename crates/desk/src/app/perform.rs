//! Doing what the panels ask, in one place.

use std::path::{Path, PathBuf};

use egui::{Context, ViewportCommand};
use quillbore_job::results::results_now;
use quillbore_job::{Edit, Field, Issued, Line, Paper, SlipKind, Unit, words};

use super::{App, OnDesk};
use crate::actions::Action;
use crate::dialogs::Question;
use crate::print::{self, Sitting};
use crate::settings::Settings;
use crate::spot::Spot;
use crate::view::{Answer, Ask, Next, Setting, SettingDrafts, Waiting, new_slip};

impl App {
    pub(super) fn perform(&mut self, ctx: &Context, ask: Ask) {
        match ask {
            Ask::Edit(edit) => self.edit(&edit),
            Ask::Pin(kind) => self.pin(kind),
            Ask::Do(action) => self.act(ctx, action),
            Ask::Open(path) => self.open(ctx, &path),
            Ask::GoTo(at) => self.at = at.min(self.jobs.len() - 1),
            Ask::LayOut(paper) => self.view_mut().paper = Some(paper),
            Ask::TypeOn(slip, line) => {
                let view = self.view_mut();
                view.open_slips.insert(slip);
                view.focus = Some(Spot::Line(slip, line));
            }
            Ask::Answer(answering) => self.view_mut().answering = Some(answering),
            Ask::Issue(paper) => self.issue(paper),
            Ask::IssueTogether => self.issue_together(),
            Ask::ReleasePart(here) => self.release_part(here),
            Ask::Reprint(number) => {
                self.desk_mut().reprint(&number);
            }
            Ask::Paste(pasting) => self.paste(*pasting),
            Ask::SayColumn(holds) => self.say_column(holds),
            Ask::GoOn(answer) => self.go_on(ctx, answer),
            Ask::Browse => self.browse(),
            Ask::Set(setting) => self.set(ctx, setting),
        }
    }

    pub(super) fn edit(&mut self, edit: &Edit) {
        let at = self.view().grid.cursor();
        self.desk_mut().edit(edit, at, at);
    }

    /// Pins a slip with what is known, lays it out, and puts the keyboard on it.
    fn pin(&mut self, kind: SlipKind) {
        let desk = self.desk();
        let id = desk.job().next_slip;
        let edit = new_slip(kind, desk.job(), desk.day, &self.settings.desk_name);
        self.edit(&edit);
        let view = self.view_mut();
        view.open_slips.insert(id);
        view.focus_slip = Some(id);
    }

    /// Whether a question is open that no other line may take the place of.
    pub(super) fn is_asked(&self) -> bool {
        matches!(
            self.view().waiting,
            Some(Waiting::Guard(_) | Waiting::Changed | Waiting::Left(_) | Waiting::Column(..))
        )
    }

    fn act(&mut self, ctx: &Context, action: Action) {
        let asks = matches!(
            action,
            Action::Open | Action::SaveAs | Action::Print | Action::Again | Action::AllWords
        );
        if asks && self.is_asked() {
            self.desk_mut().notice = "Answer the question in the head first.".to_owned();
            return;
        }
        if asks {
            // Another line takes the keyboard anew.
            self.view_mut().waiting_shown = false;
        }
        match action {
            Action::New => {
                let unit = self.desk().job().unit;
                self.at = self.free_place();
                if unit == Unit::Inch && self.desk().job().unit != unit {
                    self.edit(&Edit::SetUnit(unit));
                    self.desk_mut().history.mark_saved();
                }
                self.view_mut().focus = Some(Spot::Field(Field::Customer));
            }
            Action::Open => {
                let folder = self.desk().shelf.join("");
                self.view_mut().waiting = Some(Waiting::OpenPath(folder.display().to_string()));
            }
            Action::Save => {
                self.save();
            }
            Action::SaveAs => {
                let desk = self.desk();
                let path = desk.shelf.join(format!("{}-copy.ron", desk.file_name()));
                self.view_mut().waiting = Some(Waiting::SavePath(path.display().to_string()));
            }
            Action::Print => {
                let folder = self.desk().papers_folder();
                self.view_mut().waiting = Some(Waiting::PrintPath(folder.display().to_string()));
            }
            Action::Undo => {
                if let Some(at) = self.desk_mut().undo() {
                    self.view_mut().grid.go_to(at);
                }
            }
            Action::Redo => {
                if let Some(at) = self.desk_mut().redo() {
                    self.view_mut().grid.go_to(at);
                }
            }
            Action::Again => self.view_mut().waiting = Some(Waiting::Again(String::new())),
            Action::Find => {
                if !self.settings.shelf_open {
                    self.change(ctx, |settings| settings.shelf_open = true);
                }
                self.find_focus = true;
            }
            Action::NextJob => self.at = (self.at + 1) % self.jobs.len(),
            Action::CloseJob => self.close_job(),
            Action::AllWords => self.view_mut().waiting = Some(Waiting::Command(String::new())),
            Action::Settings => self.lay_out_settings(),
            Action::OtherUnit => {
                let other = match self.desk().job().unit {
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

    fn save(&mut self) -> bool {
        let saved = self.desk_mut().save();
        self.after_saving();
        saved
    }

    /// A place for another job: the one on top where nothing was done there yet, else a new one.
    pub(super) fn free_place(&mut self) -> usize {
        if self.desk().is_untouched() {
            let waiting = self.view_mut().waiting.take();
            self.jobs[self.at].id = self.next_id;
            self.next_id += 1;
            self.jobs[self.at].view = crate::view::View {
                waiting,
                ..crate::view::View::default()
            };
            return self.at;
        }
        self.add_sheet();
        self.jobs.len() - 1
    }

    /// Lays a job on top; it is opened where it doesn't lie on the desk yet.
    fn open(&mut self, ctx: &Context, path: &Path) {
        let is_it = |job: &OnDesk| job.desk.file.as_ref().is_some_and(|file| file.path == path);
        if let Some(at) = self.jobs.iter().position(is_it) {
            self.at = at;
            self.note_recent(ctx, path);
            return;
        }
        let (before, at) = (self.at, self.free_place());
        self.jobs[at].desk.open(path);
        if self.jobs[at].desk.file.is_some() {
            self.at = at;
            self.note_recent(ctx, path);
            return;
        }
        if at == before {
            return;
        }
        // It can't be read: the reason is told on the job that was on top.
        if let Some(failed) = self.jobs.pop() {
            self.desk_mut().notice = failed.desk.notice;
        }
    }

    /// Keeps the files opened last, the newest first.
    fn note_recent(&mut self, ctx: &Context, path: &Path) {
        const MOST: usize = 5;
        if self
            .settings
            .recent
            .first()
            .is_some_and(|first| first == path)
        {
            return;
        }
        self.change(ctx, |settings| {
            settings.recent.retain(|other| other != path);
            settings.recent.insert(0, path.to_owned());
            settings.recent.truncate(MOST);
        });
    }

    fn close_job(&mut self) {
        if self.desk().history.is_dirty() {
            self.view_mut().waiting = Some(Waiting::Guard(Next::CloseJob));
            return;
        }
        let mut gone = self.jobs.remove(self.at);
        if let Some(draft) = &mut gone.draft {
            draft.drop_it();
        }
        if self.jobs.is_empty() {
            self.add_sheet();
        }
        self.at = self.at.min(self.jobs.len() - 1);
    }

    fn issue(&mut self, paper: Paper) {
        let sheet = self.sheet();
        self.desk_mut().issue(paper, sheet, &[]);
        self.after_saving();
    }

    /// Writes down that the parts that are here are due by themselves, and releases their traveler.
    fn release_part(&mut self, here: u32) {
        let unit = self.desk().job().unit;
        self.edit(&Edit::AddSlip {
            kind: SlipKind::Release,
            lines: vec![
                (Line::Date, self.desk().day.to_string()),
                (Line::Quantity, here.to_string()),
            ],
            unit,
        });
        self.issue(Paper::Traveler);
    }

    /// Asks where another desk saved meanwhile, and looks what the shelf has now.
    fn after_saving(&mut self) {
        if self.desk().changed_elsewhere {
            self.view_mut().waiting = Some(Waiting::Changed);
        }
        self.list.look_again();
    }

    /// One quotation of the job on top and the other open inquiries of its customer; each of them
    /// knows of it. Everything is checked before anything is written.
    fn issue_together(&mut self) {
        let sheet = self.sheet();
        let together = self.together();
        let mut jobs = Vec::new();
        for at in together {
            let desk = &self.jobs[at].desk;
            let results = results_now(desk.job(), &desk.shop);
            let in_the_way = desk.blockers(Paper::Quotation, &results);
            if !in_the_way.is_empty() {
                let number = desk.file_name();
                let said: Vec<String> = in_the_way.iter().map(words::life::blocker).collect();
                self.desk_mut().notice = format!("Not issued: in {number} {}.", said.join("; "));
                return;
            }
            jobs.push((at, desk.job().clone(), results));
        }
        let own = self.desk();
        let settled = results_now(own.job(), &own.shop);
        if !own.blockers(Paper::Quotation, &settled).is_empty() {
            self.issue(Paper::Quotation);
            return;
        }
        for (at, ..) in &jobs {
            let other = &mut self.jobs[*at].desk;
            if other.history.is_dirty() && !other.save() {
                let why = other.notice.clone();
                self.desk_mut().notice =
                    format!("Not issued, since another job can't be saved: {why}");
                return;
            }
        }
        let others: Vec<Sitting<'_>> = jobs
            .iter()
            .map(|(_, job, results)| Sitting { job, results })
            .collect();
        if let Some(issued) = self.desk_mut().issue(Paper::Quotation, sheet, &others) {
            let kept_by = Some(self.desk().job().number.clone());
            let notice = self.desk().notice.clone();
            for (at, job, _) in &jobs {
                let own = Issued {
                    kept_by: kept_by.clone(),
                    inputs: Some(std::sync::Arc::new(job.inputs())),
                    ..issued.clone()
                };
                self.jobs[*at].desk.take_in(own);
            }
            self.desk_mut().notice = notice;
        }
        self.after_saving();
    }

    fn go_on(&mut self, ctx: &Context, answer: Answer) {
        let Some(waiting) = self.view_mut().waiting.take() else {
            return;
        };
        match (waiting, answer) {
            (Waiting::Left(left), answer) => self.answer_left(*left, answer),
            (Waiting::Column(..), _) => {
                self.desk_mut().notice =
                    "Nothing was pasted; the table is still on the clipboard.".to_owned();
            }
            (_, Answer::Stay) | (Waiting::Command(_), _) => {}
            (Waiting::OpenPath(path), _) => self.open(ctx, &PathBuf::from(path)),
            (Waiting::PrintPath(folder), _) => {
                let sheet = self.sheet();
                let papers = print::usual(self.desk().job());
                self.desk_mut().print(&papers, sheet, Path::new(&folder));
            }
            (Waiting::SavePath(path), _) => {
                if !self.desk_mut().save_as(Path::new(&path)) {
                    self.view_mut().waiting = Some(Waiting::SavePath(path));
                }
                self.list.look_again();
            }
            (Waiting::Again(order), _) => self.begin_again(&order),
            (Waiting::Changed, Answer::Yes) => {
                let at = self.view().grid.cursor();
                self.desk_mut().merge(at);
                // Where what stands there can't be put together with anything the question stays.
                self.after_saving();
            }
            (Waiting::Changed, Answer::Leave) => {
                self.desk_mut().file = None;
                self.save();
            }
            (Waiting::Guard(next), Answer::Leave) => self.leave(ctx, next),
            (Waiting::Guard(next), Answer::Yes) => {
                if self.save() {
                    self.leave(ctx, next);
                }
            }
        }
    }

    /// Goes on with what waited for the job on top to be saved or left.
    fn leave(&mut self, ctx: &Context, next: Next) {
        self.desk_mut().history.mark_saved();
        match next {
            Next::CloseJob => self.close_job(),
            Next::CloseWindow => {
                if let Some(at) = self.jobs.iter().position(|j| j.desk.history.is_dirty()) {
                    self.at = at;
                    self.view_mut().waiting = Some(Waiting::Guard(Next::CloseWindow));
                    return;
                }
                self.drop_drafts();
                self.closing = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    fn lay_out_settings(&mut self) {
        let drafts = SettingDrafts {
            desk_name: self.settings.desk_name.clone(),
            shelf: self.desk().shelf.display().to_string(),
            seen: false,
        };
        let view = self.view_mut();
        view.settings = match view.settings {
            Some(_) => None,
            None => Some(drafts),
        };
    }

    fn set(&mut self, ctx: &Context, setting: Setting) {
        match setting {
            Setting::Letter(letter) => self.change(ctx, |settings| settings.letter = letter),
            Setting::DeskName(name) => {
                for job in &mut self.jobs {
                    job.desk.name.clone_from(&name);
                }
                self.change(ctx, |settings| settings.desk_name = name);
            }
            Setting::Shelf(folder) => {
                let path = PathBuf::from(folder.trim());
                if path == self.desk().shelf {
                    return;
                }
                if path.is_dir() {
                    self.change(ctx, |settings| settings.shelf = Some(path));
                    self.desk_mut().notice =
                        "The next start uses that shelf; this one stays until then.".to_owned();
                } else {
                    self.desk_mut().notice = format!("There is no such folder: {}", path.display());
                }
            }
        }
    }

    fn change(&mut self, ctx: &Context, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress(ctx);
        if let Some(path) = &self.places.settings
            && let Err(error) = self.settings.write(path)
        {
            let said = format!("The settings can't be kept: {error}: {}", path.display());
            self.desk_mut().notice = said;
        }
    }

    fn browse(&mut self) {
        let folder = self.desk().shelf.clone();
        let question = match &self.view().waiting {
            Some(Waiting::OpenPath(_)) => Question::OpenJob { folder },
            Some(Waiting::SavePath(path)) => {
                let name = Path::new(path)
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned();
                Question::SaveJob { folder, name }
            }
            Some(Waiting::PrintPath(_)) => Question::PapersFolder {
                folder: self.desk().papers_folder(),
            },
            _ => return,
        };
        self.dialogs.ask(question);
    }
}
