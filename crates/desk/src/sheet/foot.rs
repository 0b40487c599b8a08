//! The foot: one running sentence in the order it is said on the phone, and what the shop doesn't know.

use egui::{RichText, Ui};
use quillbore_job::results::foot::{Piece, foot};

use super::parts::figure_word;
use super::shared::Shared;
use crate::look;
use crate::view::SheetView;

/// The sentence; its figures open their working. Below it what the shop doesn't know, and the notice.
pub fn foot_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, notice: &str) {
    let t = look::tokens(ui);
    let foot = foot(shared.job, shared.results, shared.shop, shared.promise);
    line_ui(ui, &foot.said, view);
    line_ui(ui, &foot.rests, view);
    // The line is there even when nothing is said, so that the sheet never jumps.
    let said = if notice.is_empty() { " " } else { notice };
    ui.label(RichText::new(said).font(look::small()).color(t.accent));
}

fn line_ui(ui: &mut Ui, line: &[Piece], view: &mut SheetView) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for piece in line {
            let font = if piece.strong {
                look::foot_bold()
            } else {
                look::foot()
            };
            match piece.figure() {
                Some(figure) => figure_word(ui, &piece.text, figure, font, view, None),
                None => {
                    ui.label(RichText::new(&piece.text).font(font));
                }
            }
        }
    });
}
