//! What the desk remembers, as lines on the sheet: sheet size, its own name, its shelf, its looks.

use egui::Ui;

use super::parts::{pencil, plain_head};
use crate::actions::Action;
use crate::look;
use crate::settings::Settings;
use crate::view::{Ask, SettingChange, SheetView};
use crate::words::{commands, settings as words};

/// The lines of the settings.
pub fn settings_ui(ui: &mut Ui, settings: &Settings, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some(drafts) = &mut view.settings else {
        return;
    };
    if !std::mem::replace(&mut drafts.seen, true) {
        ui.scroll_to_cursor(Some(egui::Align::Min));
    }
    plain_head(ui, words::HEAD);
    ui.horizontal(|ui| {
        pencil(ui, words::PRINTED_ON);
        for (word, letter) in [(words::A4, false), (words::LETTER, true)] {
            if settings.letter == letter {
                ui.label(word);
            } else if look::word(ui, word).clicked() {
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
    ] {
        ui.horizontal(|ui| {
            pencil(ui, label);
            let response = look::line_edit(ui, text, 380.0);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, label));
            if response.lost_focus() {
                asks.push(Ask::Set(setting(text.clone())));
            }
        });
    }
    pencil(ui, words::FROM_SHOP_FILE);
    looks_ui(ui, asks);
}

/// The words for looks, and the one that puts the settings away.
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
