//! What the desk remembers, as lines on the sheet: sheet size, its own name, its shelf, its looks.

use egui::Ui;

use super::parts::{pencil, plain_head};
use crate::actions::Action;
use crate::look;
use crate::settings::Settings;
use crate::view::{Ask, Setting, View};

/// The lines of the settings.
pub fn settings_ui(ui: &mut Ui, settings: &Settings, view: &mut View, asks: &mut Vec<Ask>) {
    let Some(drafts) = &mut view.settings else {
        return;
    };
    if !std::mem::replace(&mut drafts.seen, true) {
        ui.scroll_to_cursor(Some(egui::Align::Min));
    }
    plain_head(ui, "This desk");
    ui.horizontal(|ui| {
        pencil(ui, "papers are printed on");
        for (word, letter) in [("A4", false), ("Letter", true)] {
            if settings.letter == letter {
                ui.label(word);
            } else if look::word(ui, word).clicked() {
                asks.push(Ask::Set(Setting::Letter(letter)));
            }
            ui.add_space(6.0);
        }
    });
    for (label, text, setting) in [
        (
            "other desks know this one as",
            &mut drafts.desk_name,
            Setting::DeskName as fn(String) -> Setting,
        ),
        (
            "the shelf, from the next start on",
            &mut drafts.shelf,
            Setting::Shelf as fn(String) -> Setting,
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
    pencil(
        ui,
        "Rates, machines, materials, tubes, texts and address come from the shop's own file, named by \
         --shop at the start; without one they are those of the invented shop.",
    );
    ui.horizontal(|ui| {
        for action in [
            Action::OtherPaper,
            Action::Larger,
            Action::Smaller,
            Action::UsualSize,
            Action::Settings,
        ] {
            let word = if action == Action::Settings {
                "done"
            } else {
                action.word()
            };
            if look::word(ui, word).clicked() {
                asks.push(Ask::Do(action));
            }
            ui.add_space(8.0);
        }
    });
}
