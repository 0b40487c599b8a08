//! What comes next for the job in front, and the ways to places on its sheet.

use egui::{Context, Key, Modifiers};
use quillbore_calc::finding::Level;
use quillbore_job::life::{Deed, next_deed};
use quillbore_job::quick::LeadsTo;
use quillbore_job::results::{Beside, SideNote};
use quillbore_job::{Column, Field, Job, Line, Paper, SlipKind};

use super::App;
use crate::grid::GridAt;
use crate::sheet::fields::show_field;
use crate::sheet::head::waits;
use crate::sheet::holes::column_at;
use crate::sheet::issues_by_key;
use crate::spot::Spot;
use crate::view::{NoteAt, Target, Waiting};
use crate::words::messages as words;

/// The paper that comes next for a job, or came last.
pub(super) fn paper_next(job: &Job) -> Paper {
    match next_deed(job) {
        Some(Deed::Quote | Deed::RecordOrder) | None => Paper::Quotation,
        Some(Deed::Confirm) => Paper::Confirmation,
        Some(Deed::ReceiveParts(_)) => Paper::Receiving,
        Some(Deed::Release | Deed::RecordRun) => Paper::Traveler,
        Some(Deed::Deliver(_) | Deed::Pack | Deed::Reorder) => Paper::Packing,
    }
}

impl App {
    /// Esc closes what lies on top of the window, one thing at a time; who types gives up what is typed
    /// first, and a question or a page hears it itself.
    pub(super) fn escape(&mut self, ctx: &Context) {
        let shelf_over = self.shelf_over;
        let view = self.view_mut();
        if view.waiting.is_some() || ctx.text_edit_focused() {
            return;
        }
        let any = view.row_menu.is_some()
            || view.help
            || view.opened.is_some()
            || view.all_notes
            || view.margin_over
            || shelf_over;
        if !any || !ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
            return;
        }
        if view.row_menu.take().is_some() {
            return;
        }
        if std::mem::take(&mut view.help) {
            // Whoever asked while typing goes on typing.
            view.focus = view.at_field.filter(|_| !view.grid.is_active());
            return;
        }
        if view.opened.take().is_none() && !std::mem::take(&mut view.all_notes) {
            if view.margin_over {
                view.margin_over = false;
            } else {
                self.shelf_over = false;
            }
        }
    }

    /// Does what comes next: a paper is shown first, and issued where it is on the screen.
    pub(super) fn next_step(&mut self) {
        let desk = self.desk();
        let Some(deed) = next_deed(desk.job()) else {
            return;
        };
        let next = desk
            .results()
            .next(desk.job(), desk.before().map(AsRef::as_ref));
        if let Some(paper) = self.view().paper
            && !(deed == Deed::Release && paper == Paper::Traveler)
        {
            self.issue_shown(paper);
            return;
        }
        match deed {
            Deed::Quote => self.show_or_issue(Paper::Quotation),
            Deed::RecordOrder => self.pin(SlipKind::Order),
            Deed::Confirm => self.show_or_issue(Paper::Confirmation),
            Deed::ReceiveParts(Some(slip)) | Deed::Deliver(Some(slip)) => {
                self.type_on(slip, Line::Count);
            }
            Deed::ReceiveParts(None) => self.pin(SlipKind::Received),
            Deed::Release => match next.part_here() {
                Some(here) => self.release_part(here),
                None => self.show_or_issue(Paper::Traveler),
            },
            Deed::RecordRun => self.pin_first_runs(),
            Deed::Deliver(None) => self.pin(SlipKind::Delivery),
            Deed::Pack => self.show_or_issue(Paper::Packing),
            Deed::Reorder => self.wait_for(Waiting::Again(String::new())),
        }
    }

    fn show_or_issue(&mut self, paper: Paper) {
        if self.view().paper == Some(paper) {
            self.issue(paper);
        } else {
            self.view_mut().paper = Some(paper);
        }
    }

    /// Issues the paper that is on the screen, unless one of its kind stands already: another one is
    /// issued by its word alone.
    fn issue_shown(&mut self, paper: Paper) {
        if issues_by_key(self.desk().job(), paper) {
            self.issue(paper);
        } else {
            self.desk_mut().notice = words::stands_already(paper);
        }
    }

    /// Opens a slip and gives the keyboard to one of its lines.
    pub(super) fn type_on(&mut self, slip: u32, line: Line) {
        let view = self.view_mut();
        view.paper = None;
        view.open_slips.insert(slip);
        view.focus = Some(Spot::Line(slip, line));
    }

    /// Makes the quick price the job, and goes where one would say otherwise what it assumes, or to the
    /// customer, who comes last by telephone.
    pub(super) fn make_quick(&mut self, leads_to: Option<LeadsTo>) {
        let desk = self.desk();
        let line = self.view().quick.as_ref();
        let edit = line.and_then(|line| line.edit(desk.job(), &desk.shop));
        let Some(edit) = edit else {
            return;
        };
        self.edit(&edit);
        self.desk_mut().notice = words::QUICK_MADE.to_owned();
        let target = match leads_to {
            Some(LeadsTo::Field(field)) => Target::Spot(Spot::Field(field)),
            Some(LeadsTo::Column(column)) => {
                let col = column_at(column, self.view());
                Target::Cell(GridAt::new(0, col))
            }
            Some(LeadsTo::Rates) => {
                self.lay_out_settings();
                return;
            }
            None => Target::Spot(Spot::Field(Field::Customer)),
        };
        self.go_to(target);
    }

    /// Goes to a place on the sheet.
    pub(super) fn go_to(&mut self, target: Target) {
        self.view_mut().paper = None;
        match target {
            Target::Spot(spot) => {
                let view = self.view_mut();
                if let Spot::Field(field) = spot {
                    show_field(field, view);
                }
                view.focus = Some(spot);
            }
            Target::Cell(at) => {
                let view = self.view_mut();
                view.grid.go_to(at);
                view.grid.take_keyboard();
            }
            Target::Beside(beside) => self.go_beside(beside, true),
            Target::NextNote => self.next_note(),
        }
    }

    /// Brings a line that a note stands beside into sight, and gives it the keyboard where it is typed on.
    fn go_beside(&mut self, beside: Beside, takes_keyboard: bool) {
        let job = self.desk().job().clone();
        let view = self.view_mut();
        match beside {
            Beside::Field(field) => {
                show_field(field, view);
                if takes_keyboard {
                    view.focus = Some(Spot::Field(field));
                } else {
                    view.bring = Some(beside);
                }
            }
            Beside::Row(row, column) => {
                if let Some(index) = job.row_index(row) {
                    let column = column.unwrap_or(Column::Mark);
                    let col = column_at(column, view);
                    view.grid.go_to(GridAt::new(index, col));
                    if takes_keyboard {
                        view.grid.take_keyboard();
                    }
                }
            }
            Beside::Slip(slip, line) => {
                view.open_slips.insert(slip);
                match line.filter(|_| takes_keyboard) {
                    Some(line) => view.focus = Some(Spot::Line(slip, line)),
                    None => view.bring = Some(Beside::Slip(slip, None)),
                }
            }
            Beside::Plan | Beside::Price | Beside::Papers => view.bring = Some(beside),
        }
    }

    /// Goes to the next stop or check, stops first: its line comes into sight, and the first word of the
    /// note takes the keyboard where it has one, else the line itself.
    fn next_note(&mut self) {
        let results = self.desk().results().clone();
        let of = |level: Level| results.notes.iter().filter(move |note| waits(note, level));
        let all: Vec<&SideNote> = of(Level::Stop).chain(of(Level::Check)).collect();
        if all.is_empty() {
            words::NO_NOTE.clone_into(&mut self.desk_mut().notice);
            return;
        }
        let view = self.view_mut();
        let at = view.at_note.map_or(0, |before| after(before, &all)) % all.len();
        let note = all[at];
        view.at_note = Some(NoteAt {
            at,
            beside: note.beside,
            code: note.code(),
        });
        // Whoever goes by key aims at nothing in the margin: it is laid out anew.
        view.held_notes.clear();
        view.held_list.clear();
        let can_be_done =
            note.is_offering() || note.question.is_some() || note.settled_by.is_some();
        view.go_to_note = can_be_done.then_some(note.beside);
        self.go_beside(note.beside, !can_be_done);
    }
}

/// The place behind a note that somebody went to before; its own, where it was answered meanwhile and the
/// next one moved up.
fn after(before: NoteAt, all: &[&SideNote]) -> usize {
    let is_it = |note: &&SideNote| note.beside == before.beside && note.code() == before.code;
    match all.get(before.at) {
        Some(note) if is_it(note) => before.at + 1,
        _ => {
            let elsewhere = all.iter().position(is_it);
            elsewhere.map_or(before.at, |at| at + 1)
        }
    }
}
