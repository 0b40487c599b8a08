//! A drawing or a solid before it lands: its holes by kind, by size and in their places, its unit where the
//! file doesn't say it.

use egui::{Key, Modifiers, Rect, Role, ScrollArea, Ui, WidgetInfo, pos2, vec2};
use quillbore_job::Unit;

use super::compared::{file_ui, land_ui, lands_ui, took_space};
use super::file::Choosing;
use super::kinds::kinds_ui;
use super::picture::{HEIGHT, beside, picture_ui, seen_ui};
use crate::look;
use crate::sheet::parts::pencil;
use crate::sheet::shared::Shared;
use crate::view::{Ask, SheetView, Waiting};
use crate::words::incoming as words;

/// Where the picture begins, beside the list.
const PICTURE: f32 = 440.0;

/// Lines about what was not taken that are in sight at once.
const TOLD: f32 = 60.0;

/// The file over the sheet at `place`; Esc takes nothing.
pub fn drawn_ui(
    ui: &mut Ui,
    place: Rect,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let Some(Waiting::Drawn(choosing)) = &mut view.waiting else {
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    let t = look::tokens(ui);
    let id = ui.scope_id().with("file");
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
            let name = choosing.file.path.file_name().unwrap_or_default();
            let head = words::head(&name.to_string_lossy());
            ui.label(look::spaced_caps(&head, t.ink));
            file_ui(ui, &choosing.file);
            unit_ui(ui, choosing);
            ui.add_space(6.0);
            holes_ui(ui, choosing);
            ui.add_space(6.0);
            let entered = sizes_ui(ui, first, choosing);
            told_ui(ui, choosing);
            ui.add_space(4.0);
            lands_ui(ui, shared, &mut choosing.file);
            ui.add_space(4.0);
            let rows = choosing.drawn.kinds().filter(|kind| kind.taken > 0).count();
            let word = words::land(choosing.drawn.taken(), rows);
            let can = choosing.drawn.unit().is_some() && choosing.drawn.taken() > 0;
            land_ui(ui, (&word, can, entered), asks);
        });
    });
}

/// The unit of its lengths, or the question for it.
fn unit_ui(ui: &mut Ui, choosing: &mut Choosing) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        match (choosing.drawn.unit(), choosing.drawn.evidence()) {
            (Some(unit), _) => pencil(ui, words::unit_of(unit, choosing.drawn.seen())),
            (None, evidence) => {
                ui.label(evidence.unwrap_or_default());
                for unit in [Unit::Mm, Unit::Inch] {
                    if look::word(ui, words::unit(unit)).clicked() {
                        choosing.drawn.say_unit(unit);
                        choosing.file.changed();
                    }
                }
            }
        }
    });
}

/// The list, and the picture beside it.
fn holes_ui(ui: &mut Ui, choosing: &mut Choosing) {
    let size = vec2(ui.available_width(), HEIGHT);
    let place = Rect::from_min_size(ui.cursor().min, size);
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(place.with_max_x(place.left() + PICTURE - 12.0)),
        |ui| kinds_ui(ui, (PICTURE - 20.0, HEIGHT), choosing),
    );
    let right = beside(place, PICTURE);
    let frame = right.with_max_y(right.bottom() - 22.0);
    picture_ui(ui, frame, choosing);
    let below = right.with_min_y(frame.bottom() + 2.0);
    ui.scope_builder(egui::UiBuilder::new().max_rect(below), |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 12.0;
            seen_ui(ui, choosing);
        });
    });
    ui.advance_cursor_after_rect(place);
}

/// The line on which sizes are typed, which moves the mark and takes its kind, too; whether it was entered
/// with nothing on it.
fn sizes_ui(ui: &mut Ui, first: bool, choosing: &mut Choosing) -> bool {
    keys(ui, choosing);
    let mut entered = false;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, words::SIZES);
        let response = look::line_edit(ui, &mut choosing.typed, 120.0);
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::SIZES));
        if response.changed() {
            choosing.is_unread = false;
        }
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            entered = choosing.typed.trim().is_empty();
            if !entered {
                only_sizes(choosing);
            }
        }
        // Whoever pressed a word or Enter goes on by keys.
        if first || ui.memory(|memory| memory.focused().is_none()) {
            response.request_focus();
        }
        for (word, is_taken) in [(words::ALL, true), (words::NONE, false)] {
            if look::word(ui, word).clicked() {
                choosing.drawn.choose_all(is_taken);
                choosing.file.changed();
            }
        }
        let said = if choosing.is_unread {
            words::NO_SIZES
        } else {
            words::HOW_TO_CHOOSE
        };
        pencil(ui, said);
    });
    entered
}

/// Arrows move the mark, Space takes its kind or leaves it, where nothing is typed.
fn keys(ui: &Ui, choosing: &mut Choosing) {
    let took = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let kinds = choosing.drawn.kinds().count();
    if took(Key::ArrowDown) {
        choosing.marked = (choosing.marked + 1).min(kinds.saturating_sub(1));
    }
    if took(Key::ArrowUp) {
        choosing.marked = choosing.marked.saturating_sub(1);
    }
    if choosing.typed.is_empty() && took_space(ui) {
        let at = choosing.marked;
        let is_none = choosing.drawn.kinds().nth(at).map(|kind| kind.taken == 0);
        choosing.drawn.choose_kind(at, is_none.unwrap_or(false));
        choosing.file.changed();
    }
}

/// Takes the holes of the sizes that were typed, and no others.
fn only_sizes(choosing: &mut Choosing) {
    if choosing.drawn.only_sizes(&choosing.typed) {
        choosing.typed.clear();
        choosing.file.changed();
    } else {
        choosing.is_unread = true;
    }
}

/// What looks like a hole and was not taken.
fn told_ui(ui: &mut Ui, choosing: &Choosing) {
    let told = &choosing.not_taken;
    if told.is_empty() {
        return;
    }
    ScrollArea::vertical()
        .id_salt("not taken")
        .max_height(TOLD)
        .show(ui, |ui| told.iter().for_each(|line| pencil(ui, line)));
}
