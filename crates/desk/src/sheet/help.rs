//! What F1 says, over the margin until Esc: what can be typed where one is at, and the keys that save
//! most.

use egui::{Label, RichText, Ui, UiBuilder, vec2};
use quillbore_job::words::english;

use super::holes::column_here;
use super::margin::{MarginPlace, column_of, ground_ui};
use crate::look;
use crate::view::SheetView;
use crate::words::help as words;

/// The help, where it was asked for.
pub fn help_ui(ui: &mut Ui, place: MarginPlace, view: &mut SheetView) {
    if !view.help {
        return;
    }
    let at = column_of(place);
    ground_ui(ui, at, "help");
    let inner = at.shrink2(vec2(4.0, 8.0));
    ui.scope_builder(UiBuilder::new().max_rect(inner), |ui| {
        ui.set_width(inner.width());
        let (name, said) = here(view);
        if !name.is_empty() {
            ui.label(RichText::new(name).font(look::bold()));
        }
        ui.add(Label::new(said).wrap());
        ui.add_space(12.0);
        for (keys, does) in words::KEYS {
            ui.label(RichText::new(*keys).font(look::small_bold()));
            ui.add(Label::new(RichText::new(*does).font(look::small())).wrap());
            ui.add_space(4.0);
        }
        ui.add_space(8.0);
        if look::keyed_word(ui, words::CLOSE, words::ESC).clicked() {
            view.help = false;
        }
    });
}

/// The name of what one is at, and what can be typed there.
fn here(view: &SheetView) -> (&'static str, String) {
    if view.grid.is_active() {
        if let Some(column) = column_here(view) {
            let head = english::column(column).head;
            return (head, words::said(words::cell(column.kind())));
        }
    } else if let Some(spot) = view.at_field {
        return (spot.label(), words::said(words::field(spot.kind())));
    }
    ("", words::NOWHERE.to_owned())
}
