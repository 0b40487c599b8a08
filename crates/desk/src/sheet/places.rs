//! The places of a row, as lines of text to type, paste and copy.

use std::fmt::Write as _;

use egui::{Frame, Margin, TextEdit, Ui};
use quillbore_job::places::{AxisPoints, PlacesGiven, read_places, split_lines};
use quillbore_job::{Edit, Row, Unit};

use super::parts::pencil;
use super::shared::Shared;
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::desk::with_hint;
use crate::words::holes as words;

/// A row's places as text with a head, one a line; always in the unit that its head names.
#[must_use]
pub fn text_of(row: &Row) -> String {
    let mut text = words::PLACES_HEAD.to_owned();
    for place in row.places.iter() {
        let [x, y, z] = place.point_mm;
        let [i, j, k] = place.axis;
        // Writing to a String can't fail.
        let _ = write!(text, "\n{}\t{x}\t{y}\t{z}\t{i}\t{j}\t{k}", place.number);
    }
    text
}

/// The places that are laid out under the table.
pub fn places_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some((id, text)) = &mut view.places else {
        return;
    };
    let Some(row) = shared.job.row(*id) else {
        view.places = None;
        return;
    };
    pencil(ui, words::PLACES_HINT);
    let response = egui::ScrollArea::vertical()
        .id_salt("places")
        .max_height(150.0)
        .show(ui, |ui| {
            ui.add(
                TextEdit::multiline(text)
                    .frame(Frame::NONE)
                    .margin(Margin::symmetric(0, 1))
                    .desired_rows(3)
                    .desired_width(f32::INFINITY),
            )
        })
        .inner;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, words::PLACES));
    look::line_under(ui, &response);
    let given = PlacesGiven {
        unit: Unit::Mm,
        vector: AxisPoints::IntoWork,
        axis: [0.0, 0.0, -1.0],
        first_number: 1,
    };
    let mut done = false;
    match read_places(&split_lines(text), &given) {
        Ok(read) => {
            for line in read.refused.iter().take(3) {
                ui.label(words::place_refused(line.line, &line.why));
            }
            let word = words::give_places(read.places.len(), &shared.speaker().hole(row.id));
            let all_read = read.refused.is_empty();
            if all_read && read.places != *row.places && look::word(ui, &word).clicked() {
                asks.push(Ask::Edit(Edit::SetPlaces {
                    row: row.id,
                    places: read.places,
                }));
                done = true;
            }
        }
        Err(why) => {
            ui.label(with_hint(&why.to_string(), why.hint()));
        }
    }
    if look::quiet_word(ui, words::FOLD_PLACES).clicked() {
        done = true;
    }
    if done {
        view.places = None;
    }
}
