//! In which order the holes of a clamping are visited: swept at once, searched when somebody asks.

use alloc::sync::Arc;
use alloc::vec::Vec;
use core::cmp::Ordering;

use crate::order::{Ends, Metric, OrderEffort, hole_order_until};
use crate::stop::Stop;

/// Fewest points whose order is worth a search; a sweep orders fewer as well.
pub(super) const SEARCHED_FROM: usize = 4;

/// Points whose order is searched [mm].
#[derive(Clone, Debug)]
pub struct OrderQuestion {
    points: Arc<[[f64; 2]]>,
    kicks: u64,
}

/// Places of one part up to which each of its orders gets the whole effort; where there are more,
/// they share what so many would get.
const WHOLE_EFFORT_PLACES: usize = 3_000;

impl OrderQuestion {
    /// The order of these, where so many places of a part are to be ordered in all.
    pub(super) fn new(points_mm: &[[f64; 2]], of_all: usize) -> Self {
        let whole = (points_mm.len() as u64 * 30).clamp(100, 600_000);
        // By halves, so that one place more or less asks nothing anew.
        let halves = of_all.div_ceil(WHOLE_EFFORT_PLACES).max(1);
        Self {
            points: points_mm.into(),
            kicks: whole / halves.next_power_of_two() as u64,
        }
    }
}

impl Ord for OrderQuestion {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_point = |a: &[f64; 2], b: &[f64; 2]| {
            let [x, y] = [0, 1].map(|axis| a[axis].total_cmp(&b[axis]));
            x.then(y)
        };
        let both = self.points.iter().zip(&*other.points);
        let differ = both.map(|(a, b)| by_point(a, b));
        let first = differ.into_iter().find(|order| order.is_ne());
        let asks = |asked: &Self| (asked.points.len(), asked.kicks);
        first.unwrap_or_else(|| asks(self).cmp(&asks(other)))
    }
}

impl PartialOrd for OrderQuestion {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for OrderQuestion {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for OrderQuestion {}

/// Kicks by the number of points: a ring has a thousand runs of a few points each, so the floor is
/// low.
pub(super) fn search_order(asked: &OrderQuestion, stop: Stop<'_>) -> Option<Vec<u32>> {
    let points = &asked.points;
    let effort = OrderEffort {
        kicks: asked.kicks,
        seed: 1,
    };
    let found = hole_order_until(points, Metric::Straight, Ends::Open, &effort, stop)?;
    let order = found.order.into_iter();
    Some(
        order
            .filter_map(|index| u32::try_from(index).ok())
            .collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Thirty kicks a place as long as a part has no more than some thousands; then all of them share
    /// what so many would get.
    #[test]
    fn orders_of_very_many_places_share_their_effort() {
        let asked = |places: usize, of_all| {
            let points = alloc::vec![[0.0; 2]; places];
            OrderQuestion::new(&points, of_all).kicks
        };
        assert_eq!(
            [asked(4, 4), asked(100, 100), asked(100, 3_000)],
            [120, 3_000, 3_000]
        );
        assert_eq!([asked(100, 3_001), asked(100, 100_000)], [1_500, 46]);
        for places in [5_000, 20_000, 100_000] {
            assert!(asked(places, places) <= 90_000, "{places}");
        }
    }
}
