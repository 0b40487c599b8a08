//! The block of the holes: the table, the words under it, places and reports.

mod asks;
mod columns;
mod model;

use egui::{Key, Ui};
use quillbore_calc::{Figure, RowId};
use quillbore_job::results::Beside;

use super::parts::plain_head;
use super::places::{places_ui, text_of};
use super::reports::reports_ui;
use super::shared::{Anchors, Shared};
use crate::grid::{GridModel as _, grid_ui};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::holes as words;
use asks::translate;
use columns::shown;
use model::Holes;

/// The block of the holes.
pub fn holes_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    plain_head(ui, words::HEAD);
    anchors.table = Some(ui.cursor().top() + 10.0);
    let model = Holes::new(shared, shown(view.all_columns));
    let mut wanted = Vec::new();
    let height = (model.row_count() as f32 + 1.0)
        .mul_add(21.0, 46.0)
        .clamp(120.0, 420.0);
    let table = grid_ui(ui, "holes", &model, &mut view.grid, height, &mut wanted);
    for (row, y) in table.rows {
        if let Some(row) = shared.job.rows.get(row) {
            anchors.put(Beside::Row(row.id, None), y);
            if view
                .opened
                .is_some_and(|figure| row_of(figure) == Some(row.id))
            {
                anchors.opened = Some(y);
            }
        }
    }
    for want in wanted {
        translate(want, &model, shared, view, asks);
    }
    ui.horizontal(|ui| words_ui(ui, shared, view));
    places_ui(ui, shared, view, asks);
    reports_ui(ui, shared.job, view);
}

/// The words under the table: more columns, rows in and out, the places of the row one is at.
fn words_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView) {
    if look::quiet_word(ui, words::columns(view.all_columns)).clicked() {
        view.all_columns = !view.all_columns;
    }
    for (word, key) in [
        (words::INSERT_ROW, Key::Insert),
        (words::TAKE_ROW_OUT, Key::Delete),
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

/// The row that a figure is of.
const fn row_of(figure: Figure) -> Option<RowId> {
    match figure {
        Figure::Electrode(row)
        | Figure::Gap(row)
        | Figure::Feed(row)
        | Figure::HoleMinutes(row)
        | Figure::Wear(row)
        | Figure::TargetDepth(row)
        | Figure::ReachOne(row)
        | Figure::ElectrodesPerHole(row) => Some(row),
        _ => None,
    }
}
