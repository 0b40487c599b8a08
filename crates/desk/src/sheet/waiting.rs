//! What the window waits for, in the head's second line: a path, or an answer.

use egui::{Key, Ui};

use super::parts::pencil;
use crate::look;
use crate::view::{Ask, Decision, SheetView, Waiting};
use crate::words::questions as words;

/// The waiting line.
pub fn waiting_ui(ui: &mut Ui, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some(waiting) = &mut view.waiting else {
        view.waiting_shown = false;
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    match waiting {
        Waiting::OpenPath(path) => path_line(ui, first, words::OPEN_FILE, path, asks),
        Waiting::SavePath(path) => path_line(ui, first, words::SAVE_FILE, path, asks),
        Waiting::PrintPath(path) => path_line(ui, first, words::PRINT_FOLDER, path, asks),
        Waiting::Again(order) => typed_line(ui, first, words::AGAIN, order, asks),
        Waiting::AttachPath(path) => path_line(ui, first, words::ATTACH, path, asks),
        Waiting::HolesPath(path) => path_line(ui, first, words::HOLES, path, asks),
        Waiting::Password(typed) => password_line(ui, first, typed, asks),
        Waiting::Reading(name, hundredths) => reading_ui(ui, name, *hundredths, asks),
        Waiting::Printer(name, _, known) => {
            let known = words::printers(known);
            typed_line(ui, first, words::PRINTER, name, asks);
            ui.add_space(8.0);
            let room = ui.available_rect_before_wrap();
            let pencil = look::tokens(ui).pencil;
            look::clipped_label(ui, room, &known, look::small(), pencil);
        }
        Waiting::Guard(next) => {
            let said = words::not_saved(*next);
            answers_ui(ui, first, said, words::GUARD_ANSWERS, asks);
        }
        Waiting::GuardShop => {
            answers_ui(ui, first, words::SHOP_NOT_SAVED, words::GUARD_ANSWERS, asks);
        }
        Waiting::Changed => {
            answers_ui(ui, first, words::CHANGED, words::CHANGED_ANSWERS, asks);
        }
        Waiting::Adopt(jobs) => adopt_ui(ui, first, *jobs, asks),
        Waiting::Left(left) => {
            let said = words::left(&left.job.number);
            answers_ui(ui, first, &said, words::LEFT_ANSWERS, asks);
        }
        // These lie over the sheet.
        Waiting::Command(_) | Waiting::Column(..) | Waiting::Drawn(_) | Waiting::Pages(_) => {}
    }
}

/// Whether a folder that nobody marked is to be the shelf: nothing is written to it before the yes.
fn adopt_ui(ui: &mut Ui, first: bool, jobs: usize, asks: &mut Vec<Ask>) {
    ui.label(words::adopt(jobs));
    let yes = look::word(ui, words::ADOPT);
    if first {
        yes.request_focus();
    }
    if yes.clicked() {
        asks.push(Ask::GoOn(Decision::Yes));
    }
    ui.add_space(8.0);
    let escaped = ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape));
    if look::quiet_word(ui, words::NOT_NOW).clicked() || escaped {
        asks.push(Ask::GoOn(Decision::Stay));
    }
}

/// How far a file is, and the word that stops it.
fn reading_ui(ui: &mut Ui, name: &str, hundredths: u32, asks: &mut Vec<Ask>) {
    ui.label(words::reading(name, hundredths));
    ui.add_space(8.0);
    let escaped = ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape));
    if look::keyed_word(ui, words::STOP, words::ESC).clicked() || escaped {
        asks.push(Ask::GoOn(Decision::Stay));
    }
}

/// A question with its answers: do it, leave it, stay. Escape gives the last, too: nothing is lost by
/// it.
fn answers_ui(ui: &mut Ui, first: bool, said: &str, answers: [&str; 3], asks: &mut Vec<Ask>) {
    ui.label(said);
    let answers = answers
        .into_iter()
        .zip([Decision::Yes, Decision::Leave, Decision::Stay]);
    for (at, (word, answer)) in answers.enumerate() {
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
        asks.push(Ask::GoOn(Decision::Stay));
    }
}

/// A path, typed or chosen in the desktop's own dialog; the words are its label and what goes on.
fn path_line(
    ui: &mut Ui,
    first: bool,
    label_and_word: (&str, &str),
    path: &mut String,
    asks: &mut Vec<Ask>,
) {
    typed_line(ui, first, label_and_word, path, asks);
    ui.add_space(8.0);
    if look::quiet_word(ui, words::BROWSE).clicked() {
        asks.push(Ask::Browse);
    }
}

fn typed_line(
    ui: &mut Ui,
    first: bool,
    (label, word): (&str, &str),
    path: &mut String,
    asks: &mut Vec<Ask>,
) {
    pencil(ui, label);
    let width = (ui.available_width() - 280.0).max(160.0);
    let (entered, given_up) = keyed_line(ui, first, label, path, width);
    if look::word(ui, word).clicked() || entered {
        asks.push(Ask::GoOn(Decision::Yes));
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, words::NOT_NOW).clicked() || given_up {
        asks.push(Ask::GoOn(Decision::Stay));
    }
}

/// A password: what is typed is not shown.
fn password_line(ui: &mut Ui, first: bool, typed: &mut String, asks: &mut Vec<Ask>) {
    pencil(ui, words::PASSWORD.0);
    let edit = egui::TextEdit::singleline(typed).password(true);
    let response = ui.add(edit.desired_width(220.0));
    if first {
        response.request_focus();
    }
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let entered = response.lost_focus() && pressed(Key::Enter);
    let given_up = pressed(Key::Escape);
    if look::word(ui, words::PASSWORD.1).clicked() || entered {
        asks.push(Ask::GoOn(Decision::Yes));
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, words::NOT_NOW).clicked() || given_up {
        asks.push(Ask::GoOn(Decision::Stay));
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
