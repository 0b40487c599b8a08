//! The shortest moves first, as long as they make stretches and no ring; the stretches are then
//! joined end to end.

use alloc::vec::Vec;

use crate::order::{distance::Distance, neighbors::Neighbors, point_grid::PointGrid};

/// The tour from the shortest moves of the neighbor lists.
pub(in crate::order) fn greedy(
    points: &[[f64; 2]],
    neighbors: &Neighbors,
    distance: &impl Distance,
) -> Vec<usize> {
    let links = shortest_links(points.len(), neighbors);
    let mut grid = PointGrid::new(points);
    for hole in (0..points.len()).filter(|&hole| links[hole].len() == 2) {
        grid.remove(hole);
    }
    let mut order = Vec::with_capacity(points.len());
    let mut head = (0..points.len()).find(|&hole| links[hole].len() < 2);
    while let Some(first) = head {
        let begin = order.len();
        walk(&links, first, &mut order);
        let last = order[order.len() - 1];
        grid.remove(first);
        if order.len() - begin > 1 {
            grid.remove(last);
        }
        head = grid.nearest(last, distance);
    }
    order
}

/// At most two links a hole, none closing a ring.
fn shortest_links(holes: usize, neighbors: &Neighbors) -> Vec<Vec<usize>> {
    let mut moves: Vec<(f64, usize, usize)> = Vec::new();
    for hole in 0..holes {
        for &(length, other) in neighbors.of(hole) {
            // A move listed from both sides may come twice: the second time it would close a ring.
            moves.push((length, hole.min(other), hole.max(other)));
        }
    }
    moves.sort_by(|left, right| {
        (left.0.total_cmp(&right.0)).then((left.1, left.2).cmp(&(right.1, right.2)))
    });
    let mut links: Vec<Vec<usize>> = alloc::vec![Vec::new(); holes];
    // The other end of the stretch, right at its ends only.
    let mut ends: Vec<usize> = (0..holes).collect();
    for (_, one, two) in moves {
        if links[one].len() < 2 && links[two].len() < 2 && ends[one] != two {
            links[one].push(two);
            links[two].push(one);
            let (far_one, far_two) = (ends[one], ends[two]);
            ends[far_one] = far_two;
            ends[far_two] = far_one;
        }
    }
    links
}

/// Follows a stretch from its end.
fn walk(links: &[Vec<usize>], first: usize, order: &mut Vec<usize>) {
    let (mut before, mut here) = (first, first);
    loop {
        order.push(here);
        let onward = links[here].iter().find(|&&other| other != before);
        let Some(&onward) = onward else {
            return;
        };
        (before, here) = (here, onward);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::distance::Straight;
    use crate::order::samples::samples;

    /// By the book: of all moves of the lists the shortest that leaves no hole with three and closes no
    /// ring, until there is none; from the first loose end through its stretch, then on to the nearest
    /// loose end that is left.
    fn by_the_book(points: &[[f64; 2]], neighbors: &Neighbors) -> Vec<usize> {
        let distance = Straight(points);
        let mut moves: Vec<(f64, usize, usize)> = Vec::new();
        for one in 0..points.len() {
            for &(length, two) in neighbors.of(one) {
                moves.push((length, one.min(two), one.max(two)));
            }
        }
        moves.sort_by(|a, b| a.0.total_cmp(&b.0).then((a.1, a.2).cmp(&(b.1, b.2))));
        let mut stretches: Vec<Vec<usize>> =
            (0..points.len()).map(|hole| alloc::vec![hole]).collect();
        for (_, one, two) in moves {
            let ending_in = |hole: usize| {
                let ends = |stretch: &Vec<usize>| {
                    stretch.first() == Some(&hole) || stretch.last() == Some(&hole)
                };
                stretches.iter().position(ends)
            };
            let (Some(at), Some(with)) = (ending_in(one), ending_in(two)) else {
                continue;
            };
            if at == with {
                continue;
            }
            let (mut left, mut right) = (stretches[at].clone(), stretches[with].clone());
            if left.last() != Some(&one) {
                left.reverse();
            }
            if right.first() != Some(&two) {
                right.reverse();
            }
            left.extend(right);
            stretches[at] = left;
            stretches.remove(with);
        }
        let mut order: Vec<usize> = Vec::new();
        let mut end = None;
        while !stretches.is_empty() {
            let ends = stretches
                .iter()
                .flat_map(|stretch| [stretch[0], stretch[stretch.len() - 1]]);
            let from = |hole: usize| end.map_or(0.0, |end| distance.between(end, hole));
            let next = ends.min_by(|&a, &b| from(a).total_cmp(&from(b)).then(a.cmp(&b)));
            let has = |stretch: &Vec<usize>| {
                stretch.first().copied() == next || stretch.last().copied() == next
            };
            let at = stretches.iter().position(has).unwrap_or(0);
            let mut stretch = stretches.remove(at);
            if stretch.first().copied() != next {
                stretch.reverse();
            }
            end = stretch.last().copied();
            order.extend(stretch);
        }
        order
    }

    #[test]
    fn the_shortest_moves_are_taken_first() {
        for points in samples() {
            let distance = Straight(&points);
            let neighbors = Neighbors::new(&points, &distance);
            let found = greedy(&points, &neighbors, &distance);
            assert_eq!(found, by_the_book(&points, &neighbors));
        }
    }
}
