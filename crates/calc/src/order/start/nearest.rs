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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::distance::Straight;
    use crate::order::samples::samples;

    /// From hole 0 on, always to the nearest that is left, by a look at all.
    #[test]
    fn the_nearest_comes_next() {
        for points in samples() {
            let distance = Straight(&points);
            let found = nearest(&points, &distance);
            let mut left: Vec<usize> = (1..points.len()).collect();
            let mut by_hand = alloc::vec![0];
            while !left.is_empty() {
                let here = by_hand[by_hand.len() - 1];
                let from = |hole: usize| distance.between(here, hole);
                let next = left.iter().copied();
                let next = next.min_by(|&a, &b| from(a).total_cmp(&from(b)).then(a.cmp(&b)));
                by_hand.extend(next);
                left.retain(|&hole| Some(hole) != next);
            }
            assert_eq!(found, by_hand);
        }
    }
}
