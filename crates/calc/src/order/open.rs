//! Open paths: a closed tour with one more node that costs nothing, standing for the gap between
//! the last hole and the first.

use alloc::vec::Vec;

use super::{distance::Distance, iterate::Search, neighbors::Neighbors, tour::Tour};
use crate::dice::Dice;

/// Cuts a closed tour and searches on with the ends free; returns the holes from end to end.
///
/// Cut is the longest move, or with a given first hole the longer of its two. The gap is in every
/// hole's neighbor list: without that the ends hardly ever move.
pub(super) fn opened<D: Distance>(
    search: &Search<'_, D>,
    mut neighbors: Neighbors,
    closed: &Tour,
    first: Option<usize>,
    kicks: u64,
    dice: &mut Dice,
) -> Option<Vec<usize>> {
    let holes = closed.len();
    let order = cut(search.distance, closed, first);
    let length = search.length(closed);
    // Holes all at one place want a tie as well.
    let tie = if length > 0.0 { 4.0 * length } else { 1.0 };
    let distance = Opened {
        inner: search.distance,
        gap: holes,
        first,
        tie,
    };
    neighbors.push_front(holes, &distance);
    let mut tour = Tour::new(order.into_iter().chain([holes]).collect());
    let open = Search {
        distance: &distance,
        neighbors: &neighbors,
        least_gain: search.least_gain,
        stop: search.stop,
    };
    open.improve(&mut tour, kicks, dice)?;
    let mut order = tour.into_order();
    let gap = order.iter().position(|&node| node == holes).unwrap_or(0);
    order.rotate_left(gap);
    order.remove(0);
    Some(order)
}

/// The tour from one end of its longest move to the other.
fn cut(distance: &impl Distance, tour: &Tour, first: Option<usize>) -> Vec<usize> {
    let length = |hole: usize| distance.between(hole, tour.next(hole));
    let order = |from: usize| -> Vec<usize> {
        let place = (0..tour.len())
            .find(|&place| tour.at(place) == from)
            .unwrap_or(0);
        (0..tour.len())
            .map(|step| tour.at((place + step) % tour.len()))
            .collect()
    };
    if let Some(first) = first {
        let mut order = order(first);
        if length(first) > length(tour.previous(first)) {
            order[1..].reverse();
        }
        return order;
    }
    let longest = (0..tour.len())
        .map(|place| tour.at(place))
        .max_by(|&left, &right| length(left).total_cmp(&length(right)));
    order(longest.map_or(0, |hole| tour.next(hole)))
}

/// Distances with a gap node: nothing to any hole, and tied to the first hole if one is given.
struct Opened<'a, D> {
    inner: &'a D,
    gap: usize,
    first: Option<usize>,
    /// More than any change of the tour can gain.
    tie: f64,
}

impl<D: Distance> Distance for Opened<'_, D> {
    #[inline]
    fn between(&self, from: usize, to: usize) -> f64 {
        match (from == self.gap, to == self.gap) {
            (false, false) => self.inner.between(from, to),
            (true, _) if self.first == Some(to) => -self.tie,
            (_, true) if self.first == Some(from) => -self.tie,
            _ => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::distance::Straight;

    /// Four holes in a row at 0, 10, 13 and 14 mm, numbered 2, 0, 3, 1.
    const ROW: [[f64; 2]; 4] = [[10.0, 0.0], [14.0, 0.0], [0.0, 0.0], [13.0, 0.0]];

    /// A ring is cut at its longest move, whichever way it runs and wherever it is told from.
    #[test]
    fn a_ring_is_cut_at_its_longest_move() {
        let distance = Straight(&ROW);
        let cut_of = |ring: [usize; 4]| cut(&distance, &Tour::new(ring.to_vec()), None);
        // 10, 3, 1 and 14 back.
        for ring in [[2, 0, 3, 1], [0, 3, 1, 2], [3, 1, 2, 0], [1, 2, 0, 3]] {
            assert_eq!(cut_of(ring), [2, 0, 3, 1]);
        }
        assert_eq!(cut_of([1, 3, 0, 2]), [1, 3, 0, 2]);
        // 2 to 3 to 0 to 1 and back: 13, 3, 4, 14.
        assert_eq!(cut_of([3, 0, 1, 2]), [2, 3, 0, 1]);
        // 2 to 0 to 1 to 3 and back: 10, 4, 1, 13.
        assert_eq!(cut_of([0, 1, 3, 2]), [2, 0, 1, 3]);
    }

    /// From a first hole it is cut on the side where its move is longer.
    #[test]
    fn from_a_first_hole_the_shorter_way_is_begun() {
        let distance = Straight(&ROW);
        let tour = Tour::new(alloc::vec![2, 0, 3, 1]);
        let from = |first| cut(&distance, &tour, Some(first));
        // Beside 2 lie moves of 10 and 14, beside 0 of 10 and 3, beside 3 of 3 and 1, beside 1 of 1 and 14.
        assert_eq!(from(2), [2, 0, 3, 1]);
        assert_eq!(from(0), [0, 3, 1, 2]);
        assert_eq!(from(3), [3, 1, 2, 0]);
        assert_eq!(from(1), [1, 3, 0, 2]);
    }

    /// The gap costs nothing on either side, but ties itself to the hole that is to come first; between
    /// holes everything costs what it did.
    #[test]
    fn the_gap_costs_nothing_and_holds_the_first_hole() {
        let inner = Straight(&ROW);
        let opened = |first| Opened {
            inner: &inner,
            gap: 4,
            first,
            tie: 112.0,
        };
        let (free, tied) = (opened(None), opened(Some(3)));
        for hole in 0..4 {
            assert_eq!([free.between(4, hole), free.between(hole, 4)], [0.0, 0.0]);
            let cost = if hole == 3 { -112.0 } else { 0.0 };
            assert_eq!([tied.between(4, hole), tied.between(hole, 4)], [cost; 2]);
            for other in 0..4 {
                assert_eq!(tied.between(hole, other), inner.between(hole, other));
            }
        }
    }
}
