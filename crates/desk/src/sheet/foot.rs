//! The foot, two lines that never change their height: one running sentence in the order it is said on
//! the phone, then what the shop doesn't know and what was done last.

use egui::{Align, FontId, Layout, Rect, RichText, Ui, UiBuilder};
use quillbore_job::quick::Told;
use quillbore_job::results::foot::{Leads, Piece, foot};

use super::parts::{foot_figure, pencil};
use super::quick_line::quick_told;
use super::shared::Shared;
use crate::look;
use crate::view::{Ask, SheetView, Target};

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
    let foot = foot(shared.job, shared.results, shared.shop, shared.promise);
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
        for piece in &foot.said {
            let font = if piece.strong {
                look::foot_bold()
            } else {
                look::foot()
            };
            piece_ui(ui, piece, font, view, asks);
        }
    });
    ui.scope_builder(line(second), |ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        match &quick {
            Some(told) => pencil(ui, &told.rests),
            None => {
                for piece in &foot.rests {
                    piece_ui(ui, piece, look::small(), view, asks);
                }
            }
        }
        ui.add_space(16.0);
        let room = ui.available_rect_before_wrap();
        look::clipped_label(ui, room, notice, look::small(), t.accent);
    });
}

/// A piece of a line: a figure opens its working, what is missing leads to its line.
fn piece_ui(ui: &mut Ui, piece: &Piece, font: FontId, view: &mut SheetView, asks: &mut Vec<Ask>) {
    match piece.leads {
        Some(Leads::Working(figure)) => foot_figure(ui, &piece.text, figure, font, view),
        Some(Leads::Line(beside)) => {
            if look::word_in_font(ui, &piece.text, font).clicked() {
                asks.push(Ask::GoTo(Target::Beside(beside)));
            }
        }
        None => {
            ui.label(RichText::new(&piece.text).font(font));
        }
    }
}

/// A piece of what is said of a quick price: an assumption is a word that leads where one would say
/// otherwise.
fn quick_piece(ui: &mut Ui, piece: &Told, asks: &mut Vec<Ask>) {
    match piece.leads_to {
        Some(leads_to) => {
            if look::word_in_font(ui, &piece.text, look::foot()).clicked() {
                asks.push(Ask::MakeQuick(Some(leads_to)));
            }
        }
        None => {
            ui.label(RichText::new(&piece.text).font(look::foot()));
        }
    }
}
