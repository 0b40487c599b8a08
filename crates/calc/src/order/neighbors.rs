//! The short list of holes each hole may be joined to.

use alloc::vec::Vec;

use super::{distance::Distance, point_grid::PointGrid};

/// Neighbors of a hole.
const MOST: usize = 12;
/// Rings searched for a quadrant's nearest; at the edge of the part a quadrant may have none.
const QUADRANT_RINGS: usize = 100;

/// Lists of neighbors with their distances, nearest first.
#[derive(Clone)]
pub(super) struct Neighbors {
    lists: Vec<Vec<(f64, usize)>>,
}

impl Neighbors {
    /// The nearest in each quadrant and the nearest of all, twelve together.
    pub(super) fn new(points: &[[f64; 2]], distance: &impl Distance) -> Self {
        let grid = PointGrid::new(points);
        let lists = (0..points.len()).map(|center| list(&grid, points, center, distance));
        Neighbors {
            lists: lists.collect(),
        }
    }

    /// A hole's neighbors, nearest first.
    pub(super) fn of(&self, hole: usize) -> &[(f64, usize)] {
        &self.lists[hole]
    }

    /// Puts a node at the head of every list, for one that is as near as can be to all.
    pub(super) fn push_front(&mut self, node: usize, distance: &impl Distance) {
        for (hole, list) in self.lists.iter_mut().enumerate() {
            list.insert(0, (distance.between(hole, node), node));
        }
        self.lists.push(Vec::new());
    }
}

fn list(
    grid: &PointGrid,
    points: &[[f64; 2]],
    center: usize,
    distance: &impl Distance,
) -> Vec<(f64, usize)> {
    let mut nearest: Vec<(f64, usize)> = Vec::with_capacity(MOST + 1);
    let mut quadrants: [Option<(f64, usize)>; 4] = [None; 4];
    let quadrant_rings = quadrant_rings(points.len());
    for ring in 0..=grid.last_ring() {
        grid.visit_ring(center, ring, |point| {
            if point == center {
                return;
            }
            let candidate = (distance.between(center, point), point);
            let place = nearest.partition_point(|&other| other < candidate);
            if place < MOST {
                nearest.insert(place, candidate);
                nearest.truncate(MOST);
            }
            if let Some(quadrant) = quadrant(points[center], points[point]) {
                let best = &mut quadrants[quadrant];
                if best.is_none_or(|best| candidate < best) {
                    *best = Some(candidate);
                }
            }
        });
        let reach = grid.reach_of_ring(ring);
        let sure = |best: &Option<(f64, usize)>| best.is_some_and(|(length, _)| length <= reach);
        let listed = nearest.len() == MOST && sure(&nearest.last().copied());
        if listed && (ring >= quadrant_rings || quadrants.iter().all(sure)) {
            break;
        }
    }
    let mut list: Vec<(f64, usize)> = quadrants.into_iter().flatten().collect();
    for candidate in nearest {
        if list.len() < MOST && !list.contains(&candidate) {
            list.push(candidate);
        }
    }
    list.sort_by(|left, right| left.0.total_cmp(&right.0).then(left.1.cmp(&right.1)));
    list
}

/// Rings that the quadrants are looked for in among so many points: fewer where the rings of all of
/// them would be a hundred million cells.
fn quadrant_rings(points: usize) -> usize {
    let cells = 100_000_000 / points.max(1);
    let rings = libm::sqrt(cells as f64) / 2.0;
    (rings as usize).clamp(1, QUADRANT_RINGS)
}

/// Which quarter of the plane a point lies in, seen from another; none at the very same place.
fn quadrant(from: [f64; 2], to: [f64; 2]) -> Option<usize> {
    let (x, y) = (to[0] - from[0], to[1] - from[1]);
    match () {
        () if x > 0.0 && y >= 0.0 => Some(0),
        () if x <= 0.0 && y > 0.0 => Some(1),
        () if x < 0.0 && y <= 0.0 => Some(2),
        () if x >= 0.0 && y < 0.0 => Some(3),
        () => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::distance::{SlowerAxis, Straight};
    use crate::order::samples::samples;

    /// By a look at all: the nearest of each quadrant, then the nearest of the rest up to twelve.
    fn by_hand(points: &[[f64; 2]], center: usize, distance: &impl Distance) -> Vec<(f64, usize)> {
        let others = (0..points.len()).filter(|&point| point != center);
        let mut all: Vec<(f64, usize)> = others
            .map(|point| (distance.between(center, point), point))
            .collect();
        all.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        let [x0, y0] = points[center];
        let inside: [fn(f64, f64) -> bool; 4] = [
            |x, y| x > 0.0 && y >= 0.0,
            |x, y| x <= 0.0 && y > 0.0,
            |x, y| x < 0.0 && y <= 0.0,
            |x, y| x >= 0.0 && y < 0.0,
        ];
        let mut list: Vec<(f64, usize)> = Vec::new();
        for quadrant in inside {
            let mut nearest = all.iter();
            list.extend(
                nearest.find(|(_, point)| quadrant(points[*point][0] - x0, points[*point][1] - y0)),
            );
        }
        for candidate in all {
            if list.len() < MOST && !list.contains(&candidate) {
                list.push(candidate);
            }
        }
        list.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        list
    }

    #[test]
    fn lists_are_those_of_a_look_at_all() {
        for points in samples() {
            let straight = Neighbors::new(&points, &Straight(&points));
            let slower = Neighbors::new(&points, &SlowerAxis(&points));
            for center in 0..points.len() {
                assert_eq!(
                    straight.of(center),
                    by_hand(&points, center, &Straight(&points))
                );
                assert_eq!(
                    slower.of(center),
                    by_hand(&points, center, &SlowerAxis(&points))
                );
            }
        }
    }

    /// One more node stands in every list, first, with what it costs from there.
    #[test]
    fn a_node_put_in_front_stands_in_every_list() {
        let points = [[0.0, 0.0], [3.0, 4.0], [6.0, 8.0]];
        let mut neighbors = Neighbors::new(&points[..2], &Straight(&points));
        neighbors.push_front(2, &Straight(&points));
        assert_eq!(neighbors.of(0), [(10.0, 2), (5.0, 1)]);
        assert_eq!(neighbors.of(1), [(5.0, 2), (5.0, 0)]);
        assert_eq!(neighbors.of(2), []);
    }
}
