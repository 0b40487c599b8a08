//! Small parts that panels of the sheet are made of: heads, pencilled text, figures that open.

use egui::{RichText, Ui};
use quillbore_calc::Figure;
use quillbore_job::Block;
use quillbore_job::words::english;

use super::shared::Anchors;
use crate::look;
use crate::view::SheetView;

/// A block's head: its name in spaced capitals, a word that folds it; true where it is laid open.
pub fn block_head(ui: &mut Ui, block: Block, view: &mut SheetView, summary: &str) -> bool {
    let t = look::tokens(ui);
    ui.add_space(9.0);
    look::hairline(ui);
    let folded = view.folded.contains(&block);
    ui.horizontal(|ui| {
        let name = look::spaced_caps(english::block(block), t.ink);
        let head = ui
            .add(egui::Label::new(name).sense(egui::Sense::click()))
            .on_hover_cursor(egui::CursorIcon::PointingHand);
        head.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::Link, true, english::block(block))
        });
        if head.clicked() {
            toggle(&mut view.folded, block);
        }
        if folded {
            ui.add_space(8.0);
            ui.add(egui::Label::new(RichText::new(summary).font(look::small())).truncate());
        }
    });
    !folded
}

/// A heading for a block that does not fold.
pub fn plain_head(ui: &mut Ui, text: &str) {
    let t = look::tokens(ui);
    ui.add_space(9.0);
    look::hairline(ui);
    ui.label(look::spaced_caps(text, t.ink));
}

/// Takes a value into a set, or out of it where it is in.
pub fn toggle<T: Ord + Copy>(set: &mut std::collections::BTreeSet<T>, value: T) {
    if !set.remove(&value) {
        set.insert(value);
    }
}

/// A figure that opens its working when it is clicked.
pub fn figure_word(
    ui: &mut Ui,
    text: &str,
    figure: Figure,
    font: egui::FontId,
    view: &mut SheetView,
    anchors: Option<&mut Anchors>,
) {
    let t = look::tokens(ui);
    let open = view.opened == Some(figure);
    let color = if open { t.accent } else { t.ink };
    let label =
        egui::Label::new(RichText::new(text).font(font).color(color)).sense(egui::Sense::click());
    let response = ui
        .add(label)
        .on_hover_cursor(egui::CursorIcon::PointingHand);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, text));
    if response.hovered() || open {
        look::dashed_underline(
            ui.painter(),
            response.rect.x_range(),
            response.rect.bottom() - 1.0,
            t.accent,
        );
    }
    if response.clicked() {
        view.opened = if open { None } else { Some(figure) };
        view.overrule = crate::view::OverruleDraft::default();
    }
    if open && let Some(anchors) = anchors {
        anchors.opened = Some(response.rect.center().y);
    }
}

/// Pencilled text: hints, units, explanations.
pub fn pencil(ui: &mut Ui, text: &str) {
    let t = look::tokens(ui);
    ui.label(RichText::new(text).font(look::small()).color(t.pencil));
}
