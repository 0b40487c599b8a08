//! What the window waits for, as one line under the head: a path, or an answer.

use egui::{Key, Ui};

use crate::look;
use crate::view::{Answer, Ask, View, Waiting};

/// The waiting line.
pub fn waiting_ui(ui: &mut Ui, view: &mut View, asks: &mut Vec<Ask>) {
    let Some(waiting) = &mut view.waiting else {
        view.waiting_shown = false;
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    ui.horizontal(|ui| match waiting {
        Waiting::OpenPath(path) => path_line(ui, first, "open the file", path, "open it", asks),
        Waiting::SavePath(path, _) => {
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
        Waiting::Guard(_) => {
            ui.label("This job is not saved.");
            for (word, answer) in [
                ("save it first", Answer::Yes),
                ("leave the changes", Answer::Leave),
                ("stay here", Answer::Stay),
            ] {
                if look::word(ui, word).clicked() {
                    asks.push(Ask::GoOn(answer));
                }
                ui.add_space(8.0);
            }
        }
    });
}

fn path_line(
    ui: &mut Ui,
    first: bool,
    label: &str,
    path: &mut String,
    word: &str,
    asks: &mut Vec<Ask>,
) {
    super::pencil(ui, label);
    let width = (ui.available_width() - 230.0).max(160.0);
    let response = look::line_edit(ui, path, width);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, label));
    if first {
        response.request_focus();
    }
    let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let given_up = ui.input(|input| input.key_pressed(Key::Escape));
    if look::word(ui, word).clicked() || entered {
        asks.push(Ask::GoOn(Answer::Yes));
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, "browse").clicked() {
        asks.push(Ask::Browse);
    }
    ui.add_space(8.0);
    if look::quiet_word(ui, "not now").clicked() || given_up {
        asks.push(Ask::GoOn(Answer::Stay));
    }
}
