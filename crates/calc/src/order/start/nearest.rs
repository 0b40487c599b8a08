//! Always on to the nearest hole not yet visited.

use alloc::vec::Vec;

use crate::order::{distance::Distance, point_grid::PointGrid};

/// The tour from hole 0.
pub(in crate::order) fn nearest(points: &[[f64; 2]], distance: &impl Distance) -> Vec<usize> {
    let mut grid = PointGrid::new(points);
    let mut order = Vec::with_capacity(points.len());
    let mut here = (!points.is_empty()).then_some(0);
    while let Some(hole) = here {
        order.push(hole);
        grid.remove(hole);
        here = grid.nearest(hole, distance);
    }
    order
}
