//! The few strokes everything is drawn with: hairlines, leaders, underlines, words.

use std::sync::Arc;

use egui::{
    Align, Color32, CursorIcon, FontId, Frame, Galley, Margin, Painter, Pos2, Rangef, Response,
    Role, Sense, Shape, Stroke, TextEdit, Ui, WidgetInfo,
    text::{LayoutJob, TextFormat, TextWrapping},
    vec2,
};

use super::fonts::{bold, small};
use super::tokens::tokens;

/// A hairline over the whole width of the `Ui`, taking no height but its own.
pub fn hairline(ui: &mut Ui) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 1.0), Sense::hover());
    hairline_at(
        ui.painter(),
        rect.x_range(),
        rect.center().y,
        tokens(ui).hairline,
    );
}

/// A line one pixel thick at the height `y`.
pub fn hairline_at(painter: &Painter, x: Rangef, y: f32, color: Color32) {
    let y = painter.round_to_pixel_center(y);
    painter.hline(x, y, Stroke::new(1.0, color));
}

/// A thin line with one knee, from the end of a line on the sheet to the side note about it.
pub fn leader(painter: &Painter, from: Pos2, to: Pos2, color: Color32) {
    let stroke = Stroke::new(0.75, color);
    let knee = Pos2::new(to.x - 8.0, to.y);
    painter.line_segment([from, knee], stroke);
    painter.line_segment([knee, to], stroke);
    painter.circle_filled(from, 1.5, color);
}

/// A dashed underline: a figure that opens its working.
pub fn dashed_underline(painter: &Painter, x: Rangef, y: f32, color: Color32) {
    let ends = [Pos2::new(x.min, y), Pos2::new(x.max, y)];
    painter.extend(Shape::dashed_line(&ends, Stroke::new(1.0, color), 2.0, 2.0));
}

/// A wavy underline: what stands here could not be read.
pub fn wavy_underline(painter: &Painter, x: Rangef, y: f32, color: Color32) {
    const HALF_WAVE: f32 = 2.0;
    let mut points = Vec::new();
    let mut at = x.min;
    let mut up = true;
    while at < x.max {
        points.push(Pos2::new(at, if up { y - 1.0 } else { y + 1.0 }));
        up = !up;
        at += HALF_WAVE;
    }
    painter.add(Shape::line(points, Stroke::new(1.0, color)));
}

/// Text on one line, cut with an ellipsis where it would leave `width`.
pub fn elided(
    painter: &Painter,
    text: &str,
    font: FontId,
    color: Color32,
    width: f32,
) -> Arc<Galley> {
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font, color);
    job.wrap = TextWrapping::truncate_at_width(width.max(1.0));
    painter.layout_job(job)
}

/// A block's name in bold, spaced capitals.
#[must_use]
pub fn spaced_caps(text: &str, color: Color32) -> LayoutJob {
    let mut format = TextFormat::simple(FontId::new(11.5, bold().family), color);
    format.extra_letter_spacing = 1.2;
    format.valign = Align::Center;
    LayoutJob::single_section(text.to_uppercase(), format)
}

/// A word that does something: underlined in the accent ink.
pub fn word(ui: &mut Ui, text: &str) -> Response {
    word_in(ui, text, tokens(ui).accent, true)
}

/// A word that does something, in pencil until the pointer is on it: for the head.
pub fn quiet_word(ui: &mut Ui, text: &str) -> Response {
    word_in(ui, text, tokens(ui).pencil, false)
}

fn word_in(ui: &mut Ui, text: &str, color: Color32, underlined: bool) -> Response {
    let t = tokens(ui);
    let galley = ui.painter().layout_no_wrap(text.to_owned(), small(), color);
    let size = vec2(galley.size().x, galley.size().y.max(18.0));
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Link, ui.is_enabled(), text));
    let lit = response.hovered() || response.has_focus();
    let color = match (ui.is_enabled(), lit) {
        (true, true) => t.accent,
        (true, false) => color,
        (false, _) => t.rule,
    };
    let pos = Pos2::new(rect.left(), rect.center().y - galley.size().y / 2.0);
    let under = pos.y + galley.size().y - 1.0;
    ui.painter()
        .galley_with_override_text_color(pos, galley, color);
    if underlined || lit {
        let stroke = Stroke::new(if lit { 1.5 } else { 0.75 }, color);
        ui.painter().hline(rect.x_range(), under, stroke);
    }
    response.on_hover_cursor(CursorIcon::PointingHand)
}

/// One line to type on: a hairline under the text, inked where one is at.
pub fn line_edit(ui: &mut Ui, text: &mut String, width: f32) -> Response {
    let t = tokens(ui);
    let response = ui.add(
        TextEdit::singleline(text)
            .frame(Frame::NONE)
            .margin(Margin::symmetric(0, 1))
            .desired_width(width),
    );
    line_under(ui, &response, t.hairline, t.accent);
    response
}

/// The hairline under a place to type, stronger while it has the keyboard.
pub fn line_under(ui: &Ui, response: &Response, color: Color32, accent: Color32) {
    let rect = response.rect;
    if response.has_focus() {
        let stroke = Stroke::new(1.5, accent);
        ui.painter().hline(rect.x_range(), rect.bottom(), stroke);
    } else {
        hairline_at(ui.painter(), rect.x_range(), rect.bottom(), color);
    }
}
