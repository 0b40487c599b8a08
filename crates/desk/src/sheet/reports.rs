//! Where rows of the hole table came from: a quiet line for each table, laid out by a click.

use egui::{Label, RichText, ScrollArea, Sense, TextStyle, Ui};
use quillbore_job::Job;
use quillbore_job::report::Report;
use quillbore_job::words::reports;

use super::parts::{pencil, toggle};
use crate::look;
use crate::view::SheetView;

/// What became of the tables that came from elsewhere, one line each.
pub fn reports_ui(ui: &mut Ui, job: &Job, view: &mut SheetView) {
    for (at, report) in job.reports.iter().enumerate() {
        let summary = reports::summary(report);
        let quiet = RichText::new(&summary).font(look::small());
        let quiet = quiet.color(look::tokens(ui).pencil);
        let line = ui
            .add(Label::new(quiet).truncate().sense(Sense::click()))
            .on_hover_cursor(egui::CursorIcon::PointingHand);
        line.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &summary));
        if line.clicked() {
            toggle(&mut view.open_reports, at);
        }
        if view.open_reports.contains(&at) {
            report_ui(ui, at, report);
        }
    }
}

/// A report laid out: what holds for the whole, then the lines that are told.
fn report_ui(ui: &mut Ui, at: usize, report: &Report) {
    ui.indent(("report", at), |ui| {
        if let Some(stamp) = report.from.file().and_then(|file| file.stamp) {
            pencil(ui, &reports::stamp(&stamp));
        }
        for said in &report.whole {
            pencil(ui, said);
        }
        let height = ui.text_style_height(&TextStyle::Body);
        // Only the lines in sight are drawn: there may be thousands.
        ScrollArea::vertical()
            .id_salt(("report", at))
            .max_height(150.0)
            .show_rows(ui, height, report.lines.len(), |ui, shown| {
                for line in report.lines.iter().skip(shown.start).take(shown.len()) {
                    ui.add(Label::new(reports::line(line)).truncate());
                }
            });
    });
}
