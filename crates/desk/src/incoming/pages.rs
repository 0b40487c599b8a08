//! A drawing in PDF before its callouts land: each is offered with its place on the page, none is taken unasked,
//! and the page stands beside them.

use egui::{
    Key, Modifiers, Rect, Role, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use quillbore_job::Unit;

use super::compared::{file_ui, land_ui, lands_ui, took_space};
use super::file::Offering;
use super::page::{page_ui, pages_ui};
use super::picture::beside;
use crate::look;
use crate::sheet::parts::pencil;
use crate::sheet::shared::Shared;
use crate::view::{Ask, SheetView, Waiting};
use crate::words::incoming as words;

/// Where the page begins, beside the list.
const PAGE: f32 = 320.0;

/// How high list and page are.
const HEIGHT: f32 = 360.0;

/// The height of a callout's line.
const ROW: f32 = 36.0;

/// Lines about the pages that are in sight at once.
const TOLD: f32 = 44.0;

/// The file over the sheet at `place`; Esc takes nothing.
pub fn offered_ui(
    ui: &mut Ui,
    place: Rect,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let Some(Waiting::Pages(offering)) = &mut view.waiting else {
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    let t = look::tokens(ui);
    let id = ui.scope_id().with("pages");
    let from = pos2(place.left(), place.top() + 12.0);
    look::lies_over(ui, id, from, 12, |ui| {
        ui.set_width(place.width() - 24.0);
        // A low window scrolls it.
        let room = place.bottom() - from.y - 28.0;
        let all = ScrollArea::vertical()
            .id_salt("all of the file")
            .max_height(room);
        all.show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            let name = offering.file.path.file_name().unwrap_or_default();
            let head = words::callouts_of(&name.to_string_lossy());
            ui.label(look::spaced_caps(&head, t.ink));
            file_ui(ui, &offering.file);
            unit_ui(ui, offering);
            ui.add_space(6.0);
            both_ui(ui, offering);
            ui.add_space(6.0);
            let entered = texts_ui(ui, first, offering);
            told_ui(ui, offering);
            ui.add_space(4.0);
            lands_ui(ui, shared, &mut offering.file);
            ui.add_space(4.0);
            let taken = offering.taken();
            let can = offering.offered.unit().is_some() && taken > 0;
            land_ui(ui, (&words::land_callouts(taken), can, entered), asks);
        });
    });
}

/// The unit of its lengths, which somebody may say otherwise.
fn unit_ui(ui: &mut Ui, offering: &mut Offering) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        let is = offering.offered.unit();
        pencil(ui, words::unit_of_pages(is));
        for unit in [Unit::Mm, Unit::Inch] {
            if look::toggle_word(ui, words::unit(unit), is == Some(unit)).clicked() {
                offering.offered.say_unit(unit);
                offering.file.changed();
            }
        }
    });
}

/// The callouts, and their page beside them.
fn both_ui(ui: &mut Ui, offering: &mut Offering) {
    let size = vec2(ui.available_width(), HEIGHT);
    let place = Rect::from_min_size(ui.cursor().min, size);
    let left = place.with_max_x(place.left() + PAGE - 12.0);
    ui.scope_builder(egui::UiBuilder::new().max_rect(left), |ui| {
        callouts_ui(ui, left.width() - 8.0, offering);
    });
    let right = beside(place, PAGE);
    let frame = right.with_max_y(right.bottom() - 22.0);
    page_ui(ui, frame, offering);
    let below = right.with_min_y(frame.bottom() + 2.0);
    ui.scope_builder(egui::UiBuilder::new().max_rect(below), |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 12.0;
            pages_ui(ui, offering);
        });
    });
    ui.advance_cursor_after_rect(place);
}

/// The callouts, each on a line with its place; a press takes it, or leaves it.
fn callouts_ui(ui: &mut Ui, width: f32, offering: &mut Offering) {
    let count = offering.offered.callouts().count();
    let mut pressed = None;
    let brought = std::mem::take(&mut offering.bring);
    let mut scroll = ScrollArea::vertical()
        .id_salt("callouts")
        .max_height(HEIGHT)
        .min_scrolled_height(HEIGHT);
    if brought {
        let top = offering.marked as f32 * ROW - HEIGHT / 2.0;
        scroll = scroll.vertical_scroll_offset(top.max(0.0));
    }
    scroll.show_rows(ui, ROW, count, |ui, shown| {
        ui.set_width(width);
        ui.spacing_mut().item_spacing.y = 0.0;
        let callouts = offering.offered.callouts().enumerate();
        for (at, callout) in callouts.skip(shown.start).take(shown.len()) {
            let is_taken = offering.offered.is_taken(at);
            let (row, response) =
                ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::click());
            let name = words::callout(callout);
            response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, is_taken, &name));
            let t = look::tokens(ui);
            look::ground_under(ui, row, at == offering.marked, &response);
            let ring = pos2(row.left() + 10.0, row.top() + 10.0);
            ui.painter()
                .circle_stroke(ring, 5.0, Stroke::new(1.0, t.ink));
            if is_taken {
                ui.painter().circle_filled(ring, 5.0, t.ink);
            }
            let text = row.with_min_x(row.left() + 22.0);
            let upper = text.with_max_y(row.top() + 19.0);
            let lower = text.with_min_y(row.top() + 18.0);
            look::clipped(ui, upper, &callout.text, look::body(), t.ink);
            let where_it_is = words::callout_at(callout);
            look::clipped(ui, lower, &where_it_is, look::small(), t.pencil);
            if response
                .on_hover_cursor(egui::CursorIcon::PointingHand)
                .clicked()
            {
                pressed = Some(at);
            }
        }
    });
    if let Some(at) = pressed {
        offering.mark(at);
        offering.offered.toggle(at);
        offering.file.changed();
    }
}

/// The line on which a text is typed whose callouts are to be taken; whether it was entered with nothing on it.
fn texts_ui(ui: &mut Ui, first: bool, offering: &mut Offering) -> bool {
    keys(ui, offering);
    let mut entered = false;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, words::TEXTS);
        let response = look::line_edit(ui, &mut offering.typed, 120.0);
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::TEXTS));
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            entered = offering.typed.trim().is_empty();
            if !entered {
                offering.take_those_with_typed();
            }
        }
        // Whoever pressed a word or Enter goes on by keys.
        if first || ui.memory(|memory| memory.focused().is_none()) {
            response.request_focus();
        }
        for (word, is_taken) in [(words::ALL, true), (words::NONE, false)] {
            if look::word(ui, word).clicked() {
                offering.take_all(is_taken);
            }
        }
        pencil(ui, words::HOW_TO_TAKE);
    });
    entered
}

/// Arrows move the mark, Space takes its callout or leaves it, where nothing is typed.
fn keys(ui: &Ui, offering: &mut Offering) {
    let took = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let count = offering.offered.callouts().count();
    let at = offering.marked;
    if took(Key::ArrowDown) && at + 1 < count {
        offering.mark(at + 1);
        offering.bring = true;
    }
    if took(Key::ArrowUp) && at > 0 {
        offering.mark(at - 1);
        offering.bring = true;
    }
    if offering.typed.is_empty() && took_space(ui) {
        offering.offered.toggle(offering.marked);
        offering.file.changed();
    }
}

/// What is to be known of pages without texts.
fn told_ui(ui: &mut Ui, offering: &Offering) {
    let told = quillbore_intake::words::pages::of_pages(offering.offered.paged());
    if told.is_empty() {
        return;
    }
    ScrollArea::vertical()
        .id_salt("of the pages")
        .max_height(TOLD)
        .show(ui, |ui| told.iter().for_each(|line| pencil(ui, line)));
}

/// The frame around a place on a page.
pub(super) fn framed(ui: &Ui, place: Rect, ink: egui::Color32, width: f32) {
    let stroke = Stroke::new(width, ink);
    ui.painter()
        .rect_stroke(place, 0.0, stroke, StrokeKind::Outside);
}
