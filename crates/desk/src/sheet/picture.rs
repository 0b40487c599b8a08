//! The picture in the margin: the section of the hole under the cursor, as the traveler draws it.

use egui::{Rect, Ui, pos2, vec2};
use quillbore_job::show_quantity as show;
use quillbore_paper::drawing::section;
use quillbore_paper::page::Page;

use super::shared::Shared;
use crate::look;
use crate::preview::paint_picture;
use crate::view::SheetView;
use crate::words::plan as words;

/// Below the picture, for what it shows.
const SAID: f32 = 18.0;

/// The picture in a place that it always takes up.
pub(super) fn picture_ui(ui: &mut Ui, place: Rect, shared: &Shared<'_>, view: &SheetView) {
    let t = look::tokens(ui);
    let frame = place.with_max_y(place.bottom() - SAID);
    look::hairline_at(ui.painter(), place.x_range(), place.top(), t.hairline);
    let at = view.grid.cursor().row;
    let figures = shared.results.figures.holes.get(at);
    let row = shared.results.asked.input.rows.get(at);
    let section = figures
        .zip(row)
        .and_then(|(figures, row)| section::of_row(figures, row));
    let (Some(section), Some(row)) = (section, row) else {
        return;
    };
    /// Points on paper become so many on the screen.
    const SCALE: f32 = 1.7;
    let area = frame.shrink2(vec2(2.0, 6.0));
    let size = area.size() / SCALE;
    let mut page = Page::default();
    let (width, height) = (f64::from(size.x), f64::from(size.y));
    section::draw(&mut page, &section, (2.0, 1.0, width - 4.0, height - 2.0));
    let tilt = show::number(section.tilt_deg, 3);
    let said = words::section(&shared.speaker().hole(row.id), &tilt);
    let id = ui.scope_id().with("picture");
    let response = ui.interact(frame, id, egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &said));
    paint_picture(ui.painter(), area, SCALE, &page, t);
    let below = Rect::from_min_max(pos2(place.left(), frame.bottom()), place.max);
    look::clipped(ui, below, &said, look::small(), t.pencil);
}
