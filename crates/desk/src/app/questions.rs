//! What the window has asked, and what happens once it is answered.

use std::path::Path;

use egui::Context;
use quillbore_job::shop::sheet::ShopList;
use quillbore_office::clerk::Request;
use quillbore_office::places;
use quillbore_office::print;

use super::{App, Wanted};
use crate::desk::Errand;
use crate::dialogs::{PathAnswer, PathQuestion};
use crate::shop::ShopAsk;
use crate::view::{Ask, Decision, Waiting};
use crate::words::{incoming, messages as words};

impl App {
    /// Whether a question is open that no other line may take the place of.
    pub(super) fn is_asked(&self) -> bool {
        matches!(
            self.view().waiting,
            Some(
                Waiting::Guard(_)
                    | Waiting::GuardShop
                    | Waiting::Changed
                    | Waiting::Left(_)
                    | Waiting::Column(..)
                    | Waiting::Drawn(_)
                    | Waiting::Pages(_)
                    | Waiting::Reading(..)
                    | Waiting::Adopt(_)
                    | Waiting::Password(_)
            )
        )
    }

    /// Opens the line under the head that an action waits for, unless a question is open there.
    pub(super) fn wait_for(&mut self, waiting: Waiting) {
        if self.is_asked() {
            self.desk_mut().notice = words::ANSWER_FIRST.to_owned();
            return;
        }
        self.view_mut().wait_for(waiting);
    }

    /// Goes on with what waited, as it was answered.
    pub(super) fn go_on(&mut self, ctx: &Context, answer: Decision) {
        let Some(waiting) = self.view_mut().waiting.take() else {
            return;
        };
        match (waiting, answer) {
            (Waiting::Left(left), answer) => self.answer_left(*left, answer),
            (Waiting::Column(pasting, _), _) => {
                self.desk_mut().notice = match &pasting.file {
                    None => words::NOTHING_PASTED.to_owned(),
                    Some(_) => incoming::NOTHING_TAKEN.to_owned(),
                };
            }
            (Waiting::Drawn(_) | Waiting::Pages(_), _) => {
                self.desk_mut().notice = incoming::NOTHING_TAKEN.to_owned();
            }
            (Waiting::Reading(..), _) => self.stop_reading(),
            (Waiting::Password(typed), Decision::Yes) => self.give_password(&typed),
            (Waiting::Password(_), _) => self.put_off_password(),
            (Waiting::HolesPath(path), Decision::Yes | Decision::Leave) => {
                self.take_holes_of(places::typed(&path), false);
            }
            (_, Decision::Stay) | (Waiting::Command(_), _) => {}
            (Waiting::Adopt(_), _) => self.clerk.ask(Request::Adopt),
            (Waiting::OpenPath(path), _) => self.open(ctx, Wanted::Path(places::typed(&path))),
            (Waiting::PrintPath(folder), _) => {
                let sheet = self.sheet();
                let papers = print::usual(self.desk().job());
                self.desk_mut().wants(Errand::Print {
                    papers,
                    sheet,
                    folder: places::typed(&folder),
                });
            }
            (Waiting::SavePath(path), _) => {
                self.desk_mut().wants(Errand::SaveAs(places::typed(&path)));
            }
            (Waiting::Printer(name, file, _), _) => self.printer_chosen(ctx, &name, file),
            (Waiting::AttachPath(path), _) => self.attach(places::typed(&path)),
            (Waiting::Again(order), _) => self.begin_again(&order),
            (Waiting::Changed, Decision::Yes) => {
                let cursor = self.view().grid.cursor();
                self.desk_mut().merge(cursor);
            }
            (Waiting::Changed, Decision::Leave) => self.desk_mut().save_as_next(),
            (Waiting::GuardShop, Decision::Leave) => {
                self.shop.let_go = true;
                self.go_on_closing(ctx);
            }
            (Waiting::GuardShop, Decision::Yes) => {
                self.save_shop();
                self.close_when_done = true;
            }
            (Waiting::Guard(next), Decision::Leave) => self.leave(ctx, next),
            (Waiting::Guard(next), Decision::Yes) => {
                let at = self.at;
                self.jobs[at].after = Some(next);
                self.desk_mut().save();
            }
        }
    }

    /// Asks for the file of the logo by the desktop's own dialog.
    pub(super) fn ask_for_logo(&mut self) {
        let folder = self.desk().folder();
        self.dialogs.ask(PathQuestion::Logo { folder });
    }

    /// Asks for the file of a list of the shop by the desktop's own dialog.
    pub(super) fn ask_for_list(&mut self, list: ShopList) {
        let folder = self.desk().folder();
        self.dialogs.ask(PathQuestion::List { list, folder });
    }

    /// Asks for the path that the window waits for by the desktop's own dialog.
    pub(super) fn browse(&mut self) {
        let folder = self.desk().folder();
        let question = match &self.view().waiting {
            Some(Waiting::OpenPath(_)) => PathQuestion::OpenJob { folder },
            Some(Waiting::SavePath(path)) => {
                let name = Path::new(path)
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned();
                PathQuestion::SaveJob { folder, name }
            }
            Some(Waiting::PrintPath(_)) => PathQuestion::PapersFolder {
                folder: self.desk().papers_folder(),
            },
            Some(Waiting::AttachPath(_)) => PathQuestion::Attach { folder },
            Some(Waiting::HolesPath(_)) => PathQuestion::Holes { folder },
            _ => return,
        };
        self.dialogs.ask(question);
    }

    /// Takes in the path that was chosen in the desktop's dialog.
    pub(super) fn answer_dialog(&mut self, asks: &mut Vec<Ask>) {
        let Some((question, PathAnswer::Chosen(chosen))) = self.dialogs.answer() else {
            return;
        };
        if let PathQuestion::List { list, .. } = question {
            let path = chosen.display().to_string();
            self.shop.list_paths.insert(list, path);
            return;
        }
        if matches!(question, PathQuestion::Logo { .. }) {
            asks.push(Ask::Shop(ShopAsk::TakeLogo(chosen)));
            return;
        }
        if let Some(
            Waiting::OpenPath(path)
            | Waiting::SavePath(path)
            | Waiting::PrintPath(path)
            | Waiting::AttachPath(path)
            | Waiting::HolesPath(path),
        ) = &mut self.view_mut().waiting
        {
            *path = chosen.display().to_string();
            asks.push(Ask::GoOn(Decision::Yes));
        }
    }
}
