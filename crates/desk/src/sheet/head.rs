//! The head: who, what, which revision, what is still missing, and the words that do things.

use egui::{Align, Layout, RichText, Ui};
use quillbore_calc::finding::Level;
use quillbore_job::life::{self, Blocker, State};
use quillbore_job::results::Missing;
use quillbore_job::slip::{kind, line};
use quillbore_job::words::{life as life_words, slips};
use quillbore_job::{Field, Job, Paper};

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

/// Whether the traveler may go to the floor.
enum Floor {
    NotYet,
    Ready,
    /// Only so many of the ordered parts are here.
    Part(u32),
}

/// The jobs that lie on the desk, where there are several: each a word that lays it on top.
pub fn open_jobs_ui(ui: &mut Ui, names: &[String], at: usize, asks: &mut Vec<Ask>) {
    if names.len() < 2 {
        return;
    }
    let t = look::tokens(ui);
    ui.horizontal_wrapped(|ui| {
        for (index, name) in names.iter().enumerate() {
            if index == at {
                ui.label(RichText::new(name).font(look::small_bold()).color(t.accent));
            } else if look::quiet_word(ui, name).clicked() {
                asks.push(Ask::GoTo(index));
            }
            ui.add_space(10.0);
        }
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
        let (said, ready) = stands(shared);
        pencil(ui, &said);
        match ready {
            Floor::Ready => {
                if look::word(ui, RELEASE_TRAVELER).clicked() {
                    asks.push(Ask::Issue(Paper::Traveler));
                }
            }
            Floor::Part(here) => {
                if look::word(ui, &words::release_part(here)).clicked() {
                    asks.push(Ask::ReleasePart(here));
                }
            }
            Floor::NotYet => {}
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
fn stands(shared: &Shared<'_>) -> (String, Floor) {
    let notes = &shared.results.notes;
    let is_missing =
        |wanted: &&Missing| (notes.iter()).any(|note| note.kind.missing() == Some(**wanted));
    let all = Missing::ALL.iter().filter(is_missing);
    let mut missing: Vec<&str> = all.map(|missing| words::missing(*missing)).collect();
    if shared.job.rows.is_empty() {
        missing.push(words::HOLES);
    }
    let job = shared.job;
    let found = shared.results.found();
    let blockers = |paper| life::blockers(paper, job, &found, shared.before);
    let state = life::state(job);
    let ended = life::outcome(job).map(slips::outcome);
    let mut ready = Floor::NotYet;
    let next = match state {
        State::Inquiry => {
            let stops = shared.results.notes.iter();
            let mut stops = stops.filter(|note| note.level == Level::Stop);
            let other_stop = stops.any(|note| note.kind.missing().is_none());
            to_quote(&missing, other_stop, &blockers(Paper::Quotation))
        }
        State::Quoted | State::Ordered | State::PartsHere => {
            let blockers = blockers(Paper::Traveler);
            if blockers.is_empty() {
                ready = Floor::Ready;
                words::READY_TO_RELEASE.to_owned()
            } else {
                if let [Blocker::Missing { here, .. }] = blockers[..] {
                    ready = Floor::Part(here);
                }
                let said: Vec<String> = blockers.iter().map(life_words::blocker).collect();
                words::to_release(&said)
            }
        }
        State::OnTheFloor => {
            let left = life::left_to_deliver(job);
            let left = left.map(words::left_to_deliver);
            joined(left, held(job))
        }
        State::Delivered => joined(None, held(job)),
        State::LaidAside => String::new(),
    };
    let asked = next_call(job).map_or_else(String::new, |day| {
        words::ask_about_quotation(day <= shared.day, day)
    });
    let said = words::stands(life_words::state(state), ended, &next, &asked);
    (said, ready)
}

/// What is missing before the quotation: what is not typed yet, in a word each; then what else is in
/// the way.
fn to_quote(missing: &[&str], other_stop: bool, blockers: &[Blocker]) -> String {
    let blockers = blockers.iter().filter_map(|blocker| {
        // What is missing says some of it already.
        let said = match blocker {
            Blocker::Stop => !other_stop,
            Blocker::SheetUnread | Blocker::Unpriced => true,
            _ => false,
        };
        let is_news = missing.is_empty() || !said;
        is_news.then(|| life_words::blocker(blocker))
    });
    let missing = missing.iter().map(|word| (*word).to_owned());
    let said: Vec<String> = missing.chain(blockers).collect();
    words::to_quote(&said)
}

/// That an open non-conformance keeps parts from being delivered.
fn held(job: &Job) -> Option<String> {
    let mut trouble = job.slips_of::<kind::Nonconformance>();
    let held = trouble.any(life::holds_delivery);
    held.then(|| life_words::blocker(&Blocker::Undecided))
}

fn joined(one: Option<String>, other: Option<String>) -> String {
    let both: Vec<String> = one.into_iter().chain(other).collect();
    both.join("; ")
}

/// The day on which somebody wants to ask what became of the quotation, while nobody said.
fn next_call(job: &Job) -> Option<chrono::NaiveDate> {
    if life::state(job) != State::Quoted || life::outcome(job).is_some() {
        return None;
    }
    let follow_up = job.date(Field::FollowUp);
    let calls = job.slips_of::<kind::Call>();
    let again = calls.filter_map(|call| call.get(line::CallAgain));
    again.chain(follow_up).max()
}
