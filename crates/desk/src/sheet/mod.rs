//! The job's sheet: blocks stacked in the order of the trade, notes beside them, the foot below.

pub mod again;
pub mod alike;
pub mod answer;
mod choices;
pub mod fields;
pub mod foot;
pub mod head;
pub mod holes;
pub mod line;
pub mod notes;
mod pages;
pub mod papers;
pub mod parts;
pub mod places;
pub mod plan;
pub mod price;
pub mod reports;
mod runs;
pub mod settings;
pub mod shared;
pub mod shelf_list;
pub mod slips;
pub mod waiting;

use egui::{ScrollArea, Ui, vec2};

use crate::view::{Ask, SheetView};
pub use pages::Pages;
use shared::{Anchors, Shared};

const NOTES_WIDTH: f32 = 268.0;
const GAP: f32 = 26.0;
const MARGIN: f32 = 18.0;

/// The sheet with its side notes, in one scrolling area.
pub fn sheet_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    settings: &crate::settings::Settings,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    ScrollArea::vertical()
        .id_salt(("sheet", shared.sheet_id))
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let full = ui.available_rect_before_wrap();
            let width = (full.width() - NOTES_WIDTH - GAP - 2.0 * MARGIN).max(420.0);
            let left = full.left() + MARGIN;
            let mut anchors = Anchors::default();
            let top = ui.cursor().top() + 10.0;
            let area = egui::Rect::from_min_size(egui::pos2(left, top), vec2(width, f32::INFINITY));
            let sheet = ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
                ui.set_width(width);
                ui.spacing_mut().item_spacing.y = 4.0;
                settings::settings_ui(ui, settings, view, asks);
                again::again_ui(ui, shared, view, asks);
                fields::inquiry_ui(ui, shared, view, &mut anchors, asks);
                holes::holes_ui(ui, shared, view, &mut anchors, asks);
                plan::plan_ui(ui, shared, view, &mut anchors, asks);
                price::price_ui(ui, shared, view, &mut anchors, asks);
                papers::papers_ui(ui, shared, view, &mut anchors, asks);
                slips::order_ui(ui, shared, view, &mut anchors, asks);
                slips::records_ui(ui, shared, view, &mut anchors, asks);
                slips::calls_ui(ui, shared, view, &mut anchors, asks);
                ui.add_space(30.0);
            });
            let bottom = sheet.response.rect.bottom();
            let notes = egui::Rect::from_min_size(
                egui::pos2(left + width + GAP, top),
                vec2(NOTES_WIDTH, (bottom - top).max(100.0)),
            );
            let reached = notes::notes_ui(ui, shared, view, &anchors, notes, left + width, asks);
            let all = egui::Rect::from_min_max(
                full.min,
                egui::pos2(full.right(), bottom.max(reached) + 20.0),
            );
            ui.advance_cursor_after_rect(all);
        });
}
