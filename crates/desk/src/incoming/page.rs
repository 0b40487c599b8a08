//! A page of a drawing in PDF, with frames around its callouts: a press takes one or leaves it.

use egui::{Color32, Rect, Response, Sense, TextureHandle, Ui, Vec2, WidgetInfo, pos2, vec2};

use super::file::Offering;
use crate::look;
use crate::words::incoming as words;

/// Farthest in.
const MOST_ZOOM: f32 = 12.0;

/// Around a callout, so that its frame doesn't touch its letters.
const AROUND: f32 = 3.0;

/// The page that is shown.
#[derive(Clone, PartialEq)]
pub enum Shown {
    /// It is to be painted.
    Wanted,
    /// It is being painted.
    Painting,
    /// As it was painted.
    Ready(TextureHandle),
    /// Why it can't be.
    Failed(String),
}

impl std::fmt::Debug for Shown {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Wanted => "wanted",
            Self::Painting => "painting",
            Self::Ready(_) => "ready",
            Self::Failed(why) => why,
        })
    }
}

/// The page in a place that it always takes up.
pub(super) fn page_ui(ui: &mut Ui, frame: Rect, offering: &mut Offering) {
    let t = look::tokens(ui);
    let id = ui.scope_id().with("page");
    let response = ui.interact(frame, id, Sense::click_and_drag());
    let told = words::page(offering.page, offering.offered.paged().pages.len());
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &told));
    ui.painter().rect_filled(frame, 0.0, t.desk);
    let Some(size) = offering.size() else { return };
    move_about(ui, &response, frame, size, offering);
    let page = place_of(frame, size, offering);
    let inner = &mut ui.new_child(egui::UiBuilder::new().max_rect(frame));
    inner.set_clip_rect(frame.intersect(ui.clip_rect()));
    match &offering.shown {
        Shown::Ready(picture) => {
            let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            inner
                .painter()
                .image(picture.id(), page, whole, Color32::WHITE);
        }
        Shown::Failed(why) => {
            look::clipped_lines(inner, frame.shrink(12.0), 6, (why, look::body()), t.pencil);
        }
        Shown::Wanted | Shown::Painting => {
            inner.painter().rect_filled(page, 0.0, t.paper);
        }
    }
    frames(inner, page, size, &response, offering);
}

/// Frames around the callouts of the page; a press in one takes it or leaves it.
fn frames(ui: &mut Ui, page: Rect, size: Vec2, response: &Response, offering: &mut Offering) {
    let t = look::tokens(ui);
    let scale = page.width() / size.x;
    let at = response.hover_pos();
    let mut pressed = None;
    for (number, callout) in offering.offered.callouts().enumerate() {
        if callout.page != offering.page {
            continue;
        }
        let [left, top, right, bottom] = callout.place.map(|points| points as f32 * scale);
        let place = Rect::from_min_max(pos2(left, top), pos2(right, bottom));
        let place = place.translate(page.min.to_vec2()).expand(AROUND);
        let is_on = at.is_some_and(|at| place.contains(at));
        let is_taken = offering.offered.is_taken(number);
        if is_taken {
            ui.painter()
                .rect_filled(place, 0.0, t.accent.gamma_multiply(0.18));
        }
        let width = if is_taken || number == offering.marked || is_on {
            2.0
        } else {
            1.0
        };
        super::pages::framed(ui, place, t.accent, width);
        if is_on && response.clicked() {
            pressed = Some(number);
        }
    }
    if let Some(number) = pressed {
        offering.marked = number;
        offering.bring = true;
        offering.offered.toggle(number);
        offering.file.changed();
    }
}

/// Where the page stands in its frame.
fn place_of(frame: Rect, size: Vec2, offering: &Offering) -> Rect {
    let whole = (frame.width() / size.x).min(frame.height() / size.y);
    let shown = size * whole * offering.zoom;
    let corner = frame.center() - shown * vec2(offering.middle.0, offering.middle.1);
    Rect::from_min_size(corner, shown)
}

/// The wheel goes nearer where the pointer is, a drag moves the page, a second press shows all again.
fn move_about(ui: &Ui, response: &Response, frame: Rect, size: Vec2, offering: &mut Offering) {
    if response.double_clicked() {
        offering.whole();
        return;
    }
    let page = place_of(frame, size, offering);
    if let Some(at) = response.hover_pos() {
        let wheel = ui.input(|input| input.smooth_scroll_delta().y);
        if wheel != 0.0 {
            let step = 1.0 + wheel.abs() / 200.0;
            let zoom = if wheel > 0.0 {
                offering.zoom * step
            } else {
                offering.zoom / step
            };
            // What is under the pointer stays there.
            let share = (at - page.min) / page.size();
            offering.zoom = zoom.clamp(1.0, MOST_ZOOM);
            let after = place_of(frame, size, offering).size();
            let middle = share + (frame.center() - at) / after;
            offering.middle = (middle.x, middle.y);
        }
    }
    if response.dragged() && offering.zoom > 1.0 {
        let by = response.drag_delta() / page.size();
        offering.middle.0 -= by.x;
        offering.middle.1 -= by.y;
    }
    if offering.zoom <= 1.0 {
        offering.middle = (0.5, 0.5);
    }
    let within = |share: f32| share.clamp(0.0, 1.0);
    offering.middle = (within(offering.middle.0), within(offering.middle.1));
}

/// The words that turn pages.
pub(super) fn pages_ui(ui: &mut Ui, offering: &mut Offering) {
    let pages = offering.offered.paged().pages.len();
    ui.label(words::page(offering.page, pages));
    let at = offering.page;
    for (word, to) in [
        (words::PAGE_BEFORE, at.checked_sub(1)),
        (words::PAGE_AFTER, Some(at + 1).filter(|to| *to < pages)),
    ] {
        let shown = ui.add_enabled_ui(to.is_some(), |ui| look::quiet_word(ui, word));
        if let (true, Some(to)) = (shown.inner.clicked(), to) {
            offering.turn_to(to);
        }
    }
    if offering.zoom > 1.0 && look::quiet_word(ui, words::WHOLE).clicked() {
        offering.whole();
    }
}
