//! The margin: notes about the lines in sight, each tied to its line, a picture below them, and over
//! both the working of an open figure. Nothing in it moves while the pointer is in it.

use std::collections::BTreeMap;

use egui::{Color32, Painter, Rangef, Rect, ScrollArea, Sense, Stroke, Ui, UiBuilder, pos2, vec2};
use quillbore_calc::finding::Level;

use super::map::{has_map, map_ui};
use super::measures::PICTURE;
use super::notes::{Gathered, NoteGroup, Wanted, gathered, note_ui};
use super::picture::picture_ui;
use super::shared::{Anchors, Shared};
use crate::look;
use crate::view::{Ask, SheetView, WorkingAt};
use crate::words::map as map_words;
use crate::words::sheet as words;
use crate::working::working_ui;

/// Between two notes.
const BETWEEN: f32 = 8.0;

/// The line that says how many notes are not shown.
const MORE: f32 = 22.0;

/// The words over the picture.
const WORD: f32 = 22.0;

/// Seconds after which a note counts as read.
const READ_S: f64 = 2.0;

/// Where the margin stands beside the sheet.
#[derive(Clone, Copy, Debug)]
pub struct MarginPlace {
    /// The margin.
    pub margin: Rect,
    /// What is seen of the sheet.
    pub sheet: Rect,
    /// The picture stands at its foot.
    pub picture: bool,
    /// It is but a strip: notes and working open over the sheet.
    pub is_strip: bool,
}

/// The width of a margin that opens over the sheet.
const OVER: f32 = 272.0;

/// The margin of a sheet whose lines stand at `anchors`.
pub fn margin_ui(
    ui: &mut Ui,
    place: MarginPlace,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &Anchors,
    asks: &mut Vec<Ask>,
) {
    let listed = view.all_notes || (place.is_strip && view.margin_over);
    let wanted = if listed { Wanted::All } else { Wanted::InSight };
    if !listed {
        view.held_list.clear();
    }
    let Gathered {
        groups: all,
        hidden,
    } = gathered(shared, anchors, wanted, &mut view.note_index);
    bars(ui.painter(), place, &all, look::tokens(ui).ink);
    if place.is_strip {
        strip_ui(ui, place.margin, all.len() + hidden, view);
        if view.margin_over {
            let over = opened_over(place.margin);
            ground_ui(ui, over, "margin");
            all_ui(ui, over, shared, view, &all, asks);
        }
        return;
    }
    let mut notes = place.margin;
    if place.picture {
        notes.max.y -= PICTURE + BETWEEN;
    }
    if view.all_notes {
        all_ui(ui, place.margin, shared, view, &all, asks);
        return;
    }
    notes_ui(ui, (place, notes), shared, view, (&all, hidden), asks);
    if place.picture {
        let picture = place.margin.with_min_y(place.margin.bottom() - PICTURE);
        pictured_ui(ui, picture, shared, view);
    }
}

/// The picture, or the map in its place: while locations are laid out, and where somebody asks for it.
fn pictured_ui(ui: &mut Ui, place: Rect, shared: &Shared<'_>, view: &mut SheetView) {
    if !has_map(shared) {
        return picture_ui(ui, place, shared, view);
    }
    let head = place.with_max_y(place.top() + WORD);
    let below = place.with_min_y(head.bottom());
    let laid_out = view.places.is_some();
    ui.scope_builder(UiBuilder::new().max_rect(head), |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 12.0;
            for (word, map) in [(map_words::PICTURE, false), (map_words::MAP, true)] {
                if look::toggle_word(ui, word, view.map.in_margin == map).clicked() {
                    view.map.in_margin = map;
                }
            }
        });
    });
    if view.map.in_margin || laid_out {
        map_ui(ui, below, shared, view);
    } else {
        picture_ui(ui, below, shared, view);
    }
}

/// The working of the figure that is open, over what stands in the margin.
pub fn working_over_ui(
    ui: &mut Ui,
    place: MarginPlace,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    if view.opened.is_some() {
        let margin = column_of(place);
        let at = working_place(margin, view);
        over_ui(ui, at, shared, view, asks);
    }
}

/// The margin where it stands, or where it opens over the sheet.
#[must_use]
pub fn column_of(place: MarginPlace) -> Rect {
    if place.is_strip {
        opened_over(place.margin)
    } else {
        place.margin
    }
}

/// Where the margin opens over the sheet, left of its strip.
fn opened_over(strip: Rect) -> Rect {
    let right = strip.left() - 4.0;
    Rect::from_min_max(
        pos2((right - OVER).max(8.0), strip.top()),
        pos2(right, strip.bottom()),
    )
}

/// The strip: how many notes there are, as a word that opens them over the sheet.
fn strip_ui(ui: &mut Ui, strip: Rect, count: usize, view: &mut SheetView) {
    ui.scope_builder(UiBuilder::new().max_rect(strip), |ui| {
        let word = look::toggle_word(ui, &count.to_string(), view.margin_over);
        let name = words::notes(count);
        let on = view.margin_over;
        word.widget_info(|| egui::WidgetInfo::selected(egui::Role::Link, true, on, &name));
        let word = word.on_hover_text(&name);
        if word.clicked() {
            view.margin_over = !view.margin_over;
        }
    });
}

/// A ground over what stands below it, through which nothing is pressed.
pub(super) fn ground_ui(ui: &Ui, at: Rect, salt: &str) {
    let t = look::tokens(ui);
    let around = at.expand2(vec2(6.0, 0.0));
    let id = ui.scope_id().with(salt);
    let ground = ui.interact(around, id, Sense::click_and_drag());
    ground.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Group, true, salt));
    ui.painter().rect_filled(around, 0.0, t.paper);
    let stroke = Stroke::new(1.0, t.rule);
    ui.painter()
        .rect_stroke(around, 0.0, stroke, egui::StrokeKind::Inside);
}

/// The bars left of rows that a stop or a check is about.
fn bars(painter: &Painter, place: MarginPlace, all: &[NoteGroup<'_>], ink: Color32) {
    let left = place.sheet.left();
    let painter = painter.with_clip_rect(place.sheet.expand2(vec2(12.0, 0.0)));
    for told in all {
        let Some(at) = told.at else {
            continue;
        };
        let y = Rangef::new(at.min + 2.0, at.max - 2.0);
        match told.first.level {
            Level::Stop => {
                let bar = Rect::from_x_y_ranges(left - 8.0..=left - 4.0, y);
                painter.rect_filled(bar, 0.0, ink);
            }
            Level::Check => {
                for x in [left - 8.0, left - 5.0] {
                    painter.vline(x, y, Stroke::new(1.0, ink));
                }
            }
            Level::Note => {}
        }
    }
}

/// As many notes as there is room for, and how many more there are.
fn notes_ui(
    ui: &mut Ui,
    (place, column): (MarginPlace, Rect),
    shared: &Shared<'_>,
    view: &mut SheetView,
    (all, hidden): (&[NoteGroup<'_>], usize),
    asks: &mut Vec<Ask>,
) {
    let working = view.opened.map(|_| working_place(place.margin, view));
    let placed = placed(ui, (place, column), shared, view, all);
    for (told, rect) in &placed {
        if working.is_some_and(|over| over.expand(2.0).intersects(*rect)) {
            continue;
        }
        let t = look::tokens(ui);
        ui.scope_builder(UiBuilder::new().max_rect(*rect), |ui| {
            ui.set_clip_rect(column.expand2(vec2(8.0, 0.0)).intersect(ui.clip_rect()));
            note_ui(ui, shared, view, told, asks);
        });
        unread_ui(ui, view, told, *rect);
        if let Some(at) = told
            .at
            .filter(|at| place.sheet.y_range().contains(at.center()))
        {
            let from = pos2(place.sheet.right() + 2.0, at.center());
            let to = pos2(rect.left() - 8.0, rect.top() + 8.0);
            look::leader(ui.painter(), from, to, t.hairline);
        }
    }
    // Whoever goes to a note that has no room here finds it among all of them.
    let mut in_sight = all.iter().filter(|told| told.at.is_some());
    let wanted = view.go_to_note;
    if wanted.is_some_and(|beside| in_sight.any(|told| told.speaks_of(beside))) {
        view.all_notes = true;
    }
    let more = all.len() - placed.len() + hidden;
    if more > 0 {
        let line = column.with_min_y(column.bottom() - MORE);
        ui.scope_builder(UiBuilder::new().max_rect(line), |ui| {
            if look::quiet_word(ui, &words::more_notes(more)).clicked() {
                view.all_notes = true;
            }
        });
    }
}

/// Where each note stands. While the pointer is in the margin those that stood there stay where they
/// were, and the place of one that is gone stays free: what the hand aims at doesn't move.
fn placed<'n, 'a>(
    ui: &Ui,
    (place, column): (MarginPlace, Rect),
    shared: &Shared<'_>,
    view: &mut SheetView,
    all: &'n [NoteGroup<'a>],
) -> Vec<(&'n NoteGroup<'a>, Rect)> {
    let pointer = ui.input(|input| input.pointer.latest_pos());
    let holds = pointer.is_some_and(|at| place.margin.contains(at)) && !view.held_notes.is_empty();
    let before = std::mem::take(&mut view.held_notes);
    let floor = column.bottom() - MORE;
    let height = |told: &NoteGroup<'_>| told.height(ui, shared, view, column.width());
    let in_sight = all.iter().filter(|told| told.at.is_some());
    let mut placed: Vec<(&NoteGroup<'a>, Rect)> = Vec::new();
    let mut next = column.top();
    let mut fresh = Vec::new();
    let at = |y: f32, height: f32| {
        let size = vec2(column.width(), height);
        Rect::from_min_size(pos2(column.left(), y), size)
    };
    if holds {
        let mut held: Vec<(&NoteGroup<'a>, f32)> = Vec::new();
        for told in in_sight {
            match before.iter().find(|(key, _)| *key == told.key()) {
                Some((_, y)) => held.push((told, *y)),
                None => fresh.push(told),
            }
        }
        held.sort_by(|a, b| a.1.total_cmp(&b.1));
        for (told, y) in held {
            let y = y.max(next);
            let height = height(told);
            // One that has grown past the foot of the margin is among the others that are not shown.
            if y + height <= floor || told.is_being_answered(view) {
                placed.push((told, at(y, height)));
                next = y + height + BETWEEN;
            }
        }
        // What was below the last of them that is gone stays free, too.
        let lowest = before.iter().map(|(_, y)| y + MORE).fold(next, f32::max);
        next = lowest;
    } else {
        fresh = in_sight.collect();
    }
    for told in fresh {
        let height = height(told);
        if next + height > floor && !told.is_being_answered(view) {
            // The one that is being answered stands in any case.
            if view.answering.is_none() {
                break;
            }
            continue;
        }
        placed.push((told, at(next, height)));
        next += height + BETWEEN;
    }
    make_room(&mut placed, floor, view);
    view.held_notes = placed
        .iter()
        .map(|(told, rect)| (told.key(), rect.top()))
        .collect();
    placed
}

/// Moves the note that is being answered up into the margin where it reaches below its foot; those that
/// it would lie on are not shown.
fn make_room(placed: &mut Vec<(&NoteGroup<'_>, Rect)>, floor: f32, view: &SheetView) {
    let answered = placed
        .iter_mut()
        .find(|(told, _)| told.is_being_answered(view));
    let Some((_, rect)) = answered.filter(|(_, rect)| rect.bottom() > floor) else {
        return;
    };
    *rect = rect.translate(vec2(0.0, floor - rect.bottom()));
    let taken = *rect;
    placed.retain(|(told, rect)| told.is_being_answered(view) || !taken.intersects(*rect));
}

/// A small ring beside a note that nobody had the time to read yet.
fn unread_ui(ui: &Ui, view: &mut SheetView, told: &NoteGroup<'_>, at: Rect) {
    let now = ui.input(|input| input.time);
    let since = *view.seen_notes.entry(told.key()).or_insert(now);
    let left = READ_S - (now - since);
    if left > 0.0 {
        let center = pos2(at.left() - 6.0, at.top() + 8.0);
        let stroke = Stroke::new(1.0, look::tokens(ui).accent);
        ui.painter().circle_stroke(center, 3.0, stroke);
        let wait = std::time::Duration::from_secs_f64(left);
        ui.ctx().request_repaint_after(wait);
    }
}

/// All notes of the job, those of lines out of sight too, in a list of their own until Esc. While the
/// pointer is in it each stays where it was, and the place of one that is gone stays free.
fn all_ui(
    ui: &mut Ui,
    column: Rect,
    shared: &Shared<'_>,
    view: &mut SheetView,
    all: &[NoteGroup<'_>],
    asks: &mut Vec<Ask>,
) {
    ui.scope_builder(UiBuilder::new().max_rect(column), |ui| {
        let word = look::keyed_word(ui, words::NOTES_IN_SIGHT, words::ESC);
        if word.clicked() {
            view.all_notes = false;
            view.margin_over = false;
        }
        let pointer = ui.input(|input| input.pointer.latest_pos());
        let holds = pointer.is_some_and(|at| column.contains(at));
        let before = std::mem::take(&mut view.held_list);
        let before = if holds { before } else { Vec::new() };
        let area = ScrollArea::vertical().id_salt("all notes");
        area.auto_shrink(false).show(ui, |ui| {
            ui.set_width(column.width() - 10.0);
            let keyed = keyed(all);
            let mut fresh: BTreeMap<_, _> = keyed.iter().copied().collect();
            for (key, height) in before {
                let height = match fresh.remove(&key) {
                    Some(told) => listed_ui(ui, shared, view, told, asks),
                    None => {
                        ui.add_space(height);
                        height
                    }
                };
                view.held_list.push((key, height));
            }
            for (key, told) in keyed {
                if fresh.remove(&key).is_some() {
                    let height = listed_ui(ui, shared, view, told, asks);
                    view.held_list.push((key, height));
                }
            }
        });
    });
}

/// Notes by what tells each from the others, and by how many like it stand before it: none is left out.
fn keyed<'n, 'a>(all: &'n [NoteGroup<'a>]) -> Vec<((u64, usize), &'n NoteGroup<'a>)> {
    let mut like = BTreeMap::new();
    let keyed = all.iter().map(|told| {
        let key = told.key();
        let before = like.entry(key).or_insert(0);
        *before += 1;
        ((key, *before), told)
    });
    keyed.collect()
}

/// One of the notes in the list of all, and the height that it takes there.
fn listed_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    told: &NoteGroup<'_>,
    asks: &mut Vec<Ask>,
) -> f32 {
    let top = ui.cursor().top();
    note_ui(ui, shared, view, told, asks);
    ui.add_space(BETWEEN);
    ui.cursor().top() - top
}

/// Where the working lies: its top at its figure, or its bottom on the foot; as high as it was drawn
/// last, and within the margin.
fn working_place(margin: Rect, view: &SheetView) -> Rect {
    let height = view.working_height.clamp(80.0, margin.height());
    let top = match view.opened_at {
        WorkingAt::Beside(y) => y.clamp(margin.top(), margin.bottom() - height),
        WorkingAt::AboveFoot => margin.bottom() - height,
    };
    Rect::from_min_size(pos2(margin.left(), top), vec2(margin.width(), height))
}

/// The working over what stands in the margin.
fn over_ui(ui: &mut Ui, at: Rect, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    ground_ui(ui, at, "working");
    let inner = at.shrink2(vec2(2.0, 4.0));
    let reached = ui
        .scope_builder(UiBuilder::new().max_rect(inner), |ui| {
            let area = ScrollArea::vertical().id_salt("working");
            let area = area.auto_shrink([false, true]).max_height(inner.height());
            let out = area.show(ui, |ui| {
                ui.set_width(inner.width());
                working_ui(ui, shared, view, asks);
            });
            out.content_size.y
        })
        .inner;
    let height = reached + 10.0;
    if (height - view.working_height).abs() > 0.5 {
        view.working_height = height;
        // It is not seen in a place where it doesn't stay.
        ui.ctx().request_discard("working sized");
    }
}
