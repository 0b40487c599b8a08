//! The page of what the shop has learned: it lies over the sheet until Esc.

mod plots;
mod records;
mod tables;

use egui::{Key, ScrollArea, Ui};
use quillbore_office::learned::{Learned, Teaches};

use crate::look;
use crate::sheet::parts::{pencil, plain_head};
use crate::view::Ask;
use crate::words::learned as words;

/// Widest that the page is laid out.
const WIDEST: f32 = 920.0;

/// The page as the window keeps it.
#[derive(Debug, Default)]
pub struct LearnedPage {
    /// It lies over the sheet.
    pub open: bool,
    /// What it shows; none until the office told it.
    pub told: Option<Learned>,
}

/// Lays the page out.
pub fn learned_ui(ui: &mut Ui, page: &LearnedPage, asks: &mut Vec<Ask>) {
    if ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape)) {
        asks.push(Ask::CloseLearned);
    }
    ScrollArea::vertical()
        .id_salt("learned")
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let width = (ui.available_width() - 36.0).min(WIDEST);
            ui.horizontal(|ui| {
                ui.add_space(18.0);
                ui.vertical(|ui| {
                    ui.set_width(width);
                    page_ui(ui, page, asks);
                });
            });
        });
}

fn page_ui(ui: &mut Ui, page: &LearnedPage, asks: &mut Vec<Ask>) {
    plain_head(ui, words::PAGE);
    ui.horizontal(|ui| {
        if look::word(ui, words::CLOSE).clicked() {
            asks.push(Ask::CloseLearned);
        }
    });
    let Some(told) = &page.told else {
        pencil(ui, words::LOOKING);
        return;
    };
    if told.runs.is_empty() {
        ui.label(words::EMPTY);
        return;
    }
    ui.label(words::summary(told));
    tables::tables_ui(ui, told);
    plots::runs_ui(ui, told, asks);
    plots::errors_ui(ui, told);
    records::records_ui(ui, told, asks);
    ui.add_space(30.0);
}

/// Whether a record is worth a look: far off, or not used.
fn wants_a_look(teaches: &Teaches) -> bool {
    !matches!(teaches, Teaches::Yes { far_off: None, .. })
}
