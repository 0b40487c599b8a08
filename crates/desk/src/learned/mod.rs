//! The page of what the shop has learned: it lies over the sheet until Esc.

mod chart;
mod plots;
mod records;
mod tables;

use egui::{Key, ScrollArea, Ui};
use quillbore_job::Form;
use quillbore_job::taught::Why;
use quillbore_office::learned::{KindOfWork, Learned, Run, Teaches};

use crate::look;
use crate::sheet::parts::{pencil, plain_head};
use crate::view::Ask;
use crate::words::learned as words;

/// Widest that the page is laid out: as wide as the sheet.
const WIDEST: f32 = 776.0;

/// The page as the window keeps it.
#[derive(Debug, Default)]
pub struct LearnedPage {
    /// It lies over the sheet.
    pub open: bool,
    /// What it shows; none until the office told it.
    pub told: Option<Learned>,
    /// It was opened just now, and is shown from its top.
    pub is_fresh: bool,
    /// How numbers and days are written.
    form: Form,
    /// The kind of work that its charts show alone.
    of: Option<KindOfWork>,
    /// The run that is spoken of under the charts.
    at: Option<usize>,
}

/// Lays the page out.
pub fn learned_ui(ui: &mut Ui, page: &mut LearnedPage, form: Form, asks: &mut Vec<Ask>) {
    page.form = form;
    if ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape)) {
        asks.push(Ask::CloseLearned);
    }
    let mut scroll = ScrollArea::vertical().id_salt("learned");
    if page.is_fresh {
        scroll = scroll.vertical_scroll_offset(0.0);
    }
    scroll.auto_shrink([false, false]).show(ui, |ui| {
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

fn page_ui(ui: &mut Ui, page: &mut LearnedPage, asks: &mut Vec<Ask>) {
    plain_head(ui, words::PAGE);
    ui.horizontal(|ui| {
        let close = look::keyed_word(ui, words::CLOSE, words::ESC);
        if std::mem::take(&mut page.is_fresh) {
            close.request_focus();
        }
        if close.clicked() {
            asks.push(Ask::CloseLearned);
        }
    });
    // It is taken out while it is drawn, since what is chosen on the page is written beside it.
    let Some(told) = page.told.take() else {
        pencil(ui, words::LOOKING);
        return;
    };
    if told.runs.is_empty() {
        ui.label(words::EMPTY);
    } else {
        ui.label(words::summary(&told));
        tables::kinds_ui(ui, &told, page);
        plots::runs_ui(ui, &told, page, asks);
        records::records_ui(ui, &told, page.form, asks);
        tables::others_ui(ui, &told, page.form);
        plots::errors_ui(ui, &told, page.form);
    }
    page.told = Some(told);
    ui.add_space(30.0);
}

/// Whether a record is worth a look: far off, not used, or with a figure that must be a mistake.
fn wants_a_look(run: &Run) -> bool {
    !matches!(run.teaches, Teaches::Yes { far_off: None, .. })
        || run.without.iter().any(Why::is_mistake)
}
