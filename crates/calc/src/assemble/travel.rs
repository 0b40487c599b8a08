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
pub struct OrderQuestion(Arc<[[f64; 2]]>);

impl OrderQuestion {
    pub(super) fn new(points_mm: &[[f64; 2]]) -> Self {
        Self(points_mm.into())
    }
}

impl Ord for OrderQuestion {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_point = |a: &[f64; 2], b: &[f64; 2]| {
            let [x, y] = [0, 1].map(|axis| a[axis].total_cmp(&b[axis]));
            x.then(y)
        };
        let differ = self.0.iter().zip(&*other.0).map(|(a, b)| by_point(a, b));
        let first = differ.into_iter().find(|order| order.is_ne());
        first.unwrap_or_else(|| self.0.len().cmp(&other.0.len()))
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
    let points = &asked.0;
    let effort = OrderEffort {
        kicks: (points.len() as u64 * 30).clamp(100, 600_000),
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
