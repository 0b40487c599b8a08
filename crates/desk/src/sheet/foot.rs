//! The foot, two lines that never change their height: one running sentence in the order it is said on
//! the phone, then what the shop doesn't know and what was done last.

use egui::{Align, Layout, Rect, RichText, Ui, UiBuilder};

use quillbore_job::quick::Told;

use super::parts::{foot_figure, pencil};
use super::quick_line::quick_told;
use super::shared::Shared;
use crate::look;
use crate::view::{Ask, SheetView};

/// The height of the sentence.
const FIRST: f32 = 26.0;

/// The sentence, whose figures open their working, and below it what was done last.
pub fn foot_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    notice: &str,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let quick = quick_told(view, shared);
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let second = all.with_min_y(first.bottom());
    let line = |place: Rect| {
        let layout = Layout::left_to_right(Align::Center);
        UiBuilder::new().max_rect(place).layout(layout)
    };
    ui.scope_builder(line(first), |ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        if let Some(told) = &quick {
            for piece in &told.said {
                quick_piece(ui, piece, asks);
            }
            return;
        }
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
        if let Some(told) = &quick {
            pencil(ui, &told.rests);
        }
        let room = ui.available_rect_before_wrap();
        look::clipped_label(ui, room, notice, look::small(), t.accent);
    });
}

/// A piece of what is said of a quick price: an assumption is a word that leads where one would say
/// otherwise.
fn quick_piece(ui: &mut Ui, piece: &Told, asks: &mut Vec<Ask>) {
    match piece.leads_to {
        Some(leads_to) => {
            if look::foot_word(ui, &piece.text).clicked() {
                asks.push(Ask::MakeQuick(Some(leads_to)));
            }
        }
        None => {
            ui.label(RichText::new(&piece.text).font(look::foot()));
        }
    }
}
