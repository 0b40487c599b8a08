//! Small parts that panels of the sheet are made of: heads, pencilled text, figures that open.

use egui::{Align, Layout, RichText, Sense, Ui, UiBuilder, vec2};
use quillbore_calc::Figure;

use crate::look;
use crate::view::{SheetView, WorkingAt};
use crate::words::sheet as words;

/// Above a block.
const ABOVE: f32 = 24.0;

/// The height of a block's head.
const HEAD: f32 = 20.0;

/// Below a block's head.
const BELOW: f32 = 8.0;

/// A block's head: its name in spaced capitals, a line in short where it is folded, and the word that
/// folds or opens it; true where it is open.
pub fn block_head(ui: &mut Ui, name: &'static str, view: &mut SheetView, summary: &str) -> bool {
    let t = look::tokens(ui);
    ui.add_space(ABOVE);
    let folded = view.folded.contains(name);
    let size = vec2(ui.available_width(), HEAD);
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    look::hairline_at(
        ui.painter(),
        place.x_range(),
        place.bottom() + 2.0,
        t.hairline,
    );
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        ui.horizontal_centered(|ui| {
            ui.label(look::spaced_caps(name, t.ink));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let word = look::quiet_word(ui, words::fold(folded));
                let named = words::fold_block(folded, name);
                word.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &named));
                if word.clicked() {
                    toggle(&mut view.folded, name);
                }
                if folded {
                    ui.add_space(12.0);
                    let room = ui.available_rect_before_wrap();
                    look::clipped_label(ui, room, summary, look::small(), t.ink);
                }
            });
        });
    });
    ui.add_space(BELOW);
    !folded
}

/// A head on a page that lies over the sheet.
pub fn plain_head(ui: &mut Ui, text: &str) {
    let t = look::tokens(ui);
    ui.add_space(ABOVE - 8.0);
    ui.label(look::spaced_caps(text, t.ink));
    look::hairline(ui);
    ui.add_space(4.0);
}

/// Takes a value into a set, or out of it where it is in.
pub fn toggle<T: Ord + Copy>(set: &mut std::collections::BTreeSet<T>, value: T) {
    if !set.remove(&value) {
        set.insert(value);
    }
}

/// A figure that opens its working beside it when it is pressed.
pub fn figure_word(
    ui: &mut Ui,
    text: &str,
    figure: Figure,
    font: egui::FontId,
    view: &mut SheetView,
) -> egui::Response {
    let response = figure_label(ui, text, figure, font, view);
    if response.clicked() {
        view.open_working(figure, WorkingAt::Beside(response.rect.top()));
    }
    response
}

/// A figure that opens its working above the foot when it is pressed.
pub fn foot_figure(
    ui: &mut Ui,
    text: &str,
    figure: Figure,
    font: egui::FontId,
    view: &mut SheetView,
) {
    if figure_label(ui, text, figure, font, view).clicked() {
        view.open_working(figure, WorkingAt::AboveFoot);
    }
}

/// Draws a figure.
fn figure_label(
    ui: &mut Ui,
    text: &str,
    figure: Figure,
    font: egui::FontId,
    view: &SheetView,
) -> egui::Response {
    let t = look::tokens(ui);
    let open = view.opened == Some(figure);
    let color = if open { t.accent } else { t.ink };
    let label = egui::Label::new(RichText::new(text).font(font).color(color)).sense(Sense::click());
    let response = ui
        .add(label)
        .on_hover_cursor(egui::CursorIcon::PointingHand);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, text));
    if response.hovered() || open || response.has_focus() {
        look::dashed_underline(
            ui.painter(),
            response.rect.x_range(),
            response.rect.bottom() - 1.0,
            t.accent,
        );
    }
    response
}

/// Pencilled text: hints, units, explanations.
pub fn pencil(ui: &mut Ui, text: &str) {
    let t = look::tokens(ui);
    ui.label(RichText::new(text).font(look::small()).color(t.pencil));
}
