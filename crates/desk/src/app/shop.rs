//! The shop's page in the window: laid over the sheet, its edits saved as they come, and what it says
//! passed on to every job on the desk.

use std::mem::take;
use std::path::PathBuf;
use std::sync::Arc;

use egui::Context;
use quillbore_job::Field;
use quillbore_job::shop::Logo;
use quillbore_job::shop::sheet::{ShopEdit, ShopLine, ShopList, ShopSheet, merge_since};
use quillbore_job::shop_history::Changing;
use quillbore_office::Failure;
use quillbore_office::clerk::Request;
use quillbore_office::office::shop::{SheetSaved, SheetStands};
use quillbore_office::shop_csv::TakenIn;
use quillbore_office::words::shop as office_words;

use super::App;
use crate::actions::Action;
use crate::shop::{Met, ShopAsk, commit_typed};
use crate::spot::Spot;
use crate::view::Ask;
use crate::words::desk::with_hint;
use crate::words::{first_start as start_words, messages, shop as words};

impl App {
    /// Lays the page over the sheet, or puts it away.
    pub(super) fn lay_out_shop(&mut self) {
        if self.shop.open {
            self.close_shop();
            return;
        }
        self.close_pages();
        self.shop.open = true;
        self.shop.is_start = false;
        self.shop.is_fresh = true;
        self.look_at_shop();
    }

    /// Puts away whatever page lies over the sheet; what is being typed on it is put in its place first.
    pub(super) fn close_pages(&mut self) {
        self.learned.open = false;
        self.today.open = false;
        if self.shop.open {
            self.close_shop();
        }
    }

    fn close_shop(&mut self) {
        if take(&mut self.shop.is_start) {
            self.view_mut().focus = Some(Spot::Field(Field::Customer));
        }
        self.put_typed_of_shop();
        self.shop.open = false;
    }

    /// Puts what is being typed on the page in its place, as leaving it would do.
    pub(super) fn put_typed_of_shop(&mut self) {
        let mut asks = Vec::new();
        commit_typed(&mut self.shop, self.jobs[self.at].desk.day, &mut asks);
        for ask in asks {
            self.shop_asks(ask);
        }
    }

    /// Asks for the shop's sheet as it stands on the shelf now.
    pub(super) fn look_at_shop(&mut self) {
        self.shop.is_overruled = self.office.has_named_shop();
        self.shop.looking = true;
        self.clerk.ask(Request::Shop);
    }

    /// Does what the page asks.
    pub(super) fn shop_asks(&mut self, ask: ShopAsk) {
        match ask {
            ShopAsk::Edit(edit) => {
                self.edit_shop(&edit);
            }
            ShopAsk::Undo => self.step_shop(true),
            ShopAsk::Redo => self.step_shop(false),
            ShopAsk::SaveAgain => {
                self.shop.failed = None;
                self.save_shop();
                self.look_at_shop();
            }
            ShopAsk::ReplaceLost(by) => self.clerk.ask(Request::ReplaceLostShop(by)),
            ShopAsk::Close => self.close_shop(),
            ShopAsk::TakeTheirs(at) => {
                let clash = (at < self.shop.clashes.len()).then(|| self.shop.clashes.remove(at));
                if let Some(edit) = clash.and_then(|met| met.clash.take_theirs()) {
                    self.edit_shop(&edit);
                }
            }
            ShopAsk::KeepOurs(at) => {
                if at < self.shop.clashes.len() {
                    self.shop.clashes.remove(at);
                }
            }
            ShopAsk::WholePage => {
                self.shop.is_start = false;
                self.shop.is_fresh = true;
            }
            ShopAsk::SeeSamples => self.see_samples(),
            ShopAsk::RemoveSamples => self.clerk.ask(Request::RemoveSamples),
            ShopAsk::ChooseList(list) => self.ask_for_list(list),
            ShopAsk::ListTo(list, path) => {
                let sheet = Arc::clone(self.shop.history.now());
                self.clerk.ask(Request::ListTo(sheet, list, path));
            }
            ShopAsk::ListFrom(list, path) => {
                let sheet = Arc::clone(self.shop.history.now());
                self.clerk.ask(Request::ListFrom(sheet, list, path));
            }
            ShopAsk::ChooseLogo => self.ask_for_logo(),
            ShopAsk::TakeLogo(path) => self.clerk.ask(Request::Logo(path)),
            ShopAsk::Tell(said) => self.shop.notice = said,
            ShopAsk::TellWhenSaved(said) => self.shop.told_when_saved = said,
        }
    }

    fn see_samples(&mut self) {
        self.shop.notice = match (self.open_samples)() {
            Ok(()) => {
                self.shop.has_samples = true;
                start_words::SAMPLES_OPEN.to_owned()
            }
            Err(why) => start_words::samples_not_opened(&why),
        };
    }

    /// Takes in whether the sample jobs are gone.
    pub(super) fn take_samples_removed(&mut self, result: Result<(), Failure>) {
        self.shop.notice = match result {
            Ok(()) => {
                self.shop.has_samples = false;
                start_words::SAMPLES_REMOVED.to_owned()
            }
            Err(failure) => failure.to_string(),
        };
    }

    /// Does an edit; whether it changed anything.
    fn edit_shop(&mut self, edit: &ShopEdit) -> bool {
        if self.shop.stands.is_none() {
            // What is on the shelf is not known: nothing can be typed over it.
            self.shop.notice = words::LOOKING.to_owned();
            return false;
        }
        let desk = &self.jobs[self.at].desk;
        let (day, by) = (desk.day, desk.name.clone());
        let before = Arc::clone(self.shop.history.now());
        let who = Changing { day, by: &by };
        match self.shop.step(|history| history.do_edit(edit, who)) {
            Ok(true) => {
                let other = other_currency(&before, self.shop.history.now());
                if let Some(other) = other {
                    self.shop.told_when_saved = other;
                }
                self.shop.drop_settled();
                self.save_shop();
                return true;
            }
            Ok(false) => {}
            Err(refused) => self.shop.notice = with_hint(&refused.to_string(), refused.hint()),
        }
        false
    }

    fn step_shop(&mut self, back: bool) {
        let desk = &self.jobs[self.at].desk;
        let (day, by) = (desk.day, desk.name.clone());
        let who = Changing { day, by: &by };
        let history = &self.shop.history;
        let label = if back {
            history.undo_label()
        } else {
            history.redo_label()
        };
        let label = label.map(str::to_owned);
        let done = self.shop.step(|history| {
            if back {
                history.undo(who)
            } else {
                history.redo(who)
            }
        });
        if done {
            self.shop.drafts.clear();
            self.shop.drop_settled();
            self.save_shop();
            self.shop.notice = words::stepped(back, &label.unwrap_or_default());
        }
    }

    /// Saves the sheet as it stands, one save at a time; why it could not be saved before is told until
    /// that is known.
    pub(super) fn save_shop(&mut self) {
        let Some(base) = &self.shop.stands else {
            return;
        };
        let now = self.shop.history.now();
        if self.shop.saving.is_some() || base.sheet == *now {
            return;
        }
        self.shop.saving = Some(Arc::clone(now));
        self.clerk.ask(Request::SaveShop {
            base: base.clone(),
            ours: Arc::clone(now),
        });
    }

    /// Takes in what stands on the shelf, where nothing here is on its way there.
    pub(super) fn take_shop(&mut self, result: Result<SheetStands, Failure>) {
        self.shop.looking = false;
        if self.shop.saving.is_some() {
            // That save puts both together.
            return;
        }
        match result {
            Ok(stands) => {
                if self.shop.is_unsaved() {
                    // The shelf answers again: what could not be saved is saved, with what is there.
                    self.save_shop();
                    return;
                }
                self.shop.failed = None;
                let known = self.shop.stands.as_ref().map(|known| known.version);
                // What is being typed is saved over what it was typed over, and both put together then.
                if known != Some(stands.version) && !(known.is_some() && self.shop.is_typing()) {
                    self.shop.put_sheet((*stands.sheet).clone());
                    self.shop.stands = Some(stands);
                    self.shop.notice.clear();
                    self.tell_of_shop();
                }
            }
            // Why it could not be saved stays told until it is.
            Err(_) if self.shop.is_unsaved() => {}
            Err(failure) => {
                let said = failure.to_string();
                if self.shop.failed.as_ref() != Some(&said) {
                    self.desk_mut().notice.clone_from(&said);
                }
                self.shop.failed = Some(said);
            }
        }
    }

    /// Takes in how a save ended; what was typed meanwhile is saved next.
    pub(super) fn take_shop_saved(
        &mut self,
        ours: &Arc<ShopSheet>,
        result: Result<Box<SheetSaved>, Failure>,
    ) {
        self.shop.saving = None;
        match result {
            Ok(saved) => {
                let SheetSaved {
                    stands,
                    clashes,
                    renumbered,
                    told,
                } = *saved;
                self.shop.notice = office_words::saved(clashes.len(), &told);
                self.shop.clashes.extend(Met::all(clashes, &stands.sheet));
                let now = Arc::clone(self.shop.history.now());
                if stands.sheet != *ours {
                    // Another desk's work came in: it goes under what was typed since.
                    let merged = merge_since(ours, &now, &stands.sheet, &renumbered);
                    let both = Arc::new(merged.sheet);
                    self.shop.clashes.extend(Met::all(merged.clashes, &both));
                    self.shop.renumber(&merged.renumbered);
                    self.shop.put_sheet((*both).clone());
                }
                self.shop.drop_settled();
                self.shop.stands = Some(stands);
                self.shop.failed = None;
                self.shop_is_new();
                self.save_shop();
                self.tell_of_shop();
            }
            Err(failure) => self.shop.failed = Some(words::not_saved(&failure.to_string())),
        }
    }

    /// Says what waits to be said once all is saved, where nothing is being saved.
    fn tell_of_shop(&mut self) {
        if self.shop.saving.is_none() && !self.shop.told_when_saved.is_empty() {
            let said = [
                take(&mut self.shop.told_when_saved),
                take(&mut self.shop.notice),
            ];
            self.shop.notice = said.join(" ").trim().to_owned();
        }
    }

    /// Has every job on the desk go by the shop as it is now.
    pub(super) fn shop_is_new(&mut self) {
        for job in &mut self.jobs {
            job.desk.take_shop();
        }
        self.ask_learned();
    }

    /// Says where a list was written.
    pub(super) fn list_written(&mut self, list: ShopList, result: Result<PathBuf, Failure>) {
        self.shop.notice = match result {
            Ok(path) => words::list_written(list, &path),
            Err(failure) => failure.to_string(),
        };
    }

    /// Takes in a list that was read from a file, as one step.
    pub(super) fn take_list(&mut self, list: ShopList, result: Result<TakenIn, Failure>) {
        match result {
            Ok(TakenIn { edit, told }) => {
                self.shop.list_paths.remove(&list);
                match edit {
                    Some(edit) => {
                        if self.edit_shop(&edit) {
                            self.shop.told_when_saved = told;
                        }
                    }
                    None => self.shop.notice = told,
                }
            }
            Err(failure) => self.shop.notice = failure.to_string(),
        }
    }

    /// Takes in a logo that was read.
    pub(super) fn take_logo(&mut self, result: Result<Logo, Failure>) {
        match result {
            Ok(logo) => {
                self.shop.logo_path.clear();
                self.edit_shop(&ShopEdit::SetLogo(Some(Arc::new(logo))));
            }
            Err(failure) => self.shop.notice = failure.to_string(),
        }
    }

    /// Takes a file dropped on the page for the logo.
    pub(super) fn drop_logo(&self, path: PathBuf) {
        self.clerk.ask(Request::Logo(path));
    }

    /// What somebody asks while a page lies over the sheet: a job that is out of sight is not acted on.
    pub(super) fn page_hears(&mut self, ctx: &Context, ask: &Ask) -> bool {
        if self.today.open {
            return self.today_hears(ask);
        }
        if !self.shop.open {
            return false;
        }
        match ask {
            Ask::Do(Action::Undo) => self.shop_asks(ShopAsk::Undo),
            Ask::Do(Action::Redo) => self.shop_asks(ShopAsk::Redo),
            Ask::Do(Action::Save) => self.save_or_say(),
            Ask::Do(Action::OtherUnit) => {
                let other = match self.shop.history.now().unit {
                    quillbore_job::Unit::Mm => quillbore_job::Unit::Inch,
                    quillbore_job::Unit::Inch => quillbore_job::Unit::Mm,
                };
                self.edit_shop(&ShopEdit::SetUnit(other));
            }
            Ask::Do(
                Action::New
                | Action::Open
                | Action::Again
                | Action::NextJob
                | Action::Commands
                | Action::Settings,
            )
            | Ask::Open(_)
            | Ask::Front(_) => {
                self.close_pages();
                return false;
            }
            Ask::Do(Action::Help) => self.shop.notice = self.shop.about_here(),
            Ask::Do(action) if action.is_of_job() || *action == Action::Picture => {
                self.shop.notice = messages::CLOSE_PAGE_FIRST.to_owned();
            }
            _ => return false,
        }
        ctx.request_repaint();
        true
    }

    /// While the day's list lies over the sheet no job under it is acted on.
    fn today_hears(&mut self, ask: &Ask) -> bool {
        match ask {
            Ask::Do(
                Action::New | Action::Open | Action::NextJob | Action::Commands | Action::Settings,
            )
            | Ask::Open(_)
            | Ask::Front(_) => {
                self.close_pages();
                false
            }
            Ask::Do(action) if action.is_of_job() || *action == Action::Picture => {
                self.today.notice = messages::CLOSE_PAGE_FIRST.to_owned();
                true
            }
            _ => false,
        }
    }

    fn save_or_say(&mut self) {
        self.put_typed_of_shop();
        self.save_shop();
    }
}

/// What is to be said where the shop had a currency of its own and has another one now.
fn other_currency(before: &ShopSheet, now: &ShopSheet) -> Option<String> {
    let [was, is] = [before, now].map(|sheet| sheet.line(ShopLine::Currency).text().trim());
    let changed = !was.is_empty() && !is.is_empty() && !was.eq_ignore_ascii_case(is);
    changed.then(|| words::other_currency(was, is))
}
