//! What the desk remembers, over the sheet: sheet size, its own name, its shelf, its looks.

use egui::{Key, Modifiers, Rect, Ui, pos2};

use super::parts::{pencil, plain_head};
use crate::actions::Action;
use crate::look;
use crate::settings::Settings;
use crate::view::{Ask, SettingChange, SheetView};
use crate::words::{commands, settings as words};

/// The width of the page.
const WIDTH: f32 = 560.0;

/// The settings over the sheet at `place`; Esc closes them.
pub fn settings_ui(
    ui: &mut Ui,
    place: Rect,
    settings: &Settings,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    if view.settings.is_none() {
        return;
    }
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        asks.push(Ask::Do(Action::Settings));
    }
    let id = ui.scope_id().with("settings");
    let from = pos2(place.left(), place.top() + 12.0);
    look::lies_over(ui, id, from, 12, |ui| {
        ui.set_width(WIDTH.min(place.width()) - 24.0);
        lines_ui(ui, settings, view, asks);
    });
}

/// The lines of the settings.
fn lines_ui(ui: &mut Ui, settings: &Settings, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some(drafts) = &mut view.settings else {
        return;
    };
    plain_head(ui, words::HEAD);
    ui.horizontal(|ui| {
        pencil(ui, words::PRINTED_ON);
        for (word, letter) in [(words::A4, false), (words::LETTER, true)] {
            if look::toggle_word(ui, word, settings.letter == letter).clicked() {
                asks.push(Ask::Set(SettingChange::Letter(letter)));
            }
            ui.add_space(6.0);
        }
    });
    for (label, text, setting) in [
        (
            words::DESK_NAME,
            &mut drafts.desk_name,
            SettingChange::DeskName as fn(String) -> SettingChange,
        ),
        (
            words::SHELF,
            &mut drafts.shelf,
            SettingChange::Shelf as fn(String) -> SettingChange,
        ),
        (
            words::PRINTER,
            &mut drafts.printer,
            SettingChange::Printer as fn(String) -> SettingChange,
        ),
        (
            words::PRINT_COMMAND,
            &mut drafts.print_command,
            SettingChange::PrintCommand as fn(String) -> SettingChange,
        ),
    ] {
        ui.horizontal(|ui| {
            pencil(ui, label);
            let response = look::line_edit(ui, text, 300.0);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, label));
            if response.lost_focus() {
                asks.push(Ask::Set(setting(text.clone())));
            }
        });
    }
    pencil(ui, words::FROM_SHOP);
    looks_ui(ui, asks);
}

/// The words for looks, and the one that closes the settings.
fn looks_ui(ui: &mut Ui, asks: &mut Vec<Ask>) {
    ui.horizontal(|ui| {
        for action in [
            Action::OtherPaper,
            Action::Larger,
            Action::Smaller,
            Action::UsualSize,
            Action::Settings,
        ] {
            let word = if action == Action::Settings {
                words::DONE
            } else {
                commands::action(action)
            };
            if look::word(ui, word).clicked() {
                asks.push(Ask::Do(action));
            }
            ui.add_space(8.0);
        }
    });
}
