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
