//! The few strokes everything is drawn with: hairlines, leaders, underlines, words.

use std::sync::Arc;

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{
    Align, Area, Color32, CursorIcon, FontId, Frame, Galley, Id, InnerResponse, Margin, Order,
    Painter, Pos2, Rangef, Rect, Response, Role, Sense, Shape, Stroke, StrokeKind, TextEdit, Ui,
    WidgetInfo,
    text::{LayoutJob, TextFormat, TextWrapping},
    vec2,
};
use quillbore_calc::finding::Level;

use super::fonts::{small, small_bold};
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

/// The same at a place, with the whole text told on hover where it was cut.
pub fn clipped(ui: &mut Ui, place: Rect, text: &str, font: FontId, color: Color32) {
    let galley = elided(ui.painter(), text, font, color, place.width());
    set_clipped(ui, place, text, galley, color);
}

/// A text of its own on at most so many lines, told whole on hover where it was cut.
pub fn clipped_lines(
    ui: &mut Ui,
    place: Rect,
    most: usize,
    (text, font): (&str, FontId),
    color: Color32,
) {
    let mut job = LayoutJob::simple(text.to_owned(), font, color, place.width());
    job.wrap.max_rows = most;
    let galley = ui.painter().layout_job(job);
    set_clipped(ui, place, text, galley, color);
    label_at(ui, place, text);
}

fn set_clipped(ui: &mut Ui, place: Rect, text: &str, galley: Arc<Galley>, color: Color32) {
    let cut = galley.elided;
    let y = place.center().y - galley.size().y / 2.0;
    ui.painter()
        .galley(Pos2::new(place.left(), y), galley, color);
    if cut {
        // The same text may be cut in several places.
        let id = ui.next_auto_id();
        ui.skip_ahead_auto_ids(1);
        ui.interact(place, id, Sense::hover()).on_hover_text(text);
    }
}

/// The same as a text of its own, which readers of the screen find.
pub fn clipped_label(ui: &mut Ui, place: Rect, text: &str, font: FontId, color: Color32) {
    clipped(ui, place, text, font, color);
    label_at(ui, place, text);
}

fn label_at(ui: &mut Ui, place: Rect, text: &str) {
    let id = ui.next_auto_id();
    ui.skip_ahead_auto_ids(1);
    let response = ui.interact(place, id, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, text));
}

/// A block's name in bold, spaced capitals.
#[must_use]
pub fn spaced_caps(text: &str, color: Color32) -> LayoutJob {
    let mut format = TextFormat::simple(small_bold(), color);
    format.extra_letter_spacing = 1.2;
    format.valign = Align::Center;
    LayoutJob::single_section(text.to_uppercase(), format)
}

/// A word that does something, in the accent ink.
pub fn word(ui: &mut Ui, text: &str) -> Response {
    Word::new(text, tokens(ui).accent).show(ui)
}

/// A word that does something, in pencil: beside what matters more.
pub fn quiet_word(ui: &mut Ui, text: &str) -> Response {
    Word::new(text, tokens(ui).pencil).show(ui)
}

/// A word in a sentence that is set in a font of its own.
pub fn word_in_font(ui: &mut Ui, text: &str, font: FontId) -> Response {
    let ink = tokens(ui).ink;
    Word {
        font,
        ..Word::new(text, ink)
    }
    .show(ui)
}

/// A word that turns something on and off, and shows which it is.
pub fn toggle_word(ui: &mut Ui, text: &str, on: bool) -> Response {
    Word {
        on: Some(on),
        ..Word::new(text, tokens(ui).accent)
    }
    .show(ui)
}

/// A word that does something, with its keys beside it in pencil.
pub fn keyed_word(ui: &mut Ui, text: &str, keys: &str) -> Response {
    Word {
        keys,
        ..Word::new(text, tokens(ui).accent)
    }
    .show(ui)
}

/// A word that can be pressed: underlined, or with its keys beside it.
struct Word<'a> {
    text: &'a str,
    keys: &'a str,
    font: FontId,
    ink: Color32,
    /// Whether it is on, where it can be turned on and off.
    on: Option<bool>,
}

impl<'a> Word<'a> {
    /// The least height of what the hand aims at.
    const HEIGHT: f32 = 20.0;

    fn new(text: &'a str, ink: Color32) -> Self {
        Self {
            text,
            keys: "",
            font: small(),
            ink,
            on: None,
        }
    }

    fn show(self, ui: &mut Ui) -> Response {
        let t = tokens(ui);
        let painter = ui.painter();
        let galley = painter.layout_no_wrap(self.text.to_owned(), self.font.clone(), self.ink);
        let keys = match self.keys {
            "" => None,
            keys => Some(painter.layout_no_wrap(format!("  {keys}"), small(), t.pencil)),
        };
        let behind = keys.as_ref().map_or(0.0, |keys| keys.size().x);
        let size = vec2(galley.size().x + behind, Self::HEIGHT);
        let (rect, response) = ui.allocate_exact_size(size, Sense::click());
        let enabled = ui.is_enabled();
        response.widget_info(|| match self.on {
            Some(on) => WidgetInfo::selected(Role::Link, enabled, on, self.text),
            None => WidgetInfo::labeled(Role::Link, enabled, self.text),
        });
        let (hovered, down) = (response.hovered(), response.is_pointer_button_down_on());
        let pressed = down || self.on == Some(true);
        let around = rect.expand2(vec2(2.0, 0.0));
        ground_under(ui, around, pressed, &response);
        let ink = match (enabled, pressed) {
            (false, _) => t.disabled,
            (true, true) => t.pressed,
            (true, false) => self.ink,
        };
        let at = Pos2::new(rect.left(), rect.center().y - galley.size().y / 2.0);
        let text = Rangef::new(rect.left(), rect.left() + galley.size().x);
        let under = at.y + galley.size().y - 1.0;
        let painter = ui.painter();
        painter.galley_with_override_text_color(at, galley, ink);
        let has_keys = keys.is_some();
        if let Some(keys) = keys {
            painter.galley(Pos2::new(text.max, at.y), keys, t.pencil);
        }
        if enabled && (!has_keys || hovered) {
            let width = if hovered { 2.0 } else { 1.0 };
            painter.hline(text, under, Stroke::new(width, ink));
        }
        if response.has_focus() {
            focus_frame(ui, around);
        }
        response.on_hover_cursor(CursorIcon::PointingHand)
    }
}

/// The ground under what can be pressed: strong where it is marked or pressed, light where the pointer
/// is on it; framed where it has the keyboard.
pub fn ground_under(ui: &Ui, place: Rect, marked: bool, response: &Response) {
    let t = tokens(ui);
    let ground = match (marked, response.hovered() && ui.is_enabled()) {
        (true, _) => Some(t.wash_strong),
        (false, true) => Some(t.hover),
        (false, false) => None,
    };
    if let Some(ground) = ground {
        ui.painter().rect_filled(place, 0.0, ground);
    }
    if response.has_focus() {
        focus_frame(ui, place.shrink(2.0));
    }
}

/// The frame around what has the keyboard and is no field.
pub fn focus_frame(ui: &Ui, place: Rect) {
    let stroke = Stroke::new(2.0, tokens(ui).accent);
    ui.painter()
        .rect_stroke(place, 0.0, stroke, StrokeKind::Outside);
}

/// A piece of paper that lies over what stands below it, from a place on the screen on.
pub fn lies_over<R>(
    ui: &Ui,
    id: Id,
    from: Pos2,
    margin: i8,
    add: impl FnOnce(&mut Ui) -> R,
) -> InnerResponse<R> {
    let t = tokens(ui);
    let area = Area::new(id).order(Order::Foreground).fixed_pos(from);
    area.show(ui.ctx(), |ui| {
        // It may grow again after it was small.
        ui.set_max_height((ui.ctx().content_rect().bottom() - from.y).max(40.0));
        let frame = Frame::new().fill(t.paper).stroke(Stroke::new(1.0, t.rule));
        frame.inner_margin(Margin::same(margin)).show(ui, add).inner
    })
}

/// The word that says how much a note matters: a stop is paper on ink, a check is framed, a note is
/// plain.
pub fn level_word(ui: &mut Ui, level: Level, text: &str) {
    let t = tokens(ui);
    let ink = match level {
        Level::Stop => t.paper,
        Level::Check => t.ink,
        Level::Note => t.pencil,
    };
    let pad = if level == Level::Note { 0.0 } else { 3.0 };
    let galley = ui
        .painter()
        .layout_no_wrap(text.to_owned(), small_bold(), ink);
    let size = galley.size() + vec2(2.0 * pad, 0.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, text));
    match level {
        Level::Stop => {
            ui.painter().rect_filled(rect, 0.0, t.ink);
        }
        Level::Check => {
            let stroke = Stroke::new(1.0, t.ink);
            ui.painter()
                .rect_stroke(rect, 0.0, stroke, StrokeKind::Inside);
        }
        Level::Note => {}
    }
    ui.painter().galley(rect.min + vec2(pad, 0.0), galley, ink);
}

/// One line to type on: a rule under the text, inked where one is at.
pub fn line_edit(ui: &mut Ui, text: &mut String, width: f32) -> Response {
    let response = ui.add(
        TextEdit::singleline(text)
            .frame(Frame::NONE)
            .margin(Margin::symmetric(0, 1))
            .desired_width(width),
    );
    line_under(ui, &response);
    response
}

/// Marks all that stands in a line that the keyboard came to, so that what is typed takes its place; who
/// comes with the pointer puts the caret where they point.
pub fn mark_all(ui: &Ui, response: &Response, text: &str) {
    let by_pointer = ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
    if response.gained_focus() && !by_pointer && !text.is_empty() {
        mark_whole(ui, response, text);
    }
}

/// Marks all that stands in a line.
pub fn mark_whole(ui: &Ui, response: &Response, text: &str) {
    let mut state = TextEditState::load(ui.ctx(), response.id).unwrap_or_default();
    let (start, end) = (CCursor::new(0), CCursor::new(text.chars().count()));
    state
        .cursor
        .set_char_range(Some(CCursorRange::two(start, end)));
    state.store(ui.ctx(), response.id);
}

/// The rule under a place to type, in the accent ink and stronger while it has the keyboard.
pub fn line_under(ui: &Ui, response: &Response) {
    let (rect, t) = (response.rect, tokens(ui));
    if response.has_focus() {
        let stroke = Stroke::new(2.0, t.accent);
        ui.painter().hline(rect.x_range(), rect.bottom(), stroke);
    } else {
        hairline_at(ui.painter(), rect.x_range(), rect.bottom(), t.rule);
    }
}
