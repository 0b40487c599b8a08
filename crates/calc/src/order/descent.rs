//! 2-opt and Or-opt over neighbor lists until nothing improves.

use alloc::collections::VecDeque;
use alloc::vec::Vec;

use super::{distance::Distance, neighbors::Neighbors, tour::Tour};

/// Longest run of holes moved to another place.
const LONGEST_RUN: usize = 3;

/// The search with the nodes it still has to look at.
pub(super) struct Descent<'a, D> {
    distance: &'a D,
    neighbors: &'a Neighbors,
    /// Gains up to this are rounding.
    least_gain: f64,
    queue: VecDeque<usize>,
    queued: Vec<bool>,
}

/// Which way a run or a move goes.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Next,
    Previous,
}

impl Way {
    fn other(self) -> Self {
        match self {
            Way::Next => Way::Previous,
            Way::Previous => Way::Next,
        }
    }

    #[inline]
    fn from(self, node: usize, tour: &Tour) -> usize {
        match self {
            Way::Next => tour.next(node),
            Way::Previous => tour.previous(node),
        }
    }
}

impl<'a, D: Distance> Descent<'a, D> {
    /// A search with nothing to look at yet.
    pub(super) fn new(
        nodes: usize,
        distance: &'a D,
        neighbors: &'a Neighbors,
        least_gain: f64,
    ) -> Self {
        Descent {
            distance,
            neighbors,
            least_gain,
            queue: VecDeque::new(),
            queued: alloc::vec![false; nodes],
        }
    }

    /// Has nodes looked at.
    pub(super) fn look_at(&mut self, nodes: impl IntoIterator<Item = usize>) {
        for node in nodes {
            if !core::mem::replace(&mut self.queued[node], true) {
                self.queue.push_back(node);
            }
        }
    }

    /// Looks at all queued nodes and at those their changes touch; returns how much shorter the
    /// tour is.
    pub(super) fn run(&mut self, tour: &mut Tour) -> f64 {
        let mut gained = 0.0;
        while let Some(node) = self.queue.pop_front() {
            self.queued[node] = false;
            while let Some(gain) = self.improve(tour, node) {
                gained += gain;
            }
        }
        gained
    }

    fn improve(&mut self, tour: &mut Tour, node: usize) -> Option<f64> {
        for way in [Way::Next, Way::Previous] {
            let gain = self
                .two_opt(tour, node, way)
                .or_else(|| self.or_opt(tour, node, way));
            if gain.is_some() {
                return gain;
            }
        }
        None
    }

    /// Joins a node to a neighbor instead of the node next to it, and turns what lies between.
    fn two_opt(&mut self, tour: &mut Tour, node: usize, way: Way) -> Option<f64> {
        let after = way.from(node, tour);
        let old = self.distance.between(node, after);
        for &(near, other) in self.neighbors.of(node) {
            if old - near <= self.least_gain {
                break;
            }
            let beyond = way.from(other, tour);
            if other == after || beyond == node {
                continue;
            }
            let gain = old - near + self.distance.between(other, beyond)
                - self.distance.between(after, beyond);
            if gain > self.least_gain {
                match way {
                    Way::Next => tour.reverse(after, other),
                    Way::Previous => tour.reverse(node, beyond),
                }
                self.look_at([node, after, other, beyond]);
                return Some(gain);
            }
        }
        None
    }

    /// Moves a run of up to three nodes, `node` at its one end, so that `node` comes beside one of
    /// its neighbors.
    fn or_opt(&mut self, tour: &mut Tour, node: usize, way: Way) -> Option<f64> {
        let before = way.other().from(node, tour);
        let mut end = node;
        let mut run = [usize::MAX; LONGEST_RUN];
        // Outside the run there must be a move to break that isn't the one that closes the gap.
        for length in 0..LONGEST_RUN.min(tour.len().saturating_sub(3)) {
            if length > 0 {
                end = way.from(end, tour);
            }
            run[length] = end;
            let after = way.from(end, tour);
            let freed = self.distance.between(before, node) + self.distance.between(end, after)
                - self.distance.between(before, after);
            for &(near, other) in self.neighbors.of(node) {
                if freed - near <= self.least_gain {
                    break;
                }
                if run[..=length].contains(&other) {
                    continue;
                }
                for side in [Way::Next, Way::Previous] {
                    let beyond = side.from(other, tour);
                    if run[..=length].contains(&beyond) {
                        continue;
                    }
                    let gain = freed - near + self.distance.between(other, beyond)
                        - self.distance.between(end, beyond);
                    if gain > self.least_gain {
                        let run = Run {
                            node,
                            end,
                            before,
                            after,
                            way,
                        };
                        run.move_to(tour, other, beyond, side);
                        self.look_at([before, node, end, after, other, beyond]);
                        return Some(gain);
                    }
                }
            }
        }
        None
    }
}

/// A run of nodes from `node` the `way` to `end`, and what it lies between.
struct Run {
    node: usize,
    end: usize,
    before: usize,
    after: usize,
    way: Way,
}

impl Run {
    /// Puts the run between two nodes, its `node` beside `other`, by two or three reversals.
    fn move_to(&self, tour: &mut Tour, other: usize, beyond: usize, side: Way) {
        // Seen in the direction of the tour: gap_before [first .. last] gap_after ... near_end,
        // far_end.
        let (first, last, gap_before, gap_after) = match self.way {
            Way::Next => (self.node, self.end, self.before, self.after),
            Way::Previous => (self.end, self.node, self.after, self.before),
        };
        let near_end = if side == Way::Next { other } else { beyond };
        let turned = self.way != side;
        // gap_before [near_end .. gap_after] [last .. first] far_end
        tour.reverse(first, near_end);
        // gap_before [gap_after .. near_end] [last .. first] far_end
        tour.reverse_between(near_end, gap_before, gap_after);
        if !turned {
            tour.reverse_between(last, near_end, first);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::Dice;
    use crate::order::distance::Straight;
    use crate::order::samples::samples;

    fn length(tour: &Tour, distance: &impl Distance) -> f64 {
        (0..tour.len())
            .map(|node| distance.between(node, tour.next(node)))
            .sum()
    }

    fn shuffled(nodes: usize, dice: &mut Dice) -> Vec<usize> {
        let mut order: Vec<usize> = (0..nodes).collect();
        for at in (1..nodes).rev() {
            order.swap(at, dice.below(at + 1));
        }
        order
    }

    /// Every single change gains what it says, and is one: no node is lost, none comes twice.
    #[test]
    fn what_is_gained_is_what_the_tour_is_shorter_by() {
        let mut dice = Dice::new(11);
        for points in samples().into_iter().filter(|points| points.len() > 3) {
            let distance = Straight(&points);
            let neighbors = Neighbors::new(&points, &distance);
            let mut tour = Tour::new(shuffled(points.len(), &mut dice));
            let mut descent = Descent::new(points.len(), &distance, &neighbors, 1e-9);
            let mut before = length(&tour, &distance);
            for _ in 0..3 {
                for node in 0..points.len() {
                    while let Some(gain) = descent.improve(&mut tour, node) {
                        let after = length(&tour, &distance);
                        assert!(gain > 1e-9 && (before - after - gain).abs() < 1e-6);
                        before = after;
                    }
                }
            }
            let mut order = tour.into_order();
            order.sort_unstable();
            assert!(order.into_iter().eq(0..points.len()));
        }
    }

    /// A whole descent tells the sum of its gains, and leaves nobody to be looked at.
    #[test]
    fn a_descent_tells_what_it_gained() {
        let mut dice = Dice::new(13);
        for points in samples().into_iter().filter(|points| points.len() > 3) {
            let distance = Straight(&points);
            let neighbors = Neighbors::new(&points, &distance);
            let mut tour = Tour::new(shuffled(points.len(), &mut dice));
            let mut descent = Descent::new(points.len(), &distance, &neighbors, 1e-9);
            let before = length(&tour, &distance);
            descent.look_at(0..points.len());
            let gained = descent.run(&mut tour);
            let after = length(&tour, &distance);
            assert!((before - after - gained).abs() < 1e-6);
            assert!(descent.queue.is_empty() && !descent.queued.contains(&true));
        }
    }
}
