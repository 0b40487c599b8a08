//! What a move from hole to hole costs.

use alloc::vec::Vec;

/// The measure of a move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Metric {
    /// The straight distance [mm].
    Straight,
    /// The minutes of a move with both axes running at once, each at its own speed: max(dx / vx, dy
    /// / vy) [min].
    PerAxis {
        /// Speed along x [mm/min]; one that is not positive counts as 1.
        x_mm_min: f64,
        /// Speed along y [mm/min]; one that is not positive counts as 1.
        y_mm_min: f64,
    },
}

impl Metric {
    /// Points in the units the metric measures in, so that one step costs the same along both axes.
    pub(super) fn scaled(self, points: &[[f64; 2]]) -> Vec<[f64; 2]> {
        let (x_speed, y_speed) = match self {
            Metric::Straight => (1.0, 1.0),
            Metric::PerAxis { x_mm_min, y_mm_min } => (speed(x_mm_min), speed(y_mm_min)),
        };
        points
            .iter()
            .map(|&[x, y]| [x / x_speed, y / y_speed])
            .collect()
    }
}

/// Speeds within reason: below a nanometer a minute or above a light second the division would
/// leave the numbers.
fn speed(mm_min: f64) -> f64 {
    if (1e-6..=1e12).contains(&mm_min) {
        mm_min
    } else {
        1.0
    }
}

/// Cost between two nodes of a tour.
pub(super) trait Distance {
    /// From one node to another, the same both ways.
    fn between(&self, from: usize, to: usize) -> f64;
}

/// Straight distance between scaled points.
pub(super) struct Straight<'a>(pub(super) &'a [[f64; 2]]);

impl Distance for Straight<'_> {
    #[inline]
    fn between(&self, from: usize, to: usize) -> f64 {
        let ([x0, y0], [x1, y1]) = (self.0[from], self.0[to]);
        libm::sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0))
    }
}

/// The slower axis between scaled points.
pub(super) struct SlowerAxis<'a>(pub(super) &'a [[f64; 2]]);

impl Distance for SlowerAxis<'_> {
    #[inline]
    fn between(&self, from: usize, to: usize) -> f64 {
        let ([x0, y0], [x1, y1]) = (self.0[from], self.0[to]);
        (x1 - x0).abs().max((y1 - y0).abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3 and 4 mm make 5 straight; at 2,000 and 500 mm/min the 4 mm take longer.
    #[test]
    fn moves_are_straight_or_those_of_the_slower_axis() {
        let points = [[1.0, 7.0], [4.0, 3.0], [-2.0, 3.0]];
        let straight = Metric::Straight.scaled(&points);
        let metric = Straight(&straight);
        assert_eq!([metric.between(0, 1), metric.between(1, 0)], [5.0, 5.0]);
        assert_eq!(metric.between(1, 2), 6.0);
        let by_axis = |x_mm_min, y_mm_min| {
            let scaled = Metric::PerAxis { x_mm_min, y_mm_min }.scaled(&points);
            let metric = SlowerAxis(&scaled);
            [
                metric.between(0, 1),
                metric.between(1, 0),
                metric.between(1, 2),
            ]
        };
        // 3 mm at 2,000 are 0.0015 min, 4 at 500 are 0.008, 6 at 2,000 are 0.003.
        let near = |found: [f64; 3], by_hand: [f64; 3]| {
            assert!(
                found
                    .iter()
                    .zip(by_hand)
                    .all(|(a, b)| (a - b).abs() < 1e-12),
                "{found:?}"
            );
        };
        near(by_axis(2000.0, 500.0), [0.008, 0.008, 0.003]);
        near(by_axis(500.0, 2000.0), [0.006, 0.006, 0.012]);
        // A speed that is none counts as one millimeter a minute.
        for none in [0.0, -5.0, f64::NAN, f64::INFINITY, 1e-7, 1e13] {
            near(by_axis(none, none), [4.0, 4.0, 6.0]);
        }
    }
}
