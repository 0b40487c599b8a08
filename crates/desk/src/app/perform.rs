//! Doing what the panels ask, in one place.

use std::sync::Arc;

use egui::Context;
use quillbore_calc::learn::Lessons;
use quillbore_job::prefilled::release_of;
use quillbore_job::results::foot::{foot, text};
use quillbore_job::{Edit, Field, Paper, Unit};

use super::App;
use super::next::paper_next;
use crate::actions::Action;
use crate::desk::{Desk, Errand};
use crate::grid::GridAt;
use crate::letter::{address, contents, mailto};
use crate::sheet::quick_line::QuickLine;
use crate::view::{Ask, SheetView, Target, Waiting};
use crate::words::desk::{copy_name, with_hint};
use crate::words::{head as head_words, letter as letter_words, messages};

/// What the records teach, and the hours and price each that they make of a job.
struct LearnedNow {
    lessons: Arc<Lessons>,
    said: [String; 2],
}

impl App {
    pub(super) fn perform(&mut self, ctx: &Context, ask: Ask) {
        if self.page_hears(ctx, &ask) {
            return;
        }
        match ask {
            Ask::Edit(edit) => self.edit(&edit),
            Ask::Pin(kind) => self.pin(kind),
            Ask::RunsOfMarks => self.pin_runs(),
            Ask::RunsOfPlan => self.pin_planned_runs(),
            Ask::Do(action) => self.act(ctx, action),
            Ask::Open(wanted) => {
                self.shelf_over = false;
                self.open(ctx, wanted);
            }
            Ask::Front(at) => {
                self.at = at.min(self.jobs.len() - 1);
                self.shelf_over = false;
            }
            Ask::GoTo(target) => self.go_to(target),
            Ask::Preview(paper) => self.view_mut().paper = Some(paper),
            Ask::BlankForm(form) => {
                let sheet = self.sheet();
                self.desk_mut().wants(Errand::Blank(form, sheet));
            }
            Ask::Threading => self.desk_mut().wants(Errand::Threading),
            Ask::TypeOn(slip, line) => self.type_on(slip, line),
            Ask::MakeQuick(leads_to) => self.make_quick(leads_to),
            Ask::Answer(answering) => self.view_mut().answering = Some(answering),
            Ask::Issue(paper) => self.issue(paper),
            Ask::IssueTogether => self.issue_together(),
            Ask::ReleasePart(here) => self.release_part(here),
            Ask::Reprint(number, then) => self.desk_mut().wants(Errand::Reprint(number, then)),
            Ask::OpenFile(file) => self.open_file(&file),
            Ask::OpenFolder => self.open_folder(),
            Ask::PrintFile(file) => self.print_file(file),
            Ask::OpenBeside(name) => self.desk_mut().wants(Errand::OpenBeside(name)),
            Ask::AskToAttach => self.ask_to_attach(),
            Ask::Tell(said) => self.desk_mut().notice = said,
            Ask::Mail(number) => self.mail(ctx, &number),
            Ask::Paste(pasting) => self.paste(*pasting),
            Ask::Refused(refused) => {
                self.desk_mut().notice = with_hint(&refused.to_string(), refused.hint());
            }
            Ask::NoTable(error) => {
                self.desk_mut().notice = messages::column_refused(&error, error.hint());
            }
            Ask::SayColumn(holds) => self.say_column(holds),
            Ask::AtColumn(column) => self.at_column(column),
            Ask::LandTable => self.land_table(ctx),
            Ask::AttachAlone => self.attach_alone(),
            Ask::GoOn(answer) => self.go_on(ctx, answer),
            Ask::OpenRecord(job, slip, line) => self.open_record(ctx, job, slip, line),
            Ask::CloseLearned => self.learned.open = false,
            Ask::Today(ask) => self.today_asks(ctx, ask),
            Ask::Shop(ask) => self.shop_asks(ask),
            Ask::Browse => self.browse(),
            Ask::Set(setting) => self.set(ctx, setting),
        }
    }

    pub(super) fn edit(&mut self, edit: &Edit) {
        let at = self.view().grid.cursor();
        let before = self.learned_now();
        self.desk_mut().edit(edit, at, at);
        let after = self.learned_now();
        let (Some(before), Some(after)) = (before, after) else {
            return;
        };
        if before.said == after.said {
            return;
        }
        if !Arc::ptr_eq(&before.lessons, &after.lessons) {
            self.desk_mut().notice = messages::runs_moved(&before.said, &after.said);
        } else if is_answer(edit) {
            // Nobody expects a price to move where a question was answered.
            self.desk_mut().notice = messages::answer_moved(&before.said, &after.said);
        }
    }

    /// What the records teach, and what they make of the job on top.
    fn learned_now(&self) -> Option<LearnedNow> {
        let desk = self.desk();
        let figures = &desk.results().figures;
        let hours = figures.lot.as_ref()?.machine_hours.p50;
        let each = figures.price.as_ref()?.breaks.first()?.each;
        let (digits, form) = (desk.shop.tables.rates.minor_digits, desk.shop.form);
        Some(LearnedNow {
            lessons: Arc::clone(&desk.teaching.lessons),
            said: [form.hours(hours), form.money_exact(each, digits)],
        })
    }

    fn act(&mut self, ctx: &Context, action: Action) {
        match action {
            Action::New => self.begin(),
            Action::Open => {
                let folder = self.desk().folder().join("");
                self.wait_for(Waiting::OpenPath(folder.display().to_string()));
            }
            Action::Save => self.desk_mut().save(),
            Action::SaveAs => {
                let shelf = self.desk().folder();
                let path = shelf.join(copy_name(&self.desk().file_name()));
                self.wait_for(Waiting::SavePath(path.display().to_string()));
            }
            Action::NextStep => self.next_step(),
            Action::NextNote => self.go_to(Target::NextNote),
            Action::Preview => {
                let paper = paper_next(self.desk().job());
                let view = self.view_mut();
                view.paper = if view.paper.is_some() {
                    None
                } else {
                    Some(paper)
                };
                view.pages = None;
            }
            Action::CopyFoot => {
                let desk = self.desk();
                let said = foot(desk.job(), desk.results(), &desk.shop, desk.promise());
                ctx.copy_text(text(&said.said));
                self.desk_mut().notice = messages::FOOT_COPIED.to_owned();
            }
            Action::Picture => {
                let view = self.view_mut();
                view.picture = !view.picture;
            }
            Action::Print => {
                let folder = self.desk().papers_folder();
                self.wait_for(Waiting::PrintPath(folder.display().to_string()));
            }
            Action::TakeHoles => self.wait_for(Waiting::HolesPath(String::new())),
            Action::Undo => self.step(Desk::undo),
            Action::Redo => self.step(Desk::redo),
            Action::Again => self.ask_for_order(ctx),
            Action::Find => {
                if self.shelf_lies_over {
                    self.shelf_over = true;
                } else if !self.settings.shelf_open {
                    self.change(ctx, |settings| settings.shelf_open = true);
                }
                self.find_focus = true;
            }
            Action::NextJob => self.at = (self.at + 1) % self.jobs.len(),
            Action::CloseJob => self.close_job(),
            Action::Commands => self.wait_for(Waiting::Command(String::new())),
            Action::Today => self.lay_out_today(),
            Action::Shop => self.lay_out_shop(),
            Action::Learned => self.lay_out_learned(),
            Action::Help => {
                let view = self.view_mut();
                view.help = !view.help;
            }
            Action::Settings => self.lay_out_settings(),
            Action::OtherUnit => {
                let other = match self.desk().job().unit {
                    Unit::Mm => Unit::Inch,
                    Unit::Inch => Unit::Mm,
                };
                self.edit(&Edit::SetUnit(other));
            }
            Action::OtherPaper => self.change(ctx, |settings| settings.dark = !settings.dark),
            Action::Shelf if self.shelf_lies_over => self.shelf_over = !self.shelf_over,
            Action::Shelf => {
                self.change(ctx, |settings| settings.shelf_open = !settings.shelf_open);
            }
            Action::Quit => ctx.send_viewport_cmd(egui::ViewportCommand::Close),
            Action::Larger => self.zoom(ctx, |zoom| (zoom + 0.1).min(3.0)),
            Action::Smaller => self.zoom(ctx, |zoom| (zoom - 0.1).max(0.5)),
            Action::UsualSize => self.zoom(ctx, |_| 1.0),
        }
    }

    /// Begins a job, in the unit of the one on top.
    pub(super) fn begin(&mut self) {
        let unit = self.desk().job().unit;
        self.at = self.free_place();
        self.desk_mut().begin_in(unit);
        // A price on the telephone is typed at once; whoever has a mail presses where that begins.
        self.view_mut().quick = Some(QuickLine::with_keyboard());
    }

    /// Takes an edit back or does it again, and puts the cursor of the hole table where it was.
    fn step(&mut self, step: fn(&mut Desk) -> Option<GridAt>) {
        // A field in which nothing was typed shows what the job has after it, and not what it had.
        if let Some(spot) = self.untouched_field() {
            self.view_mut().drafts.remove(&spot);
        }
        let before = self.desk().job().clone();
        let at = step(self.desk_mut());
        // Where the holes stayed as they were the eye is elsewhere, and the table does not come into sight.
        let is_of_holes = self.desk().job().rows != before.rows;
        if let Some(at) = at.filter(|_| is_of_holes) {
            self.view_mut().grid.go_to(at);
        }
    }

    /// A place for another job: the one on top where nothing was done there yet, else a new one.
    pub(super) fn free_place(&mut self) -> usize {
        if self.desk().is_untouched() {
            let waiting = self.view_mut().waiting.take();
            self.jobs[self.at].id = self.next_id;
            self.next_id += 1;
            self.jobs[self.at].view = SheetView {
                waiting,
                ..SheetView::default()
            };
            return self.at;
        }
        self.add_sheet();
        self.jobs.len() - 1
    }

    pub(super) fn issue(&mut self, paper: Paper) {
        let sheet = self.sheet();
        self.view_mut().paper = None;
        self.desk_mut().wants(Errand::Issue {
            paper,
            sheet,
            others: Vec::new(),
        });
    }

    /// Opens the mail program with a letter about an issued paper, and tells where the file is that goes
    /// with it: a letter's address can't carry one.
    fn mail(&mut self, ctx: &Context, number: &str) {
        let desk = self.desk();
        let job = desk.job();
        let Some(issued) = job.issued.iter().find(|issued| issued.number == number) else {
            return;
        };
        let part = head_words::part(job.text(Field::Part), job.text(Field::Revision));
        let subject = letter_words::subject(issued.paper, number, &part);
        let text = letter_words::text(issued.paper, &contents(job, issued, &desk.shop));
        let letter = mailto(address(job, &desk.shop), &subject, &text);
        let file = desk.papers_folder().join(&issued.file);
        let file = file.display().to_string();
        let done = (self.open_mail)(&letter);
        let said = match done {
            Ok(()) => letter_words::attach(&file),
            Err(_) => {
                ctx.copy_text(format!("{subject}\n\n{text}"));
                letter_words::no_mail(&file)
            }
        };
        self.desk_mut().handed_over(said);
    }

    /// Writes down that the parts that are here are due by themselves, and releases their traveler.
    pub(super) fn release_part(&mut self, here: u32) {
        let edit = release_of(
            self.desk().job(),
            here,
            self.desk().day,
            self.desk().shop.form,
        );
        self.edit(&edit);
        self.issue(Paper::Traveler);
    }
}

/// Whether an edit puts an answer down, or takes one back.
fn is_answer(edit: &Edit) -> bool {
    match edit {
        Edit::Answer(_) | Edit::WithdrawAnswer { .. } => true,
        Edit::Together { edits } => edits.iter().any(is_answer),
        _ => false,
    }
}
