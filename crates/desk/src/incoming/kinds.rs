//! The kinds of holes of a drawing or a solid, each on a line: a press takes all of a kind, or none.

use egui::{Role, ScrollArea, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use quillbore_intake::drawn::KindView;
use quillbore_job::Column;

use super::file::Choosing;
use crate::look;
use crate::words::incoming as words;

/// The height of a kind's line.
const ROW: f32 = 24.0;

/// Ring, holes, size, depth, end, what else.
const LEFTS: [f32; 6] = [0.0, 20.0, 84.0, 148.0, 226.0, 284.0];

/// The list, so wide and high; lines that are out of sight cost nothing.
pub(super) fn kinds_ui(ui: &mut Ui, (width, height): (f32, f32), choosing: &mut Choosing) {
    let count = choosing.drawn.kinds().count();
    let mut pressed = None;
    head_ui(ui, width, &words::heads(choosing.drawn.unit()));
    ScrollArea::vertical()
        .id_salt("kinds of holes")
        .max_height(height - ROW)
        .min_scrolled_height(height - ROW)
        .show_rows(ui, ROW, count, |ui, shown| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = 0.0;
            let kinds = choosing.drawn.kinds().enumerate();
            for (at, kind) in kinds.skip(shown.start).take(shown.len()) {
                if kind_ui(ui, choosing, &kind, at == choosing.marked).clicked() {
                    pressed = Some((at, kind.taken == 0));
                }
            }
        });
    if let Some((at, is_taken)) = pressed {
        choosing.marked = at;
        choosing.drawn.choose_kind(at, is_taken);
        choosing.file.changed();
    }
}

fn head_ui(ui: &mut Ui, width: f32, heads: &[String]) {
    let (place, _) = ui.allocate_exact_size(vec2(width, ROW), Sense::hover());
    let pencil = look::tokens(ui).pencil;
    for (at, head) in heads.iter().enumerate() {
        let cell = cell(place, at + 1);
        look::clipped(ui, cell, head, look::small(), pencil);
    }
}

fn kind_ui(
    ui: &mut Ui,
    choosing: &Choosing,
    kind: &KindView<'_>,
    is_marked: bool,
) -> egui::Response {
    let t = look::tokens(ui);
    let (place, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::click());
    let (cells, doubts) = choosing.drawn.cells(kind.first);
    let text = |column: Column| cells.get(&column).map_or("", String::as_str);
    let others = [Column::Angle, Column::Surface, Column::Exit, Column::Recess];
    let mut rest: Vec<String> = others
        .iter()
        .filter_map(|column| Some(words::cell(*column, cells.get(column)?)))
        .collect();
    rest.extend(cells.get(&Column::Note).cloned());
    rest.extend(doubts);
    let all = kind.holes.len();
    let name = words::kind(kind.taken, all, text(Column::Size), text(Column::Depth));
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, kind.taken > 0, &name));
    look::ground_under(ui, place, is_marked, &response);
    let ring = pos2(place.left() + 10.0, place.center().y);
    ui.painter()
        .circle_stroke(ring, 5.0, Stroke::new(1.0, t.ink));
    if kind.taken > 0 {
        let filled = if kind.taken == all { 5.0 } else { 2.5 };
        ui.painter().circle_filled(ring, filled, t.ink);
    }
    let ink = if kind.taken > 0 { t.ink } else { t.pencil };
    let holes = words::of_all(kind.taken, all);
    let said = [
        holes.as_str(),
        text(Column::Size),
        text(Column::Depth),
        text(Column::End),
        &rest.join("; "),
    ];
    for (at, said) in said.into_iter().enumerate() {
        look::clipped(ui, cell(place, at + 1), said, look::body(), ink);
    }
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}

fn cell(place: egui::Rect, at: usize) -> egui::Rect {
    let left = place.left() + LEFTS[at];
    let right = LEFTS
        .get(at + 1)
        .map_or(place.right(), |next| place.left() + next - 6.0);
    egui::Rect::from_min_max(pos2(left, place.top()), pos2(right, place.bottom()))
}
