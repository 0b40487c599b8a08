//! The head: who, what, which revision, what is still missing, and the words that do things.

use egui::{Align, Layout, RichText, Ui};
use quillbore_job::Field;

use super::{Shared, pencil};
use crate::actions::Action;
use crate::look;
use crate::view::Ask;

/// Findings that stand in the way of a quotation, in the words of the head.
const MISSING: &[(&str, &str)] = &[
    ("material-missing", "material"),
    ("machine-missing", "machine"),
    ("quantity-missing", "quantity"),
    ("size-missing", "a size"),
    ("depth-missing", "a depth"),
    ("unread", "what can't be read"),
    ("unknown-name", "a name from the lists"),
];

/// The head of the window.
pub fn head_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    labels: (Option<&str>, Option<&str>),
    dirty: bool,
    asks: &mut Vec<Ask>,
) {
    let job = shared.job;
    ui.horizontal(|ui| {
        let number = if job.number.is_empty() {
            "new job"
        } else {
            job.number.as_str()
        };
        ui.label(RichText::new(number).font(look::heading()));
        if dirty {
            pencil(ui, "not saved");
        }
        ui.add_space(10.0);
        let revision = job.text(Field::Revision);
        let part = match (job.text(Field::Part), revision) {
            ("", _) => String::new(),
            (part, "") => part.to_owned(),
            (part, revision) => format!("{part} rev {revision}"),
        };
        for text in [job.text(Field::Customer), part.as_str()] {
            if !text.is_empty() {
                ui.label(RichText::new(text).font(look::subheading()));
                ui.add_space(8.0);
            }
        }
    });
    ui.horizontal(|ui| {
        pencil(ui, &missing(shared));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            for action in Action::ALL.iter().rev() {
                if matches!(action, Action::Larger | Action::Smaller | Action::UsualSize) {
                    continue;
                }
                let (allowed, label) = match action {
                    Action::Undo => (labels.0.is_some(), labels.0),
                    Action::Redo => (labels.1.is_some(), labels.1),
                    _ => (true, None),
                };
                let hint = hint(*action, label, ui);
                ui.add_enabled_ui(allowed, |ui| {
                    let response = look::quiet_word(ui, action.word()).on_hover_text(hint);
                    if response.clicked() {
                        asks.push(Ask::Do(*action));
                    }
                });
                ui.add_space(5.0);
            }
        });
    });
}

fn hint(action: Action, label: Option<&str>, ui: &Ui) -> String {
    let keys = action
        .keys()
        .first()
        .map_or_else(String::new, |key| ui.ctx().format_shortcut(key));
    match label {
        Some(label) => format!("{}: {label}  {keys}", action.word()),
        None => keys,
    }
}

/// What is missing before the job can be quoted.
fn missing(shared: &Shared<'_>) -> String {
    let mut words: Vec<&str> = MISSING
        .iter()
        .filter(|(code, _)| shared.results.notes.iter().any(|note| note.code == *code))
        .map(|(_, word)| *word)
        .collect();
    if shared.job.rows.is_empty() {
        words.push("holes");
    }
    if shared.results.stopped() {
        words.push("an answer to each stop");
    }
    if words.is_empty() {
        "ready to quote; to the floor when order and parts are here".to_owned()
    } else {
        format!("to quote: {}", words.join(", "))
    }
}
