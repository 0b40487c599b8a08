//! A closed tour as an array; every change is a reversal, so every change can be taken back.

use alloc::vec::Vec;

/// Nodes in order with the place of each.
pub(super) struct Tour {
    order: Vec<usize>,
    places: Vec<usize>,
    /// First place and number of nodes of each reversal since the last mark.
    log: Vec<(usize, usize)>,
}

impl Tour {
    /// Takes a permutation of 0..n.
    pub(super) fn new(order: Vec<usize>) -> Self {
        let mut places = alloc::vec![0; order.len()];
        for (place, &node) in order.iter().enumerate() {
            places[node] = place;
        }
        Tour {
            order,
            places,
            log: Vec::new(),
        }
    }

    /// The number of nodes.
    pub(super) fn len(&self) -> usize {
        self.order.len()
    }

    /// The node at a place.
    pub(super) fn at(&self, place: usize) -> usize {
        self.order[place]
    }

    /// The node after.
    #[inline]
    pub(super) fn next(&self, node: usize) -> usize {
        let place = self.places[node] + 1;
        self.order[if place == self.order.len() { 0 } else { place }]
    }

    /// The node before.
    #[inline]
    pub(super) fn previous(&self, node: usize) -> usize {
        let place = self.places[node];
        self.order[if place == 0 { self.order.len() } else { place } - 1]
    }

    /// Reverses the way from one node on to another.
    ///
    /// The shorter of that way and the rest is turned: the tour is the same, but may now run the
    /// other way round, so callers go by nodes and ask again what is next.
    pub(super) fn reverse(&mut self, from: usize, to: usize) {
        let (all, first, last) = (self.len(), self.places[from], self.places[to]);
        let inner = (last + all - first) % all + 1;
        if 2 * inner <= all {
            self.turn(first, inner);
            self.log.push((first, inner));
        } else {
            let first = (last + 1) % all;
            self.turn(first, all - inner);
            self.log.push((first, all - inner));
        }
    }

    /// Reverses the way between two nodes that are the ends of a known stretch, whichever end comes
    /// first.
    pub(super) fn reverse_between(&mut self, inside: usize, outside: usize, far: usize) {
        if self.next(outside) == inside {
            self.reverse(inside, far);
        } else {
            self.reverse(far, inside);
        }
    }

    /// From here on changes may be taken back.
    pub(super) fn mark(&mut self) {
        self.log.clear();
    }

    /// Takes back all changes since the mark.
    pub(super) fn take_back(&mut self) {
        while let Some((first, number)) = self.log.pop() {
            self.turn(first, number);
        }
    }

    /// The nodes in order.
    pub(super) fn into_order(self) -> Vec<usize> {
        self.order
    }

    fn turn(&mut self, first: usize, number: usize) {
        let all = self.order.len();
        let (mut left, mut right) = (first, first + number + all - 1);
        right %= all;
        for _ in 0..number / 2 {
            self.order.swap(left, right);
            self.places[self.order[left]] = left;
            self.places[self.order[right]] = right;
            left = if left + 1 == all { 0 } else { left + 1 };
            right = if right == 0 { all - 1 } else { right - 1 };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::Dice;

    /// The ring read from node 0 on, whichever place it stands at.
    fn ring(tour: &Tour) -> Vec<usize> {
        let mut ring = alloc::vec![0];
        while ring.len() < tour.len() {
            ring.push(tour.next(ring[ring.len() - 1]));
        }
        ring
    }

    /// A stretch turned by the book: cut out of the ring, put back the other way round.
    fn turned(tour: &Tour, from: usize, to: usize) -> Vec<usize> {
        let mut stretch = alloc::vec![from];
        while stretch[stretch.len() - 1] != to {
            stretch.push(tour.next(stretch[stretch.len() - 1]));
        }
        let mut after = tour.next(to);
        stretch.reverse();
        while stretch.len() < tour.len() {
            stretch.push(after);
            after = tour.next(after);
        }
        let zero = stretch.iter().position(|&node| node == 0).unwrap_or(0);
        stretch.rotate_left(zero);
        stretch
    }

    /// A ring is the same the other way round.
    fn same(one: &[usize], other: &[usize]) -> bool {
        let back = core::iter::once(&other[0]).chain(other[1..].iter().rev());
        one == other || one.iter().eq(back)
    }

    #[test]
    fn stretches_are_turned_and_turned_back() {
        let mut dice = Dice::new(7);
        for nodes in [1, 2, 3, 4, 5, 8, 13] {
            let mut tour = Tour::new((0..nodes).rev().collect());
            for _ in 0..200 {
                let before = tour.order.clone();
                tour.mark();
                for _ in 0..3 {
                    let (from, to) = (dice.below(nodes), dice.below(nodes));
                    let expected = turned(&tour, from, to);
                    tour.reverse(from, to);
                    assert!(same(&ring(&tour), &expected), "{from} to {to} of {nodes}");
                    for node in 0..nodes {
                        assert_eq!(tour.at(tour.places[node]), node);
                        assert_eq!(tour.previous(tour.next(node)), node);
                    }
                }
                if dice.below(2) == 0 {
                    tour.take_back();
                    assert_eq!(tour.order, before);
                }
            }
        }
    }
}
