//! What the window waits for, as one line under the head: a path, or an answer.

use egui::{Key, Ui};
use quillbore_intake::{Foreign, Holds, words};

use super::shared::Shared;
use crate::all_words;
use crate::look;
use crate::view::{Answer, Ask, Next, View, Waiting};

/// The waiting line.
pub fn waiting_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut View, asks: &mut Vec<Ask>) {
    let Some(waiting) = &mut view.waiting else {
        view.waiting_shown = false;
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    ui.horizontal_wrapped(|ui| match waiting {
        Waiting::OpenPath(path) => path_line(ui, first, "open the file", path, "open it", asks),
        Waiting::SavePath(path) => {
            path_line(ui, first, "save as the file", path, "save it", asks);
        }
        Waiting::PrintPath(path) => {
            path_line(
                ui,
                first,
                "print into the folder",
                path,
                "print there",
                asks,
            );
        }
        Waiting::Again(order) => {
            let label = "customer's PO: number; quantity; price each; revision";
            typed_line(ui, first, label, order, "create the reorder", asks);
        }
        Waiting::Guard(next) => {
            let said = match next {
                Next::CloseJob => "This job is not saved.",
                Next::CloseWindow => "There is work on the desk that is not saved.",
            };
            answers_ui(
                ui,
                first,
                said,
                [
                    ("save and close", Answer::Yes),
                    ("discard the changes", Answer::Leave),
                    ("cancel", Answer::Stay),
                ],
                asks,
            );
        }
        Waiting::Changed => answers_ui(
            ui,
            first,
            "Another desk saved this job meanwhile; nothing was overwritten.",
            [
                ("merge", Answer::Yes),
                ("save mine as a new job", Answer::Leave),
                ("not now", Answer::Stay),
            ],
            asks,
        ),
        Waiting::Adopt(jobs) => adopt_ui(ui, first, *jobs, asks),
        Waiting::Left(left) => {
            let number = match left.job.number.as_str() {
                "" => "A new job",
                number => number,
            };
            let said = format!("{number} was not saved when the program ended last.");
            answers_ui(
                ui,
                first,
                &said,
                [
                    ("restore", Answer::Yes),
                    ("discard", Answer::Leave),
                    ("ask again next time", Answer::Stay),
                ],
                asks,
            );
        }
        Waiting::Command(typed) => words_ui(ui, first, typed, shared, asks),
        Waiting::Column(pasting, typed) => column_ui(ui, first, &pasting.table, typed, asks),
    });
}

/// Whether a folder that nobody marked is to be the shelf: nothing is written to it before the yes.
fn adopt_ui(ui: &mut Ui, first: bool, jobs: usize, asks: &mut Vec<Ask>) {
    let holds = match jobs {
        0 => "no job".to_owned(),
        1 => "1 job".to_owned(),
        jobs => format!("{jobs} jobs"),
    };
    ui.label(format!(
        "This folder holds {holds}, but nobody said yet that it is a shelf: nothing is saved to it."
    ));
    let yes = look::word(ui, "use it as the shelf");
    if first {
        yes.request_focus();
    }
    if yes.clicked() {
        asks.push(Ask::GoOn(Answer::Yes));
    }
    ui.add_space(8.0);
    let escaped = ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape));
    if look::quiet_word(ui, "not now").clicked() || escaped {
        asks.push(Ask::GoOn(Answer::Stay));
    }
}

/// A question with its answers, the safest of which Escape gives too: nothing is lost by it.
fn answers_ui(
    ui: &mut Ui,
    first: bool,
    said: &str,
    answers: [(&str, Answer); 3],
    asks: &mut Vec<Ask>,
) {
    ui.label(said);
    for (at, (word, answer)) in answers.into_iter().enumerate() {
        let response = look::word(ui, word);
        if first && at == 0 {
            response.request_focus();
        }
        if response.clicked() {
            asks.push(Ask::GoOn(answer));
        }
        ui.add_space(8.0);
    }
    if ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape)) {
        asks.push(Ask::GoOn(Answer::Stay));
    }
}

/// Every word there is, narrowed by what is typed; Enter does the first.
fn words_ui(
    ui: &mut Ui,
    first: bool,
    typed: &mut String,
    shared: &Shared<'_>,
    asks: &mut Vec<Ask>,
) {
    super::parts::pencil(ui, "do");
    let (entered, given_up) = keyed_line(ui, first, "find a command", typed, 150.0);
    let mut done = given_up.then_some(Ask::GoOn(Answer::Stay));
    let of_job = all_words::of_job(shared.job, shared.results);
    let found = all_words::found(typed, ui.ctx(), &of_job);
    if found.is_empty() {
        super::parts::pencil(ui, "no command has that in it");
    }
    ui.horizontal_wrapped(|ui| {
        for (index, word) in found.into_iter().enumerate() {
            let said = match word.keys.as_str() {
                "" => word.word.clone(),
                keys => format!("{} ({keys})", word.word),
            };
            let clicked = look::word(ui, &said).clicked();
            if clicked || (entered && index == 0) {
                done = Some(word.ask);
            }
            ui.add_space(8.0);
        }
    });
    if let Some(ask) = done {
        if !matches!(ask, Ask::GoOn(_)) {
            asks.push(Ask::GoOn(Answer::Stay));
        }
        asks.push(ask);
    }
}

/// What a column of a pasted table is, narrowed by what is typed; Enter takes the first, Escape
/// pastes nothing.
fn column_ui(ui: &mut Ui, first: bool, table: &Foreign, typed: &mut String, asks: &mut Vec<Ask>) {
    let questions = table.questions();
    let Some(question) = questions.first() else {
        return;
    };
    let left = match questions.len() {
        1 => String::new(),
        count => format!(" ({} more)", count - 1),
    };
    ui.label(format!(
        "Which is this? {}{left}",
        words::question(question)
    ));
    let (entered, given_up) = keyed_line(ui, first, "which is this", typed, 150.0);
    let wanted = typed.trim().to_lowercase();
    let choices = table.choices().into_iter();
    let found: Vec<Holds> = choices
        .filter(|holds| words::holds(*holds).contains(&wanted))
        .collect();
    if found.is_empty() {
        super::parts::pencil(ui, "no column has that in its name");
    }
    for (at, holds) in found.into_iter().enumerate() {
        let clicked = look::word(ui, words::holds(holds)).clicked();
        // Nothing is chosen by Enter on an empty line: a guess would be as good as none.
        if clicked || (entered && at == 0 && !wanted.is_empty()) {
            asks.push(Ask::SayColumn(holds));
            return;
        }
        ui.add_space(8.0);
    }
    if look::quiet_word(ui, "paste nothing").clicked() || given_up {
        asks.push(Ask::GoOn(Answer::Stay));
    }
}

fn path_line(
    ui: &mut Ui,
    first: bool,
    label: &str,
    path: &mut String,
    word: &str,
    asks: &mut Vec<Ask>,
) {
    typed_line(ui, first, label, path, word, asks);
    ui.add_space(8.0);
    if look::quiet_word(ui, "browse").clicked() {
        asks.push(Ask::Browse);
    }
}

fn typed_line(
    ui: &mut Ui,
    first: bool,
    label: &str,
    path: &mut String,
    word: &str,
    asks: &mut Vec<Ask>,
) {
    super::parts::pencil(ui, label);
    let width = (ui.available_width() - 280.0).max(160.0);
    let (entered, given_up) = keyed_line(ui, first, label, path, width);
    if look::word(ui, word).clicked() || entered {
        asks.push(Ask::GoOn(Answer::Yes));
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, "not now").clicked() || given_up {
        asks.push(Ask::GoOn(Answer::Stay));
    }
}

/// A line that takes the keyboard when it is new; whether it was entered, and whether given up.
fn keyed_line(ui: &mut Ui, first: bool, name: &str, text: &mut String, width: f32) -> (bool, bool) {
    let response = look::line_edit(ui, text, width);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, name));
    if first {
        response.request_focus();
    }
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    (
        response.lost_focus() && pressed(Key::Enter),
        pressed(Key::Escape),
    )
}
