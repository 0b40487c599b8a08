//! The job's sheet: blocks stacked in the order of the trade, notes in the margin beside them.

pub mod again;
pub mod alike;
pub mod answer;
mod breaks;
mod call;
pub(crate) mod columns;
pub mod commands;
pub(crate) mod field;
pub mod fields;
pub mod foot;
pub mod head;
mod help;
pub mod holes;
pub mod map;
pub mod margin;
pub mod measures;
pub mod note_index;
mod notes;
mod pages;
pub mod papers;
pub mod parts;
pub mod paste;
mod picture;
pub mod pictured;
pub mod places;
pub mod plan;
mod preview;
pub mod price;
pub mod quick_line;
pub mod reports;
pub mod runs;
mod second;
pub mod settings;
pub mod shared;
pub mod shelf_list;
pub mod slips;
pub(crate) mod suggestions;
mod tracks;
pub mod waiting;
pub mod whole;

use egui::{Rangef, Rect, ScrollArea, Ui, UiBuilder, vec2};

use crate::view::{Ask, SheetView};
pub use field::commit_drafts;
pub use help::help_ui;
pub use pages::Pages;
use pictured::Pictured;
pub use preview::{issues_by_key, preview_ui, preview_words_ui};
pub use second::second_ui;
use shared::{Anchors, Shared};

/// Left and right of the sheet there is room in which lines are drawn that belong to it.
const BESIDE: f32 = 10.0;

/// Room above and below a line that is brought into sight.
const ROOM: f32 = 24.0;

/// The blocks of the sheet in `place`, `width` wide, in one scrolling area; gives where their lines stand.
pub fn sheet_ui(
    ui: &mut Ui,
    place: Rect,
    width: f32,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) -> Anchors {
    let mut anchors = Anchors::default();
    // The scroll bar stands beside the sheet, not on it.
    let area = place.with_max_x(place.right() + BESIDE);
    ui.scope_builder(UiBuilder::new().max_rect(area), |ui| {
        let across = place.width() < width;
        let scroll = ScrollArea::new([across, true]).id_salt(("sheet", shared.sheet_id));
        scroll.auto_shrink(false).show(ui, |ui| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = 4.0;
            quick_line::quick_ui(ui, shared, view, asks);
            again::again_ui(ui, shared, view, asks);
            fields::inquiry_ui(ui, shared, view, &mut anchors, asks);
            let mut top = ui.cursor().top();
            let mut block = |shown: Pictured, ui: &Ui| {
                let bottom = ui.cursor().top();
                (
                    shown,
                    Rangef::new(std::mem::replace(&mut top, bottom), bottom),
                )
            };
            holes::holes_ui(ui, shared, view, &mut anchors, asks);
            let holes = block(Pictured::Hole, ui);
            plan::plan_ui(ui, shared, view, &mut anchors, asks);
            let plan = block(Pictured::Electrodes, ui);
            price::price_ui(ui, shared, view, &mut anchors, asks);
            let price = block(Pictured::Spread, ui);
            view.picture_at.follow(ui, &[holes, plan, price], place);
            papers::papers_ui(ui, shared, view, &mut anchors, asks);
            slips::order_ui(ui, shared, view, &mut anchors, asks);
            slips::records_ui(ui, shared, view, &mut anchors, asks);
            slips::calls_ui(ui, shared, view, &mut anchors, asks);
            ui.add_space(48.0);
            bring(ui, &anchors, view);
        });
    });
    anchors.keep_in_sight(place.y_range());
    anchors
}

/// Brings the line into sight that somebody goes to without typing on it.
fn bring(ui: &Ui, anchors: &Anchors, view: &mut SheetView) {
    let Some(at) = view.bring.take().and_then(|beside| anchors.find(beside)) else {
        return;
    };
    let line = Rect::from_x_y_ranges(ui.max_rect().x_range(), at);
    ui.scroll_to_rect(line.expand2(vec2(0.0, ROOM)), None);
}
