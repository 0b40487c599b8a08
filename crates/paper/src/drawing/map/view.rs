//! One view of a map: the part, its holes with marks and numbers, the order, and the ways in.

use super::{AROUND, MOST_LABELED, Map, Vector, WAY, corners};
use crate::page::{Ink, Page, Path, Step, Stroke, Style};
use crate::typeset::look::CAPTION;
use crate::words::drawing as words;

/// Half of a cross that stands for a hole too small to be drawn.
const TICK: f64 = 1.8;
/// Labels stand no closer than this.
const APART: f64 = 10.0;
/// Ways that are drawn at most.
const MOST_WAYS: usize = 24;

/// One of the two views.
#[derive(Clone, Copy)]
pub(super) struct View<'a> {
    pub(super) map: &'a Map,
    /// What is drawn to the right and what upward, of right, away and up.
    pub(super) axes: [usize; 2],
    /// Upper left corner on the page, and which point of the part stands there.
    pub(super) corner: (f64, f64),
    pub(super) origin: (f64, f64),
    pub(super) scale: f64,
}

impl View<'_> {
    fn place(&self, point: Vector) -> (f64, f64) {
        let seen = self.map.at(point);
        let [right, up] = self.axes.map(|axis| seen[axis]);
        (
            self.corner.0 + (right - self.origin.0) * self.scale,
            self.corner.1 + (self.origin.1 - up) * self.scale,
        )
    }

    pub(super) fn draw(&self, page: &mut Page) {
        if let Some(outline) = &self.map.outline_mm {
            let corners = corners(outline).map(|corner| self.place(corner));
            let (mut low, mut high) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
            for (x, y) in corners {
                low = (low.0.min(x), low.1.min(y));
                high = (high.0.max(x), high.1.max(y));
            }
            let size = (high.0 - low.0, high.1 - low.1);
            page.rect(low, size, None, Some(Stroke::OUTLINE));
        }
        // The part's zero, where it lies within the picture.
        let (x, y) = self.place([0.0; 3]);
        for (dx, dy) in [(5.0, 0.0), (0.0, 5.0)] {
            page.line((x - dx, y - dy), (x + dx, y + dy), Stroke::CENTER);
        }
        for spot in &self.map.spots {
            let (x, y) = self.place(spot.at_mm);
            let radius = spot.size_mm / 2.0 * self.scale;
            if radius > TICK {
                page.circle((x, y), radius, None, Some(Stroke::OUTLINE));
            } else {
                page.line((x - TICK, y), (x + TICK, y), Stroke::OUTLINE);
                page.line((x, y - TICK), (x, y + TICK), Stroke::OUTLINE);
            }
        }
    }

    /// Its width on the page.
    fn wide(&self) -> f64 {
        let [least, most] = self.map.extent();
        (most[0] - least[0]) * self.scale
    }

    /// Marks and numbers, as far as they have room beside each other, and the way from hole to hole.
    pub(super) fn labels(&self, page: &mut Page) {
        let places: Vec<(f64, f64)> = (self.map.spots.iter())
            .map(|spot| self.place(spot.at_mm))
            .collect();
        let way = Stroke::new(0.35, Ink::Accent);
        let is_field = places.len() > MOST_LABELED;
        for pair in places.windows(2).filter(|_| !is_field) {
            page.line(pair[0], pair[1], way);
        }
        // What the view is called stands there already.
        let named = self.corner.0 - AROUND;
        let mut taken = vec![(named, self.corner.1 - 3.0, CAPTION.measure(&self.named()))];
        let edge = self.corner.0 + self.wide() + AROUND;
        let mut last_mark = "";
        for (index, (spot, (x, y))) in self.map.spots.iter().zip(&places).enumerate() {
            let is_new = spot.mark != last_mark;
            last_mark = &spot.mark;
            let said = if is_new {
                words::spot(&spot.mark, spot.number)
            } else {
                spot.number.to_string()
            };
            let style: Style = if is_new || index == 0 {
                CAPTION.ink(Ink::Text).bold()
            } else {
                CAPTION
            };
            let (left, wide) = (x + TICK + 1.0, style.measure(&said));
            if (is_field && !is_new) || left + wide > edge {
                continue;
            }
            let is_free = taken.iter().all(|(a, b, width)| {
                left > a + width + 1.0 || left + wide < a - 1.0 || (y - b).abs() > APART
            });
            if is_free {
                page.text(left, y - TICK, style, &said);
                taken.push((left, *y, wide));
            }
        }
    }

    /// From where the electrode comes, once for each way that looks another.
    pub(super) fn ways(&self, page: &mut Page) {
        let mut drawn: Vec<(f64, f64)> = Vec::new();
        for spot in &self.map.spots {
            let out = self.map.at(spot.out);
            let [right, up] = self.axes.map(|axis| out[axis]);
            let is_known = |(a, b): &(f64, f64)| (a - right).abs() < 0.05 && (b - up).abs() < 0.05;
            if drawn.len() >= MOST_WAYS || drawn.iter().any(is_known) {
                continue;
            }
            drawn.push((right, up));
            let (x, y) = self.place(spot.at_mm);
            let end = (x + right * WAY, y - up * WAY);
            page.line(end, (x, y), Stroke::new(0.6, Ink::Accent));
            arrow(page, (x, y), (right, -up));
        }
    }

    /// What is seen, by the part's own axes.
    pub(super) fn named(&self) -> String {
        let [right, up] = self.axes.map(|axis| axis_named(self.map.seen[axis]));
        match (self.axes[1], self.map.is_lying) {
            (1, true) => words::along_index(&right, &up),
            (1, false) => words::from_above(&right, &up),
            _ => words::from_side(&right, &up),
        }
    }
}

/// The head of an arrow that points at a place, coming from a way.
fn arrow(page: &mut Page, (x, y): (f64, f64), (dx, dy): (f64, f64)) {
    let length = libm::sqrt(dx * dx + dy * dy);
    if length < 0.05 {
        return;
    }
    let (dx, dy) = (dx / length, dy / length);
    let [long, half] = [3.2, 1.2];
    page.path(Path {
        steps: vec![
            Step::Move(x, y),
            Step::Line(x + dx * long - dy * half, y + dy * long + dx * half),
            Step::Line(x + dx * long + dy * half, y + dy * long - dx * half),
            Step::Close,
        ],
        fill: Some(Ink::Accent),
        ..Path::default()
    });
}

/// An axis by the part's own, where it is one: `+x`.
fn axis_named(axis: Vector) -> String {
    for (i, name) in ["x", "y", "z"].iter().enumerate() {
        if axis[i].abs() > 0.999 {
            let sign = if axis[i] < 0.0 { "\u{2212}" } else { "+" };
            return format!("{sign}{name}");
        }
    }
    words::INCLINED.to_owned()
}
