//! The holes of a drawing or a solid where they are: a press chooses one or leaves it, a frame chooses those
//! in it and no others.

use egui::{Color32, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use quillbore_intake::drawn::Drawn;

use super::file::Choosing;
use crate::look;
use crate::words::incoming as words;

/// Space around what is drawn.
const AROUND: f32 = 14.0;
/// The smallest ring that a hole is drawn as.
const LEAST_RING: f32 = 2.5;
/// As near to a hole as this counts as on it.
const ON: f32 = 8.0;
/// Farthest in.
const MOST_ZOOM: f32 = 400.0;
/// A frame that is smaller is a press.
const LEAST_FRAME: f32 = 4.0;

/// From where holes are seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seen {
    /// Along z: x to the right, y up.
    #[default]
    AlongZ,
    /// Along y: x to the right, z up.
    AlongY,
    /// Along x: y to the right, z up.
    AlongX,
}

impl Seen {
    /// Every way.
    pub const ALL: [Self; 3] = [Self::AlongZ, Self::AlongY, Self::AlongX];

    /// The way along which most holes go.
    #[must_use]
    pub fn best(drawn: &Drawn) -> Self {
        let along = |axis: usize| {
            let holes = drawn.seen().holes.iter();
            holes.filter(|hole| hole.axis[axis].abs() > 0.7).count()
        };
        let counts = [along(2), along(1), along(0)];
        let most = counts.iter().max();
        let best = counts.iter().position(|count| Some(count) == most);
        best.map_or(Self::AlongZ, |at| Self::ALL[at])
    }

    /// What is to the right and what is up, by their places among x, y and z.
    const fn axes(self) -> [usize; 2] {
        match self {
            Self::AlongZ => [0, 1],
            Self::AlongY => [0, 2],
            Self::AlongX => [1, 2],
        }
    }
}

/// What is seen of the part on the screen.
struct Sight {
    axes: [usize; 2],
    low: [f64; 2],
    /// Points for each length of the file.
    scale: f64,
    corner: Pos2,
}

impl Sight {
    fn of(choosing: &Choosing, frame: Rect) -> Self {
        let axes = choosing.seen.axes();
        let [low, high] = bounds(&choosing.drawn, axes);
        let size = [0, 1].map(|i| (high[i] - low[i]).max(1e-6));
        let room = frame.shrink(AROUND).size();
        let whole = (f64::from(room.x) / size[0]).min(f64::from(room.y) / size[1]);
        let scale = whole * f64::from(choosing.zoom);
        let at = |share: f32, size: f64| (f64::from(share) * size * scale) as f32;
        let middle = vec2(
            at(choosing.middle.0, size[0]),
            -at(choosing.middle.1, size[1]),
        );
        Self {
            axes,
            low,
            scale,
            corner: frame.center() - middle,
        }
    }

    fn place(&self, point: [f64; 3]) -> Pos2 {
        self.flat([point[self.axes[0]], point[self.axes[1]]])
    }

    fn flat(&self, [right, up]: [f64; 2]) -> Pos2 {
        let x = (right - self.low[0]) * self.scale;
        let y = (up - self.low[1]) * self.scale;
        self.corner + vec2(x as f32, -y as f32)
    }
}

/// Least and most of what is drawn along two axes.
fn bounds(drawn: &Drawn, axes: [usize; 2]) -> [[f64; 2]; 2] {
    let seen = drawn.seen();
    let corners = seen.extents.iter().flatten().copied();
    let holes = seen.holes.iter().map(|hole| hole.entry);
    let mut bounds = [[f64::MAX; 2], [f64::MIN; 2]];
    for point in corners.chain(holes) {
        for (i, axis) in axes.iter().enumerate() {
            bounds[0][i] = bounds[0][i].min(point[*axis]);
            bounds[1][i] = bounds[1][i].max(point[*axis]);
        }
    }
    bounds
}

/// The picture in a place that it always takes up.
pub(super) fn picture_ui(ui: &mut Ui, frame: Rect, choosing: &mut Choosing) {
    let t = look::tokens(ui);
    let id = ui.scope_id().with("picture of the file");
    let response = ui.interact(frame, id, Sense::click_and_drag());
    let told = words::picture(choosing.drawn.taken(), choosing.drawn.seen().holes.len());
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &told));
    nearer(ui, &response, frame, choosing);
    let sight = Sight::of(choosing, frame);
    let painter = ui.painter().with_clip_rect(frame);
    painter.rect_stroke(frame, 0.0, Stroke::new(1.0, t.hairline), StrokeKind::Inside);
    outline(&painter, choosing, &sight, t.rule);
    let on = on_hole(&response, choosing, &sight);
    let marked = choosing.drawn.kinds().nth(choosing.marked);
    let marked: &[usize] = marked.as_ref().map_or(&[], |kind| kind.holes);
    for (at, hole) in choosing.drawn.seen().holes.iter().enumerate() {
        let place = sight.place(hole.entry);
        let ring = ((hole.diameter / 2.0 * sight.scale) as f32).max(LEAST_RING);
        if !frame.expand(ring).contains(place) {
            continue;
        }
        let is_marked = marked.binary_search(&at).is_ok();
        let ink = if is_marked { t.accent } else { t.ink };
        if choosing.drawn.takes(at) {
            painter.circle_filled(place, ring, ink);
        } else {
            let ink = if is_marked { t.accent } else { t.pencil };
            painter.circle_stroke(place, ring, Stroke::new(1.0, ink));
        }
        if on == Some(at) {
            painter.circle_stroke(place, ring + 3.0, Stroke::new(2.0, t.accent));
        }
    }
    frame_or_press(ui, &response, (frame, &sight, on), choosing);
    if let Some(hole) = on.and_then(|at| choosing.drawn.seen().holes.get(at)) {
        response.on_hover_text_at_pointer(words::hole(hole, choosing.drawn.unit()));
    }
}

/// What is drawn of the part: its outline along z where the file shows one, else its extent.
fn outline(painter: &egui::Painter, choosing: &Choosing, sight: &Sight, ink: Color32) {
    let seen = choosing.drawn.seen();
    let stroke = Stroke::new(1.0, ink);
    if choosing.seen == Seen::AlongZ && !seen.outline.is_empty() {
        for ring in &seen.outline {
            let points = ring.iter().map(|point| sight.flat(*point));
            painter.add(egui::Shape::closed_line(points.collect(), stroke));
        }
    } else if let Some([low, high]) = seen.extents {
        let extent = Rect::from_two_pos(sight.place(low), sight.place(high));
        painter.rect_stroke(extent, 0.0, stroke, StrokeKind::Middle);
    }
}

/// The wheel goes nearer where the pointer is, a second press shows all again.
fn nearer(ui: &Ui, response: &Response, frame: Rect, choosing: &mut Choosing) {
    if response.double_clicked() {
        (choosing.zoom, choosing.middle) = (1.0, (0.5, 0.5));
        return;
    }
    let Some(at) = response.hover_pos() else {
        return;
    };
    let wheel = ui.input(|input| input.smooth_scroll_delta().y);
    if wheel == 0.0 {
        return;
    }
    let before = Sight::of(choosing, frame);
    let step = 1.0 + wheel.abs() / 200.0;
    let zoom = if wheel > 0.0 {
        choosing.zoom * step
    } else {
        choosing.zoom / step
    };
    choosing.zoom = zoom.clamp(1.0, MOST_ZOOM);
    // What is under the pointer stays there.
    let [low, high] = bounds(&choosing.drawn, choosing.seen.axes());
    let size = [0, 1].map(|i| (high[i] - low[i]).max(1e-6));
    let after = Sight::of(choosing, frame);
    let from = at - frame.center();
    let by = |from: f32, size: f64| {
        (f64::from(from) * (1.0 / before.scale - 1.0 / after.scale) / size) as f32
    };
    let within = |share: f32| share.clamp(0.0, 1.0);
    choosing.middle.0 = within(choosing.middle.0 + by(from.x, size[0]));
    choosing.middle.1 = within(choosing.middle.1 - by(from.y, size[1]));
    if choosing.zoom <= 1.0 {
        choosing.middle = (0.5, 0.5);
    }
}

/// The hole under the pointer.
fn on_hole(response: &Response, choosing: &Choosing, sight: &Sight) -> Option<usize> {
    let at = response.hover_pos()?;
    let holes = choosing.drawn.seen().holes.iter().enumerate();
    let away = holes.map(|(index, hole)| {
        let ring = (hole.diameter / 2.0 * sight.scale) as f32;
        (index, sight.place(hole.entry).distance(at) - ring)
    });
    let (index, away) = away.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (away <= ON).then_some(index)
}

/// A press chooses a hole or leaves it; a frame chooses those in it, with Shift those, too.
fn frame_or_press(
    ui: &Ui,
    response: &Response,
    (frame, sight, on): (Rect, &Sight, Option<usize>),
    choosing: &mut Choosing,
) {
    if response.drag_started() {
        choosing.frame_from = ui.input(|input| input.pointer.press_origin());
    }
    if response.clicked()
        && let Some(hole) = on
    {
        choosing.drawn.choose(hole, !choosing.drawn.takes(hole));
        choosing.file.changed();
    }
    let Some(from) = choosing.frame_from else {
        return;
    };
    let Some(to) = ui.input(|input| input.pointer.interact_pos()) else {
        return;
    };
    let around = Rect::from_two_pos(from, to).intersect(frame);
    if !response.drag_stopped() {
        let stroke = Stroke::new(1.0, look::tokens(ui).accent);
        ui.painter()
            .rect_stroke(around, 0.0, stroke, StrokeKind::Inside);
        return;
    }
    choosing.frame_from = None;
    if around.width().max(around.height()) < LEAST_FRAME {
        return;
    }
    let adds = ui.input(|input| input.modifiers.shift);
    let entries: Vec<[f64; 3]> = choosing
        .drawn
        .seen()
        .holes
        .iter()
        .map(|hole| hole.entry)
        .collect();
    for (at, entry) in entries.into_iter().enumerate() {
        let is_in = around.contains(sight.place(entry));
        if is_in || !adds {
            choosing.drawn.choose(at, is_in);
        }
    }
    choosing.file.changed();
}

/// The words that say from where it is seen.
pub(super) fn seen_ui(ui: &mut Ui, choosing: &mut Choosing) {
    for seen in Seen::ALL {
        let word = look::toggle_word(ui, words::seen(seen), choosing.seen == seen);
        if word.clicked() && choosing.seen != seen {
            choosing.seen = seen;
            (choosing.zoom, choosing.middle) = (1.0, (0.5, 0.5));
        }
    }
    if choosing.zoom > 1.0 && look::quiet_word(ui, words::WHOLE).clicked() {
        (choosing.zoom, choosing.middle) = (1.0, (0.5, 0.5));
    }
}

/// How high a picture of this width is.
pub(super) const HEIGHT: f32 = 240.0;

/// Where it stands beside the list.
pub(super) fn beside(place: Rect, from: f32) -> Rect {
    Rect::from_min_max(pos2(place.left() + from, place.top()), place.max)
}
