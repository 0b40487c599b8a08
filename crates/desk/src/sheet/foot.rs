//! The foot: one running sentence in the order it is said on the phone.

use egui::{RichText, Ui};

use super::parts::figure_word;
use super::shared::Shared;
use crate::look;
use crate::view::SheetView;

/// The sentence; its figures open their working.
pub fn foot_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, notice: &str) {
    let t = look::tokens(ui);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for piece in shared.speaker().foot(&shared.results.figures) {
            match piece.figure {
                Some(figure) => figure_word(ui, &piece.text, figure, look::foot_bold(), view, None),
                None => {
                    ui.label(RichText::new(piece.text).font(look::foot()));
                }
            }
        }
    });
    // The line is there even when nothing is said, so that the sheet never jumps.
    let said = if notice.is_empty() { " " } else { notice };
    ui.label(RichText::new(said).font(look::small()).color(t.accent));
}
