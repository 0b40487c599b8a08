//! One view of a map: the part, its holes, and the ways in.

use std::f64::consts::TAU;

use quillbore_calc::RowId;

use super::model::{Map, Vector};
use super::room::{Segment, closed};
use super::{WAY, model};
use crate::page::{Ink, Page, Path, Step, Stroke};
use crate::words::drawing as words;

/// Half of a cross that stands for a hole too small to be drawn.
pub(super) const TICK: f64 = 1.8;
/// Half of the cross at the part's zero: well over that of a hole.
const ZERO: f64 = 6.5;
/// The smallest dot that is printed.
const DOT: f64 = 0.5;
/// Ways that are drawn at most.
const MOST_WAYS: usize = 24;
/// Pieces of a round line where something must keep clear of it.
const PIECES: u32 = 48;
/// Around a hole of the row that is picked out.
const RING: f64 = 3.6;

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
    /// The row that is picked out.
    pub(super) picked: Option<RowId>,
}

impl View<'_> {
    pub(super) fn place(&self, point: Vector) -> (f64, f64) {
        let seen = self.map.at(point);
        let [right, up] = self.axes.map(|axis| seen[axis]);
        (
            self.corner.0 + (right - self.origin.0) * self.scale,
            self.corner.1 + (self.origin.1 - up) * self.scale,
        )
    }

    /// Where the spots stand, in their order.
    pub(super) fn places(&self) -> Vec<(f64, f64)> {
        let spots = self.map.spots.iter();
        spots.map(|spot| self.place(spot.at_mm)).collect()
    }

    pub(super) fn draw(&self, page: &mut Page) {
        self.part(page);
        // The part's zero, where it lies within the picture.
        let (x, y) = self.place([0.0; 3]);
        for (dx, dy) in [(ZERO, 0.0), (0.0, ZERO)] {
            page.line(
                (x - dx, y - dy),
                (x + dx, y + dy),
                Stroke::new(1.1, Ink::Text),
            );
        }
        self.holes(page, 0..self.map.spots.len());
    }

    /// The part: its outline where a file shows it and it is seen along z, a circle where it is round and seen
    /// along its axis, else what its size takes up.
    fn part(&self, page: &mut Page) {
        match self.shape() {
            Some(Shape::Rings(rings)) => {
                for ring in rings {
                    let line = |(at, (x, y)): (usize, (f64, f64))| match at {
                        0 => Step::Move(x, y),
                        _ => Step::Line(x, y),
                    };
                    let steps = ring.into_iter().enumerate().map(line);
                    page.path(Path {
                        steps: steps.chain([Step::Close]).collect(),
                        stroke: Some(Stroke::OUTLINE),
                        ..Path::default()
                    });
                }
            }
            Some(Shape::Round(middle, radii)) => {
                for radius in radii.into_iter().flatten() {
                    page.circle(middle, radius, None, Some(Stroke::OUTLINE));
                }
            }
            Some(Shape::Block(low, high)) => {
                let size = (high.0 - low.0, high.1 - low.1);
                page.rect(low, size, None, Some(Stroke::OUTLINE));
            }
            None => {}
        }
    }

    fn shape(&self) -> Option<Shape> {
        let away = self.map.seen[3 - self.axes[0] - self.axes[1]];
        if !self.map.contour.is_empty() && away[2].abs() > 0.999 {
            let z = self.map.spots.first().map_or(0.0, |spot| spot.at_mm[2]);
            let rings = self.map.contour.iter().map(|ring| {
                let points = ring.iter().map(|&[x, y]| self.place([x, y, z]));
                points.collect()
            });
            return Some(Shape::Rings(rings.collect()));
        }
        let (corners, outline) = self.map.corners().zip(self.map.outline.as_ref())?;
        if let Some(round) = outline.round.filter(|round| away[round.axis].abs() > 0.999) {
            let radii = [Some(round.radius_mm), round.inner_mm];
            let radii = radii.map(|radius| Some(radius? * self.scale));
            return Some(Shape::Round(self.place([0.0; 3]), radii));
        }
        let (mut low, mut high) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
        for (x, y) in corners.map(|corner| self.place(corner)) {
            low = (low.0.min(x), low.1.min(y));
            high = (high.0.max(x), high.1.max(y));
        }
        Some(Shape::Block(low, high))
    }

    /// The lines of the part, a round one's in short pieces.
    pub(super) fn edges(&self) -> Vec<Segment> {
        match self.shape() {
            None => Vec::new(),
            Some(Shape::Rings(rings)) => rings.iter().flat_map(|ring| closed(ring)).collect(),
            Some(Shape::Block((left, top), (right, bottom))) => {
                closed(&[(left, top), (right, top), (right, bottom), (left, bottom)])
            }
            Some(Shape::Round((x, y), radii)) => {
                let turns = (0..PIECES).map(|piece| f64::from(piece) / f64::from(PIECES) * TAU);
                let around: Vec<_> = turns
                    .map(|turn| (libm::cos(turn), libm::sin(turn)))
                    .collect();
                let rings = radii.into_iter().flatten().map(|radius| {
                    let points = around.iter().map(|(c, s)| (x + c * radius, y + s * radius));
                    closed(&points.collect::<Vec<_>>())
                });
                rings.flatten().collect()
            }
        }
    }

    /// Holes as circles, as crosses where these would be too small, as dots where crosses would run into
    /// each other.
    pub(super) fn holes(&self, page: &mut Page, which: impl IntoIterator<Item = usize>) {
        let which: Vec<usize> = which.into_iter().collect();
        let places = which
            .iter()
            .map(|index| self.place(self.map.spots[*index].at_mm));
        let places: Vec<(f64, f64)> = places.collect();
        let tick = (self.apart(&places) / 2.6).min(TICK);
        for (index, &(x, y)) in which.iter().zip(&places) {
            let spot = &self.map.spots[*index];
            let radius = spot.size_mm / 2.0 * self.scale;
            if self.picked == Some(spot.row) {
                page.circle(
                    (x, y),
                    radius.max(tick).max(DOT) + RING / 2.0,
                    Some(Ink::Wash),
                    Some(Stroke::new(0.8, Ink::Accent)),
                );
            }
            if radius > tick && radius > DOT {
                page.circle((x, y), radius, None, Some(Stroke::OUTLINE));
            } else if tick > DOT {
                page.line((x - tick, y), (x + tick, y), Stroke::OUTLINE);
                page.line((x, y - tick), (x, y + tick), Stroke::OUTLINE);
            } else {
                page.line(
                    (x - DOT / 2.0, y),
                    (x + DOT / 2.0, y),
                    Stroke::new(DOT, Ink::Text),
                );
            }
        }
    }

    /// How far spots are from each other where they fill their field evenly.
    fn apart(&self, places: &[(f64, f64)]) -> f64 {
        let points = places.iter().map(|&(x, y)| [x, y, 0.0]);
        let [least, most] = model::extent_of(points, 1.0);
        let field = (most[0] - least[0]) * (most[1] - least[1]);
        (field / places.len().max(1) as f64).sqrt()
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

/// The part as a view shows it, in points of the page.
enum Shape {
    /// Rings of points.
    Rings(Vec<Vec<(f64, f64)>>),
    /// A middle, and the radii around it.
    Round((f64, f64), [Option<f64>; 2]),
    /// A rectangle by its corners.
    Block((f64, f64), (f64, f64)),
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
