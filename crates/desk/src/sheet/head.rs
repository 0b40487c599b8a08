//! The head: who, what, which revision, what is still missing, and the words that do things.

use egui::{Align, Id, Layout, RichText, ScrollArea, Ui};
use quillbore_job::life;
use quillbore_job::results::{NextStep, next_call};
use quillbore_job::words::{life as life_words, slips};
use quillbore_job::{Field, Paper};

use super::parts::pencil;
use super::shared::Shared;
use crate::actions::Action;
use crate::look;
use crate::view::Ask;
use crate::words::commands;
use crate::words::head as words;
use crate::words::papers::RELEASE_TRAVELER;

/// Width that the words of the head take.
const WORDS: f32 = 560.0;

/// Height that the jobs on the desk take at most, however many there are; two lines of them.
const OPEN_JOBS: f32 = 48.0;

/// From so many jobs on the desk on their count is told, since not all of them may be in view.
const MANY: usize = 20;

/// The jobs that lie on the desk, where there are several: each a word that lays it on top. Many of
/// them scroll; the one on top comes into view when it is another than before, else nothing moves.
pub fn open_jobs_ui(ui: &mut Ui, names: &[String], at: usize, asks: &mut Vec<Ask>) {
    if names.len() < 2 {
        return;
    }
    let t = look::tokens(ui);
    let now = (at, names.len());
    let seen = Id::unique("open jobs on the desk");
    let moved = ui.data_mut(|data| {
        let before = data.get_temp_mut_or(seen, (usize::MAX, 0));
        std::mem::replace(before, now) != now
    });
    ui.horizontal_top(|ui| {
        if names.len() >= MANY {
            pencil(ui, &words::open_jobs(names.len()));
            ui.add_space(10.0);
        }
        let list = ScrollArea::vertical().max_height(OPEN_JOBS);
        list.auto_shrink([false, true]).show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                for (index, name) in names.iter().enumerate() {
                    if index == at {
                        let name = RichText::new(name).font(look::small_bold());
                        let on_top = ui.label(name.color(t.accent));
                        if moved {
                            on_top.scroll_to_me(None);
                        }
                    } else if look::quiet_word(ui, name).clicked() {
                        asks.push(Ask::GoTo(index));
                    }
                    ui.add_space(10.0);
                }
            });
        });
    });
}

/// Says which other desk has the job open.
pub fn elsewhere_ui(ui: &mut Ui, desk: Option<&str>) {
    if let Some(desk) = desk {
        pencil(ui, &words::open_elsewhere(desk));
    }
}

/// The head of the window.
pub fn head_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    labels: (Option<&str>, Option<&str>),
    dirty: bool,
    asks: &mut Vec<Ask>,
) {
    let job = shared.job;
    let mut beside = false;
    ui.horizontal(|ui| {
        let number = if job.number.is_empty() {
            words::NEW_JOB
        } else {
            job.number.as_str()
        };
        ui.label(RichText::new(number).font(look::heading()));
        if dirty {
            pencil(ui, words::NOT_SAVED);
        }
        ui.add_space(10.0);
        let part = words::part(job.text(Field::Part), job.text(Field::Revision));
        for text in [job.text(Field::Customer), part.as_str()] {
            if !text.is_empty() {
                ui.label(RichText::new(text).font(look::subheading()));
                ui.add_space(8.0);
            }
        }
        if ui.available_width() > WORDS {
            words_ui(ui, labels, asks);
            beside = true;
        }
    });
    if !beside {
        ui.horizontal(|ui| words_ui(ui, labels, asks));
    }
    ui.horizontal_wrapped(|ui| {
        let next = shared.results.next(job, shared.before);
        pencil(ui, &stands(shared, &next));
        if let Some(here) = next.part_here() {
            if look::word(ui, &words::release_part(here)).clicked() {
                asks.push(Ask::ReleasePart(here));
            }
        } else if next.is_ready_to_release() && look::word(ui, RELEASE_TRAVELER).clicked() {
            asks.push(Ask::Issue(Paper::Traveler));
        }
    });
}

/// The words that do things, at the right.
fn words_ui(ui: &mut Ui, labels: (Option<&str>, Option<&str>), asks: &mut Vec<Ask>) {
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        for action in Action::ALL.iter().rev() {
            if !action.is_in_head() {
                continue;
            }
            let (allowed, label) = match action {
                Action::Undo => (labels.0.is_some(), labels.0),
                Action::Redo => (labels.1.is_some(), labels.1),
                _ => (true, None),
            };
            let hint = hint(*action, label, ui);
            ui.add_enabled_ui(allowed, |ui| {
                let response = look::quiet_word(ui, commands::action(*action)).on_hover_text(hint);
                if response.clicked() {
                    asks.push(Ask::Do(*action));
                }
            });
            ui.add_space(5.0);
        }
    });
}

fn hint(action: Action, label: Option<&str>, ui: &Ui) -> String {
    let keys = action
        .keys()
        .first()
        .map_or_else(String::new, |key| ui.ctx().format_shortcut(key));
    match label {
        Some(label) => words::hint(commands::action(action), label, &keys),
        None => keys,
    }
}

/// Where the job stands, and what is missing before the next step.
fn stands(shared: &Shared<'_>, next: &NextStep) -> String {
    let job = shared.job;
    let said = match next {
        NextStep::Quote {
            missing,
            no_holes,
            others,
        } => {
            let missing = missing.iter().map(|missing| words::missing(*missing));
            let holes = no_holes.then_some(words::HOLES);
            let lacks = missing.chain(holes).map(str::to_owned);
            let others = others.iter().map(life_words::blocker);
            words::to_quote(&lacks.chain(others).collect::<Vec<_>>())
        }
        NextStep::Release(blockers) if blockers.is_empty() => words::READY_TO_RELEASE.to_owned(),
        NextStep::Release(blockers) => {
            let said: Vec<String> = blockers.iter().map(life_words::blocker).collect();
            words::to_release(&said)
        }
        NextStep::Deliver { left, held } => {
            let left = left.map(words::left_to_deliver);
            let said = left
                .into_iter()
                .chain(held.as_ref().map(life_words::blocker));
            said.collect::<Vec<_>>().join("; ")
        }
        NextStep::Nothing => String::new(),
    };
    let asked = next_call(job).map_or_else(String::new, |day| {
        words::ask_about_quotation(day <= shared.day, day)
    });
    let ended = life::outcome(job).map(slips::outcome);
    words::stands(life_words::state(life::state(job)), ended, &said, &asked)
}
