//! Answering what a side note asks: two words to press, then a short line for who or why.

use std::collections::BTreeSet;

use egui::{Key, Ui};
use quillbore_calc::RowId;
use quillbore_job::answer::How;
use quillbore_job::concern::Concern;
use quillbore_job::prefilled::accept_too;
use quillbore_job::question::{Given, Question, answer_edit};
use quillbore_job::results::SideNote;
use quillbore_job::words::{answers, life};
use quillbore_job::{Edit, Job, Line};

use super::parts::pencil;
use super::shared::Shared;
use crate::look;
use crate::view::{Answering, Ask, SheetView};
use crate::words::sheet as words;

/// What can be done about the questions of one note, given by the first of them and by what tells all,
/// `about` these rows; gives the first word of it.
pub(super) fn question_ui<'a>(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asked: Option<(&'a Question, &dyn Fn() -> Vec<&'a Question>)>,
    about: &str,
    asks: &mut Vec<Ask>,
) -> Option<egui::Response> {
    let (first, questions) = asked?;
    let what = words::asked_of(answers::concern(first.concern), about);
    if first.answer.is_some() {
        let response = look::quiet_word(ui, answers::DELETE);
        name(&response, &words::about_it(answers::DELETE, &what));
        if response.clicked() {
            let all = questions();
            let edits = all.iter().map(|question| Edit::WithdrawAnswer {
                row: question.row,
                concern: question.concern,
            });
            asks.extend(Edit::together(edits.collect()).map(Ask::Edit));
        }
        return Some(response);
    }
    let here = |asked: &(RowId, Concern)| questions().iter().any(|q| key(q) == *asked);
    let is_here = view.answering.as_ref().is_some_and(|answering| {
        let first = answering.questions.first();
        first.is_some_and(here)
    });
    if is_here {
        let asked: Vec<(RowId, Concern)> = questions().into_iter().map(key).collect();
        line_ui(ui, shared, view, (&what, &asked), asks);
        return None;
    }
    let mut first_word = None;
    for how in How::ALL {
        let response = look::word(ui, answers::how(*how));
        name(&response, &words::about_it(answers::how(*how), &what));
        if response.clicked() {
            let asked = questions().into_iter().map(key);
            view.answering = Some(Answering::new(asked.collect(), *how));
        }
        ui.add_space(8.0);
        first_word.get_or_insert(response);
    }
    first_word
}

/// The line for who agreed, or why it is accepted.
fn line_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    (what, own): (&str, &[(RowId, Concern)]),
    asks: &mut Vec<Ask>,
) {
    let others = others_open(shared, own);
    let Some(answering) = &mut view.answering else {
        return;
    };
    let how = answering.how;
    ui.end_row();
    pencil(ui, &format!("{} ", answers::wanted(how)));
    ui.end_row();
    let width = (ui.available_width() - 4.0).max(80.0);
    let response = look::line_edit(ui, &mut answering.said, width);
    let label = words::about_it(answers::wanted(how), what);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &label));
    if !std::mem::replace(&mut answering.shown, true) {
        response.request_focus();
        response.scroll_to_me(None);
    }
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let entered = response.lost_focus() && pressed(Key::Enter);
    let given_up = response.lost_focus() && pressed(Key::Escape);
    ui.end_row();
    let put = look::word(ui, words::PUT_IT_DOWN).clicked();
    ui.add_space(8.0);
    let leave = look::quiet_word(ui, words::NOT_NOW).clicked();
    if !others.is_empty() {
        // The same was asked of other rows, where the facts are others: one answer may be to all.
        ui.add_space(8.0);
        let too = answering.questions.len() > own.len();
        let marks = others.iter().map(|(row, _)| shared.speaker().mark(*row));
        let word = words::for_others(&marks.collect::<Vec<_>>());
        if look::toggle_word(ui, &word, too).clicked() {
            answering.questions = own.to_vec();
            if !too {
                answering.questions.extend(&others);
            }
        }
    }
    if (put || entered) && !answering.said.trim().is_empty() {
        let edit = edit(shared, answering);
        view.answering = None;
        asks.extend(edit.map(Ask::Edit));
    } else if leave || given_up {
        view.answering = None;
    }
}

/// What is asked alike of other rows and not answered yet.
fn others_open(shared: &Shared<'_>, own: &[(RowId, Concern)]) -> Vec<(RowId, Concern)> {
    let Some((_, concern)) = own.first() else {
        return Vec::new();
    };
    let notes = shared.results.notes.iter();
    let asked = notes.filter_map(|note| note.question.as_deref());
    let open = asked.filter(|question| question.concern == *concern && question.answer.is_none());
    // Both may be as many as a job has rows.
    let own: BTreeSet<_> = own.iter().copied().collect();
    let open: BTreeSet<_> = open.map(key).collect();
    open.difference(&own).copied().collect()
}

/// The edit that a typed answer comes to; nothing where what was asked is no longer asked.
fn edit(shared: &Shared<'_>, answering: &Answering) -> Option<Edit> {
    let notes = shared.results.notes.iter();
    let asked = notes.filter_map(|note| note.question.as_deref());
    let given = Given {
        how: answering.how,
        said: &answering.said,
        by: shared.by,
        date: shared.day,
    };
    answer_edit(asked, &answering.questions, &given)
}

const fn key(question: &Question) -> (RowId, Concern) {
    (question.row, question.concern)
}

fn name(response: &egui::Response, name: &str) {
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, name));
}

/// The word that leads to the line of a slip which would settle a note.
pub fn settle_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    note: &SideNote,
    asks: &mut Vec<Ask>,
) -> Option<egui::Response> {
    let (id, line) = note.settled_by?;
    let (word, ask) = settling(shared.job, id, line);
    let word = look::word(ui, word);
    if word.clicked() {
        asks.push(ask);
    }
    Some(word)
}

/// The word that settles a note by a line of a slip, and what it does: it leads to the line, or takes
/// an acceptance that stands there to hold for this, too.
#[must_use]
pub fn settling(job: &Job, id: u32, line: Line) -> (&'static str, Ask) {
    match accept_too(job, id, line) {
        Some(edit) => (life::ACCEPT_TOO, Ask::Edit(edit)),
        None => (life::settle(line), Ask::TypeOn(id, line)),
    }
}
