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
