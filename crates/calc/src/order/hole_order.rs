//! The question and the answer of "hole order".

use alloc::vec::Vec;

use super::{
    distance::{Distance, Metric, SlowerAxis, Straight},
    iterate::{Search, least_gain},
    neighbors::Neighbors,
    open::opened,
    start::{greedy, hilbert, nearest},
    tour::Tour,
};
use crate::dice::Dice;
use crate::stop::{Stop, never};

/// Farthest coordinate taken [mm]; keeps squares inside the numbers.
const FARTHEST_MM: f64 = 1e9;

/// An order of holes with little travel between them.
///
/// Formula: length = sum of the moves from hole to hole, each `max(dx / vx, dy / vy)` [min] or
/// `sqrt(dx^2 + dy^2)` [mm] as the metric says; a closed tour has the move back as well. A search
/// makes it small.
///
/// - `points`: x and y of each hole [mm], -1e9 to 1e9; holes may share a place.
/// - `metric`: what a move costs.
/// - `ends`: open path, open path from a given hole, or closed tour.
/// - `effort`: kicks and seed: the same on the same holes gives the same order. [`kicks_for`]
///   gives a sensible number.
///
/// Result: every index once, and the length in the metric's unit. Holes whose place is no number, or
/// out of range, come last in the given order and are told in [`HoleOrder::unlocated`]; their moves
/// are not in the length.
///
/// Validity: a good order, not the shortest. With 30 kicks a hole 0 to 2 % above the shortest tour
/// is usual, up to 5 % where holes lie in a few dense clusters. An open path is never longer than
/// the closed tour of the same effort.
///
/// ```
/// use quillbore_calc::order::{Ends, Metric, OrderEffort, hole_order};
///
/// let points = [[0.0, 0.0], [10.0, 0.0], [10.0, 5.0], [0.0, 5.0]];
/// let found = hole_order(&points, Metric::Straight, Ends::Closed, &OrderEffort::for_holes(4));
/// assert_eq!(found.order, [0, 1, 2, 3]);
/// assert_eq!(found.length, 30.0);
/// ```
///
/// Source: iterated local search as described in the module; own measurements against published
/// optima.
#[must_use]
pub fn hole_order(
    points: &[[f64; 2]],
    metric: Metric,
    ends: Ends,
    effort: &OrderEffort,
) -> HoleOrder {
    hole_order_until(points, metric, ends, effort, &never).unwrap_or_default()
}

/// [`hole_order`], which asks at each kick whether to go on; none where it was stopped.
///
/// Formula: that of [`hole_order`].
///
/// - `points`: x and y of each hole [mm], -1e9 to 1e9.
/// - `metric`, `ends`, `effort`: as there.
/// - `stop`: true where nobody wants the order any more.
///
/// Result: the order, or `None` where it was stopped.
///
/// ```
/// use quillbore_calc::order::{Ends, Metric, OrderEffort, hole_order_until};
/// let points = [[0.0, 0.0], [10.0, 0.0], [3.0, 0.0]];
/// let effort = OrderEffort::for_holes(3);
/// let order = |stop| hole_order_until(&points, Metric::Straight, Ends::Open, &effort, stop);
/// let found = order(&|| false).unwrap();
/// assert_eq!((found.order, found.length), (vec![0, 2, 1], 10.0));
/// assert_eq!(order(&|| true), None);
/// ```
///
/// Source: as [`hole_order`].
#[must_use]
pub fn hole_order_until(
    points: &[[f64; 2]],
    metric: Metric,
    ends: Ends,
    effort: &OrderEffort,
    stop: Stop<'_>,
) -> Option<HoleOrder> {
    let is_located = |&hole: &usize| {
        let range = -FARTHEST_MM..=FARTHEST_MM;
        points[hole].iter().all(|value| range.contains(value))
    };
    let (located, unlocated): (Vec<usize>, Vec<usize>) = (0..points.len()).partition(is_located);
    let places: Vec<[f64; 2]> = located.iter().map(|&hole| points[hole]).collect();
    let scaled = metric.scaled(&places);
    let ends = ends.among(&located);
    let (order, length) = match metric {
        Metric::Straight => solve(&scaled, &Straight(&scaled), ends, effort, stop)?,
        Metric::PerAxis { .. } => solve(&scaled, &SlowerAxis(&scaled), ends, effort, stop)?,
    };
    let order = order.into_iter().map(|place| located[place]);
    Some(HoleOrder {
        order: order.chain(unlocated.iter().copied()).collect(),
        length,
        unlocated,
    })
}

/// What happens at the ends of the order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// Begin and end anywhere.
    Open,
    /// Begin at this hole, end anywhere; put the home position among the points to begin there.
    From(usize),
    /// Come back to the beginning.
    Closed,
}

impl Ends {
    /// The same for the located holes alone; a first hole that isn't one of them is no wish.
    fn among(self, located: &[usize]) -> Self {
        match self {
            Ends::From(hole) => located.binary_search(&hole).map_or(Ends::Open, Ends::From),
            Ends::Open | Ends::Closed => self,
        }
    }
}

/// How long to look for a shorter order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OrderEffort {
    /// Kicks of the closed tour; an open path gets half as many again once it is cut.
    pub kicks: u64,
    /// Start of the random sequence.
    pub seed: u64,
}

impl OrderEffort {
    /// A sensible effort for so many holes.
    ///
    /// Formula: [`kicks_for`] kicks, from the first seed.
    ///
    /// - `holes`: holes to be ordered, 0 and up.
    ///
    /// Result: effort.
    ///
    /// ```
    /// use quillbore_calc::order::OrderEffort;
    /// assert_eq!(OrderEffort::for_holes(1_000), OrderEffort { kicks: 30_000, seed: 1 });
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn for_holes(holes: usize) -> Self {
        OrderEffort {
            kicks: kicks_for(holes),
            seed: 1,
        }
    }
}

/// Kicks worth their time.
///
/// Formula: 30 a hole, at least 2,000 and at most 600,000.
///
/// - `holes`: holes to be ordered, 0 and up.
///
/// Result: kicks.
///
/// ```
/// use quillbore_calc::order::kicks_for;
/// assert_eq!([10, 1_000, 50_000].map(kicks_for), [2_000, 30_000, 600_000]);
/// ```
///
/// Source: ours, by own measurements.
#[must_use]
pub fn kicks_for(holes: usize) -> u64 {
    (holes as u64).saturating_mul(30).clamp(2_000, 600_000)
}

/// The order found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HoleOrder {
    /// Every index of the points once, in drilling order.
    pub order: Vec<usize>,
    /// Travel between the located holes, in the metric's unit.
    pub length: f64,
    /// Holes whose place is no number, or beyond 1e9 mm.
    pub unlocated: Vec<usize>,
}

/// Order and length for finite points; none where it is stopped.
fn solve<D: Distance>(
    points: &[[f64; 2]],
    distance: &D,
    ends: Ends,
    effort: &OrderEffort,
    stop: Stop<'_>,
) -> Option<(Vec<usize>, f64)> {
    let neighbors = Neighbors::new(points, distance);
    let search = Search {
        distance,
        neighbors: &neighbors,
        least_gain: least_gain(points),
        stop,
    };
    let mut dice = Dice::new(effort.seed);
    let closed = closed_tour(points, &search, effort.kicks, &mut dice)?;
    let length = |order: &[usize]| -> f64 {
        let moves = order
            .windows(2)
            .map(|pair| distance.between(pair[0], pair[1]));
        // A sum of nothing would be minus zero.
        moves.sum::<f64>() + 0.0
    };
    let open = |first: Option<usize>, dice: &mut Dice| {
        let order = opened(
            &search,
            neighbors.clone(),
            &closed,
            first,
            effort.kicks / 2,
            dice,
        )?;
        let length = length(&order);
        Some((order, length))
    };
    Some(match ends {
        Ends::Open => {
            let (mut order, length) = open(None, &mut dice)?;
            // Either end may come first: the lower number does.
            if order.first() > order.last() {
                order.reverse();
            }
            (order, length)
        }
        Ends::From(first) => {
            let (mut order, length) = open(Some(first), &mut dice)?;
            if order.first() != Some(&first) {
                order.reverse();
            }
            (order, length)
        }
        Ends::Closed => {
            let length = search.length(&closed);
            (from_hole_zero(closed.into_order()), length)
        }
    })
}

/// Three starts with 15 % of the kicks each; the best gets the rest.
fn closed_tour<D: Distance>(
    points: &[[f64; 2]],
    search: &Search<'_, D>,
    kicks: u64,
    dice: &mut Dice,
) -> Option<Tour> {
    let share = kicks / 20 * 3;
    let starts = [
        greedy(points, search.neighbors, search.distance),
        nearest(points, search.distance),
        hilbert(points),
    ];
    let [mut best, others @ ..] = starts.map(Tour::new);
    search.improve(&mut best, share, dice)?;
    for mut other in others {
        search.improve(&mut other, share, dice)?;
        if search.length(&other) < search.length(&best) {
            best = other;
        }
    }
    search.improve(&mut best, kicks - 3 * share, dice)?;
    Some(best)
}

/// A ring told from hole 0, on towards the lower of its two neighbors.
fn from_hole_zero(mut order: Vec<usize>) -> Vec<usize> {
    let zero = order.iter().position(|&hole| hole == 0).unwrap_or(0);
    order.rotate_left(zero);
    if order.len() > 2 && order[1] > order[order.len() - 1] {
        order[1..].reverse();
    }
    order
}
