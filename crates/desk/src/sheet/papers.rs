//! The papers: words that lay them out, and their pages as they will be printed.

use egui::{Sense, Ui, vec2};
use quillbore_paper::Sheet;

use super::{Shared, plain_head};
use crate::actions::Action;
use crate::look;
use crate::preview::paint_page;
use crate::print::{self, Kind};
use crate::view::{Ask, View};

/// The block of the papers.
pub fn papers_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut View, asks: &mut Vec<Ask>) {
    plain_head(ui, "Papers");
    ui.horizontal(|ui| {
        for kind in Kind::ALL {
            let response = look::word(ui, kind.key());
            if response.clicked() {
                view.paper = if view.paper == Some(*kind) {
                    None
                } else {
                    Some(*kind)
                };
            }
            ui.add_space(10.0);
        }
        if look::word(ui, "print them").clicked() {
            asks.push(Ask::Do(Action::Print));
        }
    });
    let Some(kind) = view.paper else {
        return;
    };
    let sheet = if shared.letter {
        Sheet::Letter
    } else {
        Sheet::A4
    };
    let document = print::document(
        kind,
        shared.job,
        shared.results,
        shared.shop,
        shared.day,
        sheet,
    );
    let (width, height) = sheet.size();
    let scale = ui.available_width() / width as f32;
    for page in &document.pages {
        ui.add_space(10.0);
        let size = vec2(width as f32, height as f32) * scale;
        let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
        if ui.is_rect_visible(rect) {
            paint_page(ui.painter(), rect, scale, page);
        }
    }
}
