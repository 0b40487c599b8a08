//! A chart of factors over an order: an upright axis of logarithms, hatched bands, lines and rings.

use egui::{Color32, Rangef, Rect, Sense, Shape, Stroke, Ui, pos2, vec2};
use quillbore_job::Form;
use quillbore_paper::drawing::hatch::hatch;
use quillbore_paper::page::{Ink, Page, Stroke as PaperStroke};

use crate::look;
use crate::preview::paint_picture;
use crate::words::learned as words;

/// How high a chart is.
const HEIGHT: f32 = 180.0;

/// Left of it, for the factors at its axis.
const AXIS: f32 = 44.0;

/// Factors that are marked on the upright axis, those within 0.5 and 2 always.
const MARKS: [f64; 13] = [
    0.05, 0.1, 0.2, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0, 3.0, 5.0, 10.0, 20.0,
];

/// A ring's radius.
const RING: f32 = 4.0;

/// Two rings stand at least so far apart.
const STEP: f32 = 9.0;

/// A chart in its place.
pub(super) struct Chart {
    frame: Rect,
    low: f64,
    high: f64,
    count: usize,
}

/// What a ring says of the run it stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ring {
    /// It counts.
    Counts,
    /// It counts little: it is far off what is expected.
    FarOff,
    /// It doesn't count.
    Struck,
}

/// How many places there are beside each other in a width.
pub(super) fn places(width: f32) -> usize {
    ((width - AXIS) / STEP).max(1.0) as usize
}

impl Chart {
    /// Takes the place of a chart, with an axis on which all these factors stand.
    pub(super) fn begin(
        ui: &mut Ui,
        count: usize,
        factors: impl Iterator<Item = f64>,
        form: Form,
    ) -> (Self, egui::Response) {
        let size = vec2(ui.available_width(), HEIGHT);
        let (place, response) = ui.allocate_exact_size(size, Sense::click());
        let (mut low, mut high) = (0.5, 2.0);
        for factor in factors.filter(|factor| factor.is_finite() && *factor > 0.0) {
            low = f64::min(low, factor);
            high = f64::max(high, factor);
        }
        let chart = Self {
            frame: place
                .with_min_x(place.left() + AXIS)
                .shrink2(vec2(0.0, 10.0)),
            low: libm::log(low),
            high: libm::log(high),
            count,
        };
        chart.axis(ui, form);
        (chart, response)
    }

    fn axis(&self, ui: &Ui, form: Form) {
        let t = look::tokens(ui);
        let painter = ui.painter();
        let shown = MARKS.into_iter().filter(|mark| {
            let at = libm::log(*mark);
            (self.low - 1e-9..=self.high + 1e-9).contains(&at)
        });
        for mark in shown {
            let y = self.y(mark);
            let is_one = mark == 1.0;
            let ink = if is_one { t.rule } else { t.hairline };
            painter.hline(self.frame.x_range(), y, Stroke::new(1.0, ink));
            let ink = if is_one { t.ink } else { t.pencil };
            let said = words::factor_mark(mark, form);
            let at = pos2(self.frame.left() - 8.0, y);
            let right = egui::Align2::RIGHT_CENTER;
            painter.text(at, right, said, look::small(), ink);
        }
    }

    /// How far right a place of the order stands.
    pub(super) fn x(&self, at: usize) -> f32 {
        let step = self.frame.width() / self.count.max(1) as f32;
        self.frame.left() + step * (at as f32 + 0.5)
    }

    /// Where a factor stands.
    fn y(&self, factor: f64) -> f32 {
        let share = (libm::log(factor) - self.low) / (self.high - self.low);
        self.frame.bottom() - self.frame.height() * share as f32
    }

    /// The place of the order nearest to how far right something is.
    pub(super) fn nearest(&self, x: f32) -> Option<usize> {
        let step = self.frame.width() / self.count.max(1) as f32;
        let last = self.count.checked_sub(1)?;
        Some((((x - self.frame.left()) / step).max(0.0) as usize).min(last))
    }

    /// Hatches from low to high at each place that has them.
    pub(super) fn bands(&self, ui: &Ui, bands: impl Iterator<Item = Option<[f64; 2]>>) {
        let t = look::tokens(ui);
        let mut page = Page::default();
        let half = self.frame.width() / self.count.max(1) as f32 / 2.0;
        for (at, band) in bands.enumerate() {
            let Some([low, high]) = band else {
                continue;
            };
            let (x, origin) = (self.x(at), self.frame.min);
            let corner = |x: f32, y: f32| (f64::from(x - origin.x), f64::from(y - origin.y));
            let (top, bottom) = (self.y(high), self.y(low));
            let outline = [
                corner(x - half, top),
                corner(x + half, top),
                corner(x + half, bottom),
                corner(x - half, bottom),
            ];
            hatch(
                &mut page,
                &outline,
                4.0,
                true,
                PaperStroke::new(0.7, Ink::Hair),
            );
        }
        paint_picture(ui.painter(), self.frame, 1.0, &page, t);
    }

    /// A line through factors, broken where one is missing; level over each place.
    pub(super) fn steps(&self, ui: &Ui, factors: impl Iterator<Item = Option<f64>>, pen: Stroke) {
        let half = self.frame.width() / self.count.max(1) as f32 / 2.0;
        let mut line = Vec::new();
        for (at, factor) in factors.enumerate() {
            let Some(factor) = factor else {
                ui.painter()
                    .add(Shape::line(std::mem::take(&mut line), pen));
                continue;
            };
            let (x, y) = (self.x(at), self.y(factor));
            // Two points in one place would be drawn as a knot.
            let begins: Option<&egui::Pos2> = line.last();
            if begins.is_none_or(|last| (last.y - y).abs() > 0.1) {
                line.push(pos2(x - half, y));
            } else {
                line.pop();
            }
            line.push(pos2(x + half, y));
        }
        ui.painter().add(Shape::line(line, pen));
    }

    /// A ring for a run.
    pub(super) fn ring(&self, ui: &Ui, at: usize, factor: f64, ring: Ring, is_at: bool) {
        let t = look::tokens(ui);
        let center = pos2(self.x(at), self.y(factor));
        let ink = if is_at { t.accent } else { t.ink };
        let pen = Stroke::new(if is_at { 2.5 } else { 1.4 }, ink);
        let painter = ui.painter();
        painter.circle(center, RING, t.paper, pen);
        match ring {
            Ring::Counts => {}
            Ring::FarOff => {
                painter.circle_stroke(center, RING + 3.0, Stroke::new(1.0, ink));
            }
            Ring::Struck => {
                let away = vec2(RING + 2.0, -(RING + 2.0));
                painter.line_segment([center - away, center + away], pen);
            }
        }
    }

    /// An upright line at a place, for what is said of it.
    pub(super) fn cursor(&self, ui: &Ui, at: usize, ink: Color32) {
        let y = Rangef::new(self.frame.top(), self.frame.bottom());
        ui.painter().vline(self.x(at), y, Stroke::new(1.0, ink));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart() -> Chart {
        Chart {
            frame: Rect::from_min_max(pos2(44.0, 10.0), pos2(244.0, 170.0)),
            low: libm::log(0.5),
            high: libm::log(2.0),
            count: 10,
        }
    }

    /// 1 stands in the middle between 0.5 and 2; ten places over 200 points are 20 wide each.
    #[test]
    fn factors_stand_by_their_logarithms() {
        let chart = chart();
        assert_eq!((chart.y(0.5), chart.y(2.0)), (170.0, 10.0));
        assert!((chart.y(1.0) - 90.0).abs() < 1e-3);
        assert_eq!((chart.x(0), chart.x(9)), (54.0, 234.0));
    }

    #[test]
    fn the_nearest_run_is_the_one_whose_place_the_pointer_is_on() {
        let chart = chart();
        for (x, at) in [
            (0.0, 0),
            (54.0, 0),
            (63.9, 0),
            (64.1, 1),
            (243.0, 9),
            (900.0, 9),
        ] {
            assert_eq!(chart.nearest(x), Some(at), "{x}");
        }
        let none = Chart { count: 0, ..chart };
        assert_eq!(none.nearest(60.0), None);
    }
}
