//! Doing what the panels ask, in one place.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Context, ViewportCommand};
use quillbore_job::{Edit, Field, Line, Paper, SlipKind, Unit};
use quillbore_office::clerk::Request;
use quillbore_office::print;

use super::{After, App, Wanted};
use crate::actions::Action;
use crate::desk::Errand;
use crate::dialogs::Question;
use crate::settings::Settings;
use crate::spot::Spot;
use crate::view::{Answer, Ask, Next, Setting, SettingDrafts, Waiting, new_slip};

impl App {
    pub(super) fn perform(&mut self, ctx: &Context, ask: Ask) {
        match ask {
            Ask::Edit(edit) => self.edit(&edit),
            Ask::Pin(kind) => self.pin(kind),
            Ask::Do(action) => self.act(ctx, action),
            Ask::Open(wanted) => self.open(ctx, wanted),
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
            Ask::Reprint(number) => self.desk_mut().wants(Errand::Reprint(number)),
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
            Some(
                Waiting::Guard(_)
                    | Waiting::Changed
                    | Waiting::Left(_)
                    | Waiting::Column(..)
                    | Waiting::Adopt(_)
            )
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
                let folder = PathBuf::from(self.desk().shelf()).join("");
                self.view_mut().waiting = Some(Waiting::OpenPath(folder.display().to_string()));
            }
            Action::Save => self.desk_mut().save(),
            Action::SaveAs => {
                let desk = self.desk();
                let shelf = PathBuf::from(desk.shelf());
                let path = shelf.join(format!("{}-copy.ron", desk.file_name()));
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

    /// Keeps the jobs opened last, the newest first.
    pub(super) fn note_recent(&mut self, ctx: &Context, wanted: &Wanted) {
        const MOST: usize = 5;
        let text = wanted.text();
        if self.settings.recent.first() == Some(&text) {
            return;
        }
        self.change(ctx, |settings| {
            settings.recent.retain(|other| *other != text);
            settings.recent.insert(0, text);
            settings.recent.truncate(MOST);
        });
    }

    fn close_job(&mut self) {
        if self.desk().is_busy() {
            self.desk_mut().notice =
                "Wait: what is being written of this job is not done yet.".to_owned();
            return;
        }
        if self.desk().history.is_dirty() {
            self.view_mut().waiting = Some(Waiting::Guard(Next::CloseJob));
            return;
        }
        let gone = self.jobs.remove(self.at);
        if let Some(drafts) = &mut self.drafts {
            drafts.drop_draft(gone.id);
        }
        if self.jobs.is_empty() {
            self.add_sheet();
        }
        self.at = self.at.min(self.jobs.len() - 1);
    }

    fn issue(&mut self, paper: Paper) {
        let sheet = self.sheet();
        self.desk_mut().wants(Errand::Issue {
            paper,
            sheet,
            others: Vec::new(),
        });
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

    /// One quotation of the job on top and the other open inquiries of its customer; each of them
    /// knows of it.
    fn issue_together(&mut self) {
        let sheet = self.sheet();
        let others: Vec<_> = self
            .together()
            .into_iter()
            .map(|at| (self.jobs[at].id, self.jobs[at].desk.seen()))
            .collect();
        self.joint = others
            .iter()
            .map(|(id, seen)| (*id, Arc::clone(&seen.job)))
            .collect();
        self.desk_mut().wants(Errand::Issue {
            paper: Paper::Quotation,
            sheet,
            others: others.into_iter().map(|(_, seen)| seen).collect(),
        });
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
            (Waiting::Adopt(_), _) => self.clerk.ask(Request::Adopt),
            (Waiting::OpenPath(path), _) => self.open(ctx, Wanted::Path(PathBuf::from(path))),
            (Waiting::PrintPath(folder), _) => {
                let sheet = self.sheet();
                let papers = print::usual(self.desk().job());
                self.desk_mut().wants(Errand::Print {
                    papers,
                    sheet,
                    folder: PathBuf::from(folder),
                });
            }
            (Waiting::SavePath(path), _) => {
                self.desk_mut().wants(Errand::SaveAs(PathBuf::from(path)));
            }
            (Waiting::Again(order), _) => self.begin_again(&order),
            (Waiting::Changed, Answer::Yes) => {
                let cursor = self.view().grid.cursor();
                self.desk_mut().merge(cursor);
            }
            (Waiting::Changed, Answer::Leave) => self.desk_mut().save_as_next(),
            (Waiting::Guard(next), Answer::Leave) => self.leave(ctx, next),
            (Waiting::Guard(next), Answer::Yes) => {
                let at = self.at;
                self.jobs[at].after = Some(After::Leave(next));
                self.desk_mut().save();
            }
        }
    }

    /// Goes on with what waited for the job on top to be saved or left.
    pub(super) fn leave(&mut self, ctx: &Context, next: Next) {
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
            shelf: self.desk().shelf(),
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
                if folder.trim() != self.desk().shelf() {
                    self.clerk
                        .ask(Request::Folder(PathBuf::from(folder.trim())));
                }
            }
        }
    }

    /// Takes in whether there is a folder that is to be the shelf.
    pub(super) fn take_folder(&mut self, ctx: &Context, path: PathBuf, is_there: bool) {
        if is_there {
            self.change(ctx, |settings| settings.shelf = Some(path));
            self.desk_mut().notice =
                "The next start uses that shelf; this one stays until then.".to_owned();
        } else {
            self.desk_mut().notice = format!("There is no such folder: {}", path.display());
        }
    }

    fn change(&mut self, ctx: &Context, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress(ctx);
        if let Some(path) = &self.settings_path
            && let Err(error) = self.settings.write(path)
        {
            let said = format!("The settings can't be kept: {error}: {}", path.display());
            self.desk_mut().notice = said;
        }
    }

    fn browse(&mut self) {
        let folder = PathBuf::from(self.desk().shelf());
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
