//! What stands over and under every file before it lands: what it is, where its rows go, what they make of
//! the job.

use egui::{Event, Key, Label, Modifiers, RichText, ScrollArea, Ui};

use super::file::{FromFile, Lands, Reckoned};
use crate::look;
use crate::sheet::parts::pencil;
use crate::sheet::shared::Shared;
use crate::view::{Ask, Decision};
use crate::words::incoming as words;

/// Lines of a comparison that are in sight at once.
const LINES: f32 = 6.0;

/// What is said of the file itself.
pub(crate) fn file_ui(ui: &mut Ui, file: &FromFile) {
    for told in &file.told {
        ui.add(Label::new(told).truncate());
    }
}

/// Where its rows go, whether the file is kept with the job, and what it makes of the job.
pub(crate) fn lands_ui(ui: &mut Ui, shared: &Shared<'_>, file: &mut FromFile) {
    ways_ui(ui, shared, file);
    reckoned_ui(ui, shared, file.reckoned.as_ref());
}

/// Whether Space was pressed; the sign that comes with the key is no text then.
pub(super) fn took_space(ui: &Ui) -> bool {
    ui.input_mut(|input| {
        let is_taken = input.consume_key(Modifiers::NONE, Key::Space);
        if is_taken {
            let is_space = |event: &Event| matches!(event, Event::Text(text) if text == " ");
            input.events.retain(|event| !is_space(event));
        }
        is_taken
    })
}

/// Where its rows go, where rows are there, and whether the file is kept with the job.
fn ways_ui(ui: &mut Ui, shared: &Shared<'_>, file: &mut FromFile) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        let there = shared.job.rows.len();
        if there > 0 {
            pencil(ui, words::ROWS_GO);
            for lands in Lands::ALL {
                let word = words::lands(lands, there);
                if look::toggle_word(ui, &word, file.lands == lands).clicked() {
                    file.lands = lands;
                    file.changed();
                }
            }
        }
        if look::toggle_word(ui, words::KEEP, file.is_kept).clicked() {
            file.is_kept = !file.is_kept;
        }
    });
}

/// What it makes of the job: rows that differ, and the price before and after.
fn reckoned_ui(ui: &mut Ui, shared: &Shared<'_>, reckoned: Option<&Reckoned>) {
    if let Some(comparison) = reckoned.and_then(|reckoned| reckoned.comparison.as_ref()) {
        ui.label(words::compared(comparison));
        let height = ui.text_style_height(&egui::TextStyle::Body) + 2.0;
        ScrollArea::vertical()
            .id_salt("what differs")
            .max_height(LINES * height)
            .show_rows(ui, height, comparison.lines.len(), |ui, shown| {
                let lines = comparison.lines.iter();
                for line in lines.skip(shown.start).take(shown.len()) {
                    ui.add(Label::new(words::difference(line)).truncate());
                }
            });
    }
    // It keeps its place while it is reckoned.
    let said = match reckoned.map(|reckoned| (&reckoned.why_not, &reckoned.weighed)) {
        Some((Some(why_not), _)) => why_not.clone(),
        Some((None, Some(weighed))) => words::weighed(weighed, shared),
        Some((None, None)) | None => words::WEIGHING.to_owned(),
    };
    ui.label(RichText::new(said).font(look::bold()));
}

/// Lands it by a word, which says what it takes, or by Enter on an empty line; attaches it alone, or gives it up.
pub(super) fn land_ui(ui: &mut Ui, (word, can, entered): (&str, bool, bool), asks: &mut Vec<Ask>) {
    let escape = ui.input(|input| input.key_pressed(Key::Escape));
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 24.0;
        let land = ui
            .add_enabled_ui(can, |ui| {
                look::keyed_word(ui, word, words::ENTER).on_disabled_hover_text(words::NOT_YET)
            })
            .inner;
        if can && (entered || land.clicked()) {
            asks.push(Ask::LandTable);
        }
        if look::quiet_word(ui, words::ATTACH_ALONE).clicked() {
            asks.push(Ask::AttachAlone);
        }
        if look::keyed_word(ui, words::TAKE_NOTHING, words::ESC).clicked() || escape {
            asks.push(Ask::GoOn(Decision::Stay));
        }
    });
}
