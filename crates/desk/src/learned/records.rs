//! Records that are worth a look: far off what is expected of them, or teaching nothing.

use egui::Ui;
use quillbore_job::{Form, Line};
use quillbore_office::learned::{Learned, Run};

use super::wants_a_look;
use crate::look;
use crate::sheet::parts::pencil;
use crate::view::Ask;
use crate::words::learned as words;

/// Most records that are listed, the newest of them.
const MOST: usize = 40;

/// Each with the words that open its job at the record.
pub(super) fn records_ui(ui: &mut Ui, told: &Learned, form: Form, asks: &mut Vec<Ask>) {
    ui.add_space(12.0);
    let newest = told.runs.iter().rev();
    let worth: Vec<&Run> = newest.filter(|run| wants_a_look(run)).collect();
    ui.label(words::worth_a_look(worth.len()));
    for run in worth.iter().take(MOST) {
        ui.horizontal_wrapped(|ui| {
            let named = words::record(run, form);
            let look = look::word(ui, words::LOOK);
            look.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::Link, true, words::look_at(&named))
            });
            if look.clicked() {
                asks.push(Ask::OpenRecord(run.job.clone(), run.slip, Line::Mark));
            }
            ui.add_space(6.0);
            if matches!(run.teaches, quillbore_office::learned::Teaches::Yes { .. }) {
                let out = look::word(ui, words::LEAVE_OUT);
                out.widget_info(|| {
                    egui::WidgetInfo::labeled(egui::Role::Link, true, words::leave_out(&named))
                });
                if out.clicked() {
                    asks.push(Ask::OpenRecord(run.job.clone(), run.slip, Line::LeftOut));
                }
                ui.add_space(6.0);
            }
            ui.label(named);
            pencil(ui, &words::why_look(run, form));
        });
    }
    if worth.len() > MOST {
        pencil(ui, &words::and_more(worth.len() - MOST));
    }
}
