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
