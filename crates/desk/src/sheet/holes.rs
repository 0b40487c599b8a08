//! The block of the holes: the table, the words under it, places and reports.

mod asks;
mod columns;
mod model;

use egui::{Align2, Key, Rangef, Rect, Ui, pos2};
use quillbore_job::Column;
use quillbore_job::results::Beside;

use super::parts::block_head;
use super::places::{places_ui, text_of};
use super::reports::reports_ui;
use super::shared::{Anchors, Shared};
use crate::actions::Action;
use crate::grid::{GridModel as _, GridShown, HEAD_HEIGHT, ROW_HEIGHT, commit, grid_ui, size};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::{commands, holes as words};
use asks::translate;
use columns::{Shown, Which, shown};
use model::Holes;

/// Rows of the table that always have their place.
const LEAST_ROWS: usize = 10;

/// Rows of the table that are in sight at most.
const MOST_ROWS: usize = 20;

/// A sheet wider than this has room for the note of a row.
const WITH_NOTE: f32 = 800.0;

/// The block of the holes.
pub fn holes_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    if !block_head(ui, words::HEAD, view, &shared.whole.holes) {
        return;
    }
    let is_wide = ui.available_width() > WITH_NOTE;
    let model = Holes::new(shared, shown(which(view, is_wide)));
    let mut wanted = Vec::new();
    let rows = (model.row_count() + 1).clamp(LEAST_ROWS, MOST_ROWS);
    let size = size(&model, ui.available_width(), rows);
    let place = Rect::from_min_size(ui.cursor().min, size);
    let table = grid_ui(ui, "holes", &model, &mut view.grid, size, &mut wanted);
    for (row, y) in &table.rows {
        if let Some(row) = shared.job.rows.get(*row) {
            let at = Rangef::new(y - ROW_HEIGHT / 2.0, y + ROW_HEIGHT / 2.0);
            anchors.put(Beside::Row(row.id, None), at);
        }
    }
    link_to_map(ui, place, &table.rows, shared, view);
    if model.row_count() == 0 {
        empty_ui(ui, place);
    }
    for want in wanted {
        translate(want, &model, (shared, &table), view, asks);
    }
    menu_ui(ui, shared, view, asks);
    if table.menu.is_some() {
        // It opens in the next frame: the press that asks for it is none elsewhere.
        view.row_menu = table.menu;
        ui.request_repaint();
    }
    ui.horizontal(|ui| {
        ui.set_min_height(20.0);
        words_ui(ui, shared, view);
    });
    places_ui(ui, shared, view, asks);
    reports_ui(ui, shared.job, view);
}

/// Tells the map which row the pointer is on, and marks the row whose hole it is on there.
fn link_to_map(
    ui: &Ui,
    place: Rect,
    rows: &[(usize, f32)],
    shared: &Shared<'_>,
    view: &mut SheetView,
) {
    let at = ui.input(|input| input.pointer.hover_pos());
    let at = at.filter(|at| place.contains(*at) && ui.clip_rect().contains(*at));
    let on = at.and_then(|at| {
        let mut rows = rows.iter();
        let (row, _) = rows.find(|(_, y)| (y - at.y).abs() <= ROW_HEIGHT / 2.0)?;
        shared.job.rows.get(*row)
    });
    view.map.pointed = on.map(|row| row.id);
    for (row, y) in rows {
        let row = shared.job.rows.get(*row).map(|row| row.id);
        if row.is_some() && row == view.map.hovered {
            let at = Rangef::new(y - ROW_HEIGHT / 2.0, y + ROW_HEIGHT / 2.0);
            let line = Rect::from_x_y_ranges(place.x_range(), at);
            let stroke = egui::Stroke::new(2.0, look::tokens(ui).accent);
            let kind = egui::StrokeKind::Inside;
            ui.painter().rect_stroke(line, 0.0, stroke, kind);
        }
    }
}

/// The column of the hole table that one is at, where it is typed on.
pub(super) fn column_here(view: &SheetView) -> Option<Column> {
    let all = shown(which(view, true));
    match all.get(view.grid.cursor().col)? {
        Shown::Typed(column) => Some(*column),
        Shown::Made(_) => None,
    }
}

const fn which(view: &SheetView, is_wide: bool) -> Which {
    match (view.all_columns, is_wide) {
        (true, _) => Which::All,
        (false, true) => Which::WithNote,
        (false, false) => Which::Usual,
    }
}

/// Where a column stands in the table; the first one where it is not shown.
#[must_use]
pub fn column_at(column: Column, view: &SheetView) -> usize {
    let all = shown(which(view, true));
    let at = all.iter().position(|shown| *shown == Shown::Typed(column));
    at.unwrap_or(0)
}

/// Puts what is being typed in a cell in its place, as leaving the cell would do.
pub fn commit_cells(shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    // The note is the last of the columns: no other stands elsewhere without it.
    let model = Holes::new(shared, shown(which(view, true)));
    let mut wanted = Vec::new();
    commit(&model, &mut view.grid, &mut wanted);
    let nowhere = GridShown {
        rows: Vec::new(),
        menu: None,
    };
    for want in wanted {
        translate(want, &model, (shared, &nowhere), view, asks);
    }
}

/// What an empty table says: how holes come into it.
fn empty_ui(ui: &Ui, place: Rect) {
    let at = pos2(
        place.left() + 8.0,
        place.top() + HEAD_HEIGHT + 2.0 * ROW_HEIGHT,
    );
    let pencil = look::tokens(ui).pencil;
    let painter = ui.painter();
    painter.text(at, Align2::LEFT_TOP, words::EMPTY, look::body(), pencil);
}

/// What can be done to the row one is at, where somebody asked for it, until a press elsewhere or Esc.
fn menu_ui(ui: &Ui, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some(at) = view.row_menu else {
        return;
    };
    let mut done = false;
    let id = ui.scope_id().with("row menu");
    let shown = look::lies_over(ui, id, at, 8, |ui| {
        for (word, keys, key) in [
            (words::INSERT_ROW, words::INSERT_KEY, Key::Insert),
            (words::DELETE_ROW, words::DELETE_KEY, Key::Delete),
        ] {
            if look::keyed_word(ui, word, keys).clicked() {
                view.grid.press_later(key);
                done = true;
            }
        }
        if let Some(row) = shared.job.rows.get(view.grid.cursor().row) {
            let word = words::places(row.places.len(), &shared.speaker().hole(row.id));
            if look::word(ui, &word).clicked() {
                view.places = Some((row.id, text_of(row)));
                done = true;
            }
        }
        let action = Action::NextNote;
        let keys = action.told_keys(ui.ctx());
        if look::keyed_word(ui, commands::action(action), &keys).clicked() {
            asks.push(Ask::Do(action));
            done = true;
        }
    });
    let pressed_elsewhere = shown.response.clicked_elsewhere();
    if done || pressed_elsewhere {
        view.row_menu = None;
    }
}

/// The words under the table: more columns, rows in and out, the places of the row one is at.
fn words_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView) {
    if look::toggle_word(ui, words::ALL_COLUMNS, view.all_columns).clicked() {
        view.all_columns = !view.all_columns;
    }
    for (word, key) in [
        (words::INSERT_ROW, Key::Insert),
        (words::DELETE_ROW, Key::Delete),
    ] {
        ui.add_space(8.0);
        if look::quiet_word(ui, word).clicked() {
            view.grid.press_later(key);
        }
    }
    ui.add_space(8.0);
    let Some(row) = shared.job.rows.get(view.grid.cursor().row) else {
        return;
    };
    let word = words::places(row.places.len(), &shared.speaker().hole(row.id));
    if look::quiet_word(ui, &word).clicked() {
        view.places = match view.places {
            Some((open, _)) if open == row.id => None,
            _ => Some((row.id, text_of(row))),
        };
    }
}
