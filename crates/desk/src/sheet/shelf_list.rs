//! The shelf at the left: the jobs of its folder, found as one types or scans.

use egui::{Key, Label, RichText, ScrollArea, Sense, Ui};

use super::pencil;
use crate::look;
use crate::shelf_list::ShelfList;
use crate::view::Ask;

/// The height of a job's two lines.
const LINE: f32 = 38.0;

/// The list of jobs; only those in sight are laid out.
pub fn shelf_ui(
    ui: &mut Ui,
    open: Option<&std::path::Path>,
    shelf: &std::path::Path,
    list: &mut ShelfList,
    find_focus: &mut bool,
    recent: &[std::path::PathBuf],
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    ui.add_space(8.0);
    ui.label(look::spaced_caps("Shelf", t.ink));
    ui.horizontal(|ui| {
        pencil(ui, "find");
        let width = ui.available_width() - 4.0;
        let response = look::line_edit(ui, &mut list.find, width);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, "find on the shelf")
        });
        if std::mem::take(find_focus) {
            response.request_focus();
        }
        if response.lost_focus()
            && ui.input(|input| input.key_pressed(Key::Enter))
            && !list.find.trim().is_empty()
            && let Some(path) = list.meant()
        {
            list.find.clear();
            asks.push(Ask::Open(path));
        }
    });
    let said = match (list.notice.as_str(), list.busy) {
        ("", true) => "looking through the folder",
        (notice, _) => notice,
    };
    if !said.is_empty() {
        ui.label(RichText::new(said).font(look::small()).color(t.accent));
    }
    if list.find.is_empty() && recent.len() > 1 {
        ui.horizontal_wrapped(|ui| {
            pencil(ui, "lately");
            for path in recent {
                let number = path.file_stem().unwrap_or_default().to_string_lossy();
                let word = look::quiet_word(ui, &number);
                let named = format!("lately {number}");
                word.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &named));
                if word.clicked() {
                    asks.push(Ask::Open(path.clone()));
                }
            }
        });
    }
    ui.add_space(4.0);
    let found = list.found().to_vec();
    let lines = std::sync::Arc::clone(&list.index);
    ScrollArea::vertical()
        .id_salt("shelf")
        .auto_shrink([false, false])
        .show_rows(
            ui,
            LINE - ui.spacing().item_spacing.y,
            found.len(),
            |ui, range| {
                for at in found.get(range).unwrap_or_default() {
                    let Some(job) = lines.lines.get(*at as usize) else {
                        continue;
                    };
                    let path = shelf.join(&job.file);
                    let (says, state) = match &job.says {
                        Ok(says) => (
                            [says.customer.as_str(), says.part.as_str()].join(" "),
                            says.state.as_str(),
                        ),
                        Err(why) => (why.clone(), "can't be read"),
                    };
                    let here = open == Some(path.as_path());
                    ui.allocate_ui(egui::vec2(ui.available_width(), LINE - 4.0), |ui| {
                        ui.set_height(LINE - 6.0);
                        ui.spacing_mut().item_spacing.y = 0.0;
                        ui.horizontal(|ui| {
                            let color = if here { t.accent } else { t.ink };
                            let number = RichText::new(&job.number).font(look::bold()).color(color);
                            let line = ui
                                .add(Label::new(number).sense(Sense::click()))
                                .on_hover_cursor(egui::CursorIcon::PointingHand);
                            let named = format!("job {}", job.number);
                            line.widget_info(|| {
                                egui::WidgetInfo::labeled(egui::Role::Link, true, &named)
                            });
                            pencil(ui, state);
                            if line.clicked() {
                                asks.push(Ask::Open(path.clone()));
                            }
                        });
                        let said = RichText::new(&says).font(look::small()).color(t.pencil);
                        let below = ui.add(Label::new(said).truncate().sense(Sense::click()));
                        if job.says.is_err() {
                            below.clone().on_hover_text(&says);
                        }
                        if below.clicked() {
                            asks.push(Ask::Open(path));
                        }
                    });
                }
            },
        );
}
