//! A straight edge of the part as the head meets it.

use super::shape::Stretch;
use crate::vector::{Vector, along, dot};

/// The square of the sine of an angle below which an edge counts as parallel to the tool's axis.
const PARALLEL: f64 = 1e-18;

/// Where the head needs the most stand-off.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found {
    /// Stand-off at which it only just touches [mm]; below 0 where it stays clear of the mouth's level.
    pub(super) needed_mm: f64,
    /// How far from the tool's axis it touches [mm].
    pub(super) from_axis_mm: f64,
}

/// A straight edge, in heights above the mouth and distances from the tool's axis.
///
/// A point at share l of it is `height + rise l` high, and `sqrt(square l^2 + 2 half l + start)` off.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    height: f64,
    rise: f64,
    square: f64,
    half: f64,
    start: f64,
}

impl Found {
    /// The one of two that needs more.
    pub(super) fn more(one: Option<Self>, other: Option<Self>) -> Option<Self> {
        match (one, other) {
            (Some(one), Some(other)) if other.needed_mm > one.needed_mm => Some(other),
            (Some(one), _) => Some(one),
            (None, other) => other,
        }
    }

    /// How much stand-off is needed [mm]; less than anything where nothing was found.
    pub(super) fn needed(found: Option<Self>) -> f64 {
        found.map_or(f64::NEG_INFINITY, |found| found.needed_mm)
    }

    /// A point of the part, so high above the mouth and so far from the axis, under a stretch.
    pub(super) fn at(height_mm: f64, from_axis_mm: f64, stretch: &Stretch) -> Self {
        Self {
            needed_mm: height_mm - stretch.height_mm(from_axis_mm),
            from_axis_mm,
        }
    }
}

impl Line {
    /// From a point, as seen from the mouth, along a vector; `out` is the unit vector out of the hole.
    pub(super) fn new(from: Vector, by: Vector, out: Vector) -> Self {
        let (height, rise) = (dot(from, out), dot(by, out));
        let (from, by) = (along(from, out, -height), along(by, out, -rise));
        Self {
            height,
            rise,
            square: dot(by, by),
            half: dot(from, by),
            start: dot(from, from),
        }
    }

    /// Where a stretch of the head touches it first.
    ///
    /// Height less the stretch's height at that distance is concave along the edge: it grows to where the
    /// edge leaves the stretch's lower end, or to where it moves off as steeply as the stretch widens, and
    /// falls behind.
    pub(super) fn highest(&self, stretch: &Stretch) -> Option<Found> {
        if self.is_parallel() {
            let from_axis = libm::sqrt(self.start);
            let top = self.height + self.rise.max(0.0);
            return (from_axis <= stretch.outer_mm).then(|| Found::at(top, from_axis, stretch));
        }
        let foot = -self.half / self.square;
        let nearest = (self.start + self.half * foot).max(0.0);
        let reach = |radius: f64| {
            let left = radius * radius - nearest;
            (left >= 0.0).then(|| libm::sqrt(left / self.square))
        };
        let outer = reach(stretch.outer_mm)?;
        let (low, high) = ((foot - outer).max(0.0), (foot + outer).min(1.0));
        let meets = low <= high;
        if !meets {
            return None;
        }
        let steep = self.square * stretch.slope * stretch.slope - self.rise * self.rise;
        let beyond = if steep > 0.0 {
            let stationary = self.rise.abs() * libm::sqrt(nearest / (self.square * steep));
            stationary.max(reach(stretch.inner_mm).unwrap_or(0.0))
        } else {
            outer
        };
        let upward = if self.rise < 0.0 { -beyond } else { beyond };
        let share = (foot + upward).clamp(low, high);
        let off = share - foot;
        let from_axis = libm::sqrt(self.square * off * off + nearest);
        Some(Found::at(
            self.height + self.rise * share,
            from_axis,
            stretch,
        ))
    }

    /// Its greatest height where it is as far from the axis as this [mm].
    pub(super) fn on_circle(&self, radius: f64) -> Option<f64> {
        if self.is_parallel() {
            return None;
        }
        let foot = -self.half / self.square;
        let left = radius * radius - (self.start + self.half * foot);
        if left.is_nan() || left < 0.0 {
            return None;
        }
        let off = libm::sqrt(left / self.square);
        let height = |share: f64| {
            (0.0..=1.0)
                .contains(&share)
                .then_some(self.height + self.rise * share)
        };
        let [one, other] = [height(foot - off), height(foot + off)];
        one.into_iter().chain(other).reduce(f64::max)
    }

    /// Whether it runs along the tool's axis, or nowhere.
    fn is_parallel(&self) -> bool {
        self.square <= PARALLEL * (self.square + self.rise * self.rise)
    }
}
