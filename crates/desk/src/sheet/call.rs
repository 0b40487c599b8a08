//! The questions of a call about a broken tool, in the order in which they are asked; the foot answers
//! while one types.

use egui::{Id, Key, Rect, Response, Ui, UiBuilder, pos2, vec2};
use quillbore_job::quick::{Call, CallField, Quick};
use quillbore_job::words::call as job_words;

use super::field::{label_ui, single_edit};
use super::measures::{FIELD, Measures};
use super::parts::pencil;
use super::shared::Shared;
use crate::look;
use crate::words::quick as words;

/// The questions with their tracks, row by row.
const ROWS: [&[(CallField, u8)]; 3] = [
    &[
        (CallField::Tool, 4),
        (CallField::Material, 4),
        (CallField::SizeX, 1),
        (CallField::SizeY, 1),
        (CallField::SizeZ, 1),
        (CallField::Mass, 1),
    ],
    &[
        (CallField::End, 2),
        (CallField::Below, 2),
        (CallField::Left, 2),
        (CallField::Tried, 4),
        (CallField::Value, 2),
    ],
    &[
        (CallField::Due, 2),
        (CallField::ComesIn, 3),
        (CallField::Customer, 4),
        (CallField::Contact, 3),
    ],
];

/// Where the keyboard is among the questions.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Keyboard {
    /// The question that takes it next.
    pub(super) goes_to: Option<CallField>,
    /// One of them has it.
    pub(super) is_here: bool,
}

/// What ends the questions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum CallEnd {
    /// They become the job.
    Make,
    /// Holes are asked for instead.
    Holes,
}

/// The questions where the `Ui` stands; Enter goes on to the next, and from the last one makes the job.
pub(super) fn call_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    call: &mut Call,
    keyboard: &mut Keyboard,
) -> Option<CallEnd> {
    let offered = Quick::is_offered(shared.job);
    let width = ui.available_width();
    let origin = ui.cursor().min;
    let mut end = None;
    // Whoever is gone to begins with the next frame: what was typed in this one belongs to the last.
    let goes_to = keyboard.goes_to.take();
    keyboard.is_here = false;
    for (row, fields) in ROWS.iter().enumerate() {
        let top = origin.y + row as f32 * FIELD;
        let mut track = 0;
        for &(field, tracks) in *fields {
            let left = origin.x + Measures::track_left(width, track);
            let size = vec2(Measures::tracks(width, tracks), FIELD - 1.0);
            let place = Rect::from_min_size(pos2(left, top), size);
            ui.add_enabled_ui(offered, |ui| {
                let response = question_ui(ui, place, field, shared, call.text_mut(field));
                if goes_to == Some(field) {
                    response.request_focus();
                }
                keyboard.is_here |= response.has_focus();
                if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
                    keyboard.goes_to = after(field);
                    if keyboard.goes_to.is_none() {
                        end = Some(CallEnd::Make);
                    }
                }
            });
            track += tracks;
        }
    }
    let below = origin.y + ROWS.len() as f32 * FIELD;
    let all = Rect::from_min_max(origin, pos2(origin.x + width, below + 20.0));
    ui.scope_builder(UiBuilder::new().max_rect(all.with_min_y(below)), |ui| {
        ui.horizontal(|ui| {
            pencil(
                ui,
                if offered {
                    words::CALL_HOW
                } else {
                    words::MADE
                },
            );
            let word = |ui: &mut Ui, text| {
                let word = ui.add_enabled_ui(offered, |ui| look::quiet_word(ui, text));
                word.inner.clicked()
            };
            if word(ui, words::MAKE) {
                end = Some(CallEnd::Make);
            }
            if word(ui, words::HOLES) {
                end = Some(CallEnd::Holes);
            }
        });
    });
    ui.advance_cursor_after_rect(all);
    end.filter(|_| offered)
}

/// The question after one; none after the last.
fn after(field: CallField) -> Option<CallField> {
    let at = CallField::ALL.iter().position(|other| *other == field)?;
    CallField::ALL.get(at + 1).copied()
}

fn id(field: CallField) -> Id {
    Id::unique(("call", field.key()))
}

/// A question in its place.
fn question_ui(
    ui: &mut Ui,
    place: Rect,
    field: CallField,
    shared: &Shared<'_>,
    text: &mut String,
) -> Response {
    let currency = &shared.shop.tables.rates.currency;
    let at = label_ui(
        ui,
        place,
        &words::call_label(field, shared.job.unit, currency),
    );
    let response = single_edit(ui, at, id(field), text);
    let named = words::call_named(job_words::field(field));
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &named));
    look::line_under(ui, &response);
    response
}
