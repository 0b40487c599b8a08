//! Kicks: a small random change, a descent around it, and back again if that was no gain.

use super::{
    descent::Descent, distance::Distance, neighbors::Neighbors, point_grid::bounds, tour::Tour,
};
use crate::dice::Dice;
use crate::stop::Stop;

/// Longest of the two stretches a kick swaps.
const LONGEST_STRETCH: usize = 50;

/// Everything a search needs but the tour.
pub(super) struct Search<'a, D> {
    pub(super) distance: &'a D,
    pub(super) neighbors: &'a Neighbors,
    /// Gains up to this are rounding.
    pub(super) least_gain: f64,
    /// Asked at each kick.
    pub(super) stop: Stop<'a>,
}

/// What counts as rounding among these points.
pub(super) fn least_gain(points: &[[f64; 2]]) -> f64 {
    let (low, high) = bounds(points);
    let size = high[0] - low[0] + high[1] - low[1];
    size * 1e-9
}

impl<D: Distance> Search<'_, D> {
    /// Improves the whole tour, then kicks it so many times; none where it is stopped.
    pub(super) fn improve(&self, tour: &mut Tour, kicks: u64, dice: &mut Dice) -> Option<()> {
        // With three nodes there is only one tour.
        if tour.len() < 4 {
            return Some(());
        }
        let mut descent = Descent::new(tour.len(), self.distance, self.neighbors, self.least_gain);
        descent.look_at((0..tour.len()).map(|place| tour.at(place)));
        descent.run(tour);
        for _ in 0..kicks {
            if (self.stop)() {
                return None;
            }
            tour.mark();
            let cost = self.kick(tour, &mut descent, dice);
            if descent.run(tour) < cost {
                tour.take_back();
            }
        }
        Some(())
    }

    /// Length of the closed tour.
    pub(super) fn length(&self, tour: &Tour) -> f64 {
        let moves = (0..tour.len()).map(|place| {
            let node = tour.at(place);
            self.distance.between(node, tour.next(node))
        });
        // A sum of nothing would be minus zero.
        moves.sum::<f64>() + 0.0
    }

    /// Swaps two neighboring stretches of random length at a random place (a double bridge that
    /// stays local); returns how much longer the tour is.
    fn kick(&self, tour: &mut Tour, descent: &mut Descent<'_, D>, dice: &mut Dice) -> f64 {
        let all = tour.len();
        let longest = LONGEST_STRETCH.min((all - 2) / 2);
        let place = dice.below(all);
        let (one, two) = (1 + dice.below(longest), 1 + dice.below(longest));
        let at = |steps: usize| tour.at((place + steps) % all);
        // before [first .. last] [head .. tail] after
        let ends = [
            at(0),
            at(1),
            at(one),
            at(one + 1),
            at(one + two),
            at(one + two + 1),
        ];
        let [before, first, last, head, tail, after] = ends;
        let between = |from, to| self.distance.between(from, to);
        let cost = between(before, head) + between(tail, first) + between(last, after)
            - between(before, first)
            - between(last, head)
            - between(tail, after);
        tour.reverse(first, tail);
        // before [tail .. head] [last .. first] after
        tour.reverse_between(tail, before, head);
        // before [head .. tail] [last .. first] after
        tour.reverse_between(last, tail, first);
        descent.look_at(ends);
        cost
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::distance::Straight;
    use crate::order::samples::samples;
    use crate::stop::never;

    /// A kick costs what the tour is longer by, loses nobody, and is taken back whole.
    #[test]
    fn a_kick_costs_what_the_tour_is_longer_by() {
        let mut dice = Dice::new(17);
        for points in samples().into_iter().filter(|points| points.len() > 3) {
            let distance = Straight(&points);
            let search = Search {
                distance: &distance,
                neighbors: &Neighbors::new(&points, &distance),
                least_gain: least_gain(&points),
                stop: &never,
            };
            let mut descent = Descent::new(points.len(), &distance, search.neighbors, 1e-9);
            let mut tour = Tour::new((0..points.len()).collect());
            for _ in 0..100 {
                let before = search.length(&tour);
                tour.mark();
                let cost = search.kick(&mut tour, &mut descent, &mut dice);
                assert!((search.length(&tour) - before - cost).abs() < 1e-6);
                if dice.below(2) == 0 {
                    tour.take_back();
                    assert!((search.length(&tour) - before).abs() < 1e-6);
                }
            }
            let mut order = tour.into_order();
            order.sort_unstable();
            assert!(order.into_iter().eq(0..points.len()));
        }
    }

    /// However many kicks, a tour never comes out longer than it went in.
    #[test]
    fn a_tour_never_comes_out_longer() {
        for points in samples() {
            let distance = Straight(&points);
            let search = Search {
                distance: &distance,
                neighbors: &Neighbors::new(&points, &distance),
                least_gain: least_gain(&points),
                stop: &never,
            };
            let mut tour = Tour::new((0..points.len()).collect());
            let mut dice = Dice::new(19);
            let mut before = search.length(&tour);
            for kicks in [0, 1, 2, 3, 5, 8, 13] {
                assert_eq!(search.improve(&mut tour, kicks, &mut dice), Some(()));
                let after = search.length(&tour);
                assert!(after <= before + 1e-9, "{after} after {before}");
                before = after;
            }
        }
    }

    /// A ring of four sides of 3 and 4 mm, and of nobody.
    #[test]
    fn a_tour_is_as_long_as_its_moves() {
        let points = [[0.0, 0.0], [3.0, 0.0], [3.0, 4.0], [0.0, 4.0]];
        let distance = Straight(&points);
        let search = Search {
            distance: &distance,
            neighbors: &Neighbors::new(&points, &distance),
            least_gain: least_gain(&points),
            stop: &never,
        };
        assert_eq!(search.length(&Tour::new(alloc::vec![0, 1, 2, 3])), 14.0);
        assert_eq!(search.length(&Tour::new(alloc::vec![0, 2, 1, 3])), 18.0);
        // A billionth of the width and height together is too little to be a gain.
        assert!((least_gain(&points) - 7e-9).abs() < 1e-20);
        assert_eq!(least_gain(&[]), 0.0);
    }
}
