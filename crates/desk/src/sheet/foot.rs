//! The foot, two lines that never change their height: one running sentence in the order it is said on
//! the phone, then what the shop doesn't know and what was done last.

use egui::{Align, Layout, Rect, RichText, Ui, UiBuilder};

use super::parts::{foot_figure, pencil};
use super::shared::Shared;
use crate::look;
use crate::view::SheetView;

/// The height of the sentence.
const FIRST: f32 = 26.0;

/// The sentence, whose figures open their working, and below it what was done last.
pub fn foot_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, notice: &str) {
    let t = look::tokens(ui);
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let second = all.with_min_y(first.bottom());
    let line = |place: Rect| {
        let layout = Layout::left_to_right(Align::Center);
        UiBuilder::new().max_rect(place).layout(layout)
    };
    ui.scope_builder(line(first), |ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for piece in shared.speaker().foot(&shared.results.figures) {
            match piece.figure {
                Some(figure) => foot_figure(ui, &piece.text, figure, look::foot_bold(), view),
                None => {
                    ui.label(RichText::new(piece.text).font(look::foot()));
                }
            }
        }
    });
    ui.scope_builder(line(second), |ui| {
        pencil(ui, "");
        let room = ui.available_rect_before_wrap();
        look::clipped_label(ui, room, notice, look::small(), t.accent);
    });
}
