//! What stands in the margin of the shop's page: where another desk typed something else, and what can't
//! be used, each with the way to its place.

use egui::{Rect, ScrollArea, Ui, UiBuilder};
use quillbore_calc::finding::Level;
use quillbore_job::shop::sheet::ShopNote;
use quillbore_job::words::shop_sheet as words;

use super::{At, Part, ShopAsk, ShopPage};
use crate::grid::GridAt;
use crate::look;
use crate::words::shop as said;

/// The margin of the page.
pub(super) fn notes_ui(ui: &mut Ui, place: Rect, page: &mut ShopPage, asks: &mut Vec<ShopAsk>) {
    let notes = page.notes();
    if notes.is_empty() && page.clashes.is_empty() {
        return;
    }
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        let scroll = ScrollArea::vertical().id_salt("shop notes");
        scroll.auto_shrink([false, false]).show(ui, |ui| {
            ui.set_width(place.width());
            clashes_ui(ui, page, asks);
            for note in notes.iter() {
                ui.horizontal_wrapped(|ui| {
                    look::level_word(ui, Level::Check, said::NOT_USED);
                    ui.label(egui::RichText::new(note.to_string()).font(look::small()));
                    if look::quiet_word(ui, said::GO_THERE).clicked() {
                        go_to(note, page);
                    }
                });
                ui.add_space(8.0);
            }
        });
    });
}

fn clashes_ui(ui: &mut Ui, page: &ShopPage, asks: &mut Vec<ShopAsk>) {
    for (at, met) in page.clashes.iter().enumerate() {
        let clash = &met.clash;
        ui.horizontal_wrapped(|ui| {
            look::level_word(ui, Level::Check, said::TWO_DESKS);
            let told = words::clash(page.history.now(), clash);
            ui.label(egui::RichText::new(told).font(look::small()));
            if clash.take_theirs().is_some() && look::word(ui, said::TAKE_THEIRS).clicked() {
                asks.push(ShopAsk::TakeTheirs(at));
            }
            if look::word(ui, said::KEEP_OURS).clicked() {
                asks.push(ShopAsk::KeepOurs(at));
            }
        });
        ui.add_space(8.0);
    }
}

/// Goes to what a note speaks of.
fn go_to(note: &ShopNote, page: &mut ShopPage) {
    if let Some(line) = note.line {
        page.focus = Some(At::Line(line));
        return;
    }
    let Some((list, id)) = note.row else { return };
    let rows = page.rows(list);
    let is_it =
        |row: &quillbore_job::shop::sheet::ShownRow| row.own.as_ref().map(|row| row.id) == id;
    let row = rows.iter().position(is_it).unwrap_or(0);
    let columns = list.columns();
    let col = note
        .column
        .and_then(|column| columns.iter().position(|known| *known == column));
    page.go = Some(Part::List(list));
    let view = page.grids.entry(list).or_default();
    view.go_to(GridAt::new(row, col.unwrap_or(0)));
}
