//! The shelf at the left: the jobs of its folder, found as one types.

use egui::{Label, RichText, ScrollArea, Sense, Ui};

use super::pencil;
use crate::look;
use crate::view::{Ask, View};

/// The list of jobs.
pub fn shelf_ui(ui: &mut Ui, open: Option<&std::path::Path>, view: &mut View, asks: &mut Vec<Ask>) {
    let t = look::tokens(ui);
    ui.add_space(8.0);
    ui.label(look::spaced_caps("Shelf", t.ink));
    ui.horizontal(|ui| {
        pencil(ui, "find");
        let width = ui.available_width() - 4.0;
        let response = look::line_edit(ui, &mut view.find, width);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, "find on the shelf")
        });
    });
    ui.add_space(4.0);
    let wanted = view.find.to_lowercase();
    ScrollArea::vertical()
        .id_salt("shelf")
        .auto_shrink([false, false])
        .show(ui, |ui| {
            for job in &view.shelf {
                let says = match &job.says {
                    Ok(says) | Err(says) => says.as_str(),
                };
                let hay = format!("{} {says}", job.number).to_lowercase();
                if !wanted.split_whitespace().all(|word| hay.contains(word)) {
                    continue;
                }
                let here = open == Some(job.path.as_path());
                let color = if here { t.accent } else { t.ink };
                let number = RichText::new(&job.number).font(look::bold()).color(color);
                let line = ui
                    .add(Label::new(number).sense(Sense::click()))
                    .on_hover_cursor(egui::CursorIcon::PointingHand);
                line.widget_info(|| {
                    egui::WidgetInfo::labeled(egui::Role::Link, true, format!("job {}", job.number))
                });
                let said = RichText::new(says).font(look::small()).color(t.pencil);
                let below = ui.add(Label::new(said).truncate().sense(Sense::click()));
                if line.clicked() || below.clicked() {
                    asks.push(Ask::Open(job.path.clone()));
                }
                ui.add_space(4.0);
            }
        });
}
