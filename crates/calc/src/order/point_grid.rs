//! Points sorted into square cells, to find near ones without looking at all.

use alloc::vec::Vec;

use super::distance::Distance;

/// About two points a cell, on average.
pub(super) struct PointGrid<'a> {
    points: &'a [[f64; 2]],
    low: [f64; 2],
    cell: f64,
    columns: usize,
    rows: usize,
    /// Where each cell's points begin in `members`.
    begins: Vec<usize>,
    /// How many of a cell's points are still there.
    alive: Vec<usize>,
    members: Vec<usize>,
    /// Where each point stands in `members`.
    slots: Vec<usize>,
}

/// Points of one cell that are looked at; there are more only where very many lie on one spot and
/// few far from it.
const CROWD: usize = 500;

impl<'a> PointGrid<'a> {
    /// Sorts finite points into cells.
    pub(super) fn new(points: &'a [[f64; 2]]) -> Self {
        let (low, high) = bounds(points);
        let (width, height) = (high[0] - low[0], high[1] - low[1]);
        let each = 2.0 / points.len().max(1) as f64;
        // The second term keeps the number of cells down where points lie along a line.
        let cell = libm::sqrt(width * height * each).max(width.max(height) * each);
        let cell = if cell > 0.0 { cell } else { 1.0 };
        let mut grid = PointGrid {
            points,
            low,
            cell,
            columns: (width / cell) as usize + 1,
            rows: (height / cell) as usize + 1,
            begins: Vec::new(),
            alive: Vec::new(),
            members: alloc::vec![0; points.len()],
            slots: alloc::vec![0; points.len()],
        };
        grid.sort_in();
        grid
    }

    fn sort_in(&mut self) {
        let cells: Vec<usize> = self
            .points
            .iter()
            .map(|&point| self.cell_of(point))
            .collect();
        self.alive = alloc::vec![0; self.columns * self.rows];
        for &cell in &cells {
            self.alive[cell] += 1;
        }
        let mut begin = 0;
        for &count in &self.alive {
            self.begins.push(begin);
            begin += count;
        }
        let mut next = self.begins.clone();
        for (point, &cell) in cells.iter().enumerate() {
            self.members[next[cell]] = point;
            self.slots[point] = next[cell];
            next[cell] += 1;
        }
    }

    fn cell_of(&self, [x, y]: [f64; 2]) -> usize {
        let [column, row] = self.place_of([x, y]);
        row * self.columns + column
    }

    fn place_of(&self, [x, y]: [f64; 2]) -> [usize; 2] {
        let column = ((x - self.low[0]) / self.cell) as usize;
        let row = ((y - self.low[1]) / self.cell) as usize;
        [column.min(self.columns - 1), row.min(self.rows - 1)]
    }

    /// The ring that surely holds the farthest cell.
    pub(super) fn last_ring(&self) -> usize {
        self.columns.max(self.rows)
    }

    /// What lies outside the rings up to this one is at least so far away, along one axis.
    pub(super) fn reach_of_ring(&self, ring: usize) -> f64 {
        // A hair less than the cell, for points that rounding has put beside their cell.
        ring as f64 * self.cell * (1.0 - 1e-9)
    }

    /// Takes a point out of the search.
    pub(super) fn remove(&mut self, point: usize) {
        let cell = self.cell_of(self.points[point]);
        let last = self.begins[cell] + self.alive[cell] - 1;
        let slot = self.slots[point];
        let other = self.members[last];
        self.members.swap(slot, last);
        self.slots[other] = slot;
        self.slots[point] = last;
        self.alive[cell] -= 1;
    }

    /// Shows every point left in the square ring of cells around a point.
    pub(super) fn visit_ring(&self, center: usize, ring: usize, mut visit: impl FnMut(usize)) {
        let [column, row] = self.place_of(self.points[center]);
        let (left, right) = (column.checked_sub(ring), column + ring);
        let (bottom, top) = (row.checked_sub(ring), row + ring);
        let columns = left.unwrap_or(0)..=right.min(self.columns - 1);
        for row in bottom.unwrap_or(0)..=top.min(self.rows - 1) {
            let whole = Some(row) == bottom || row == top;
            if whole {
                columns
                    .clone()
                    .for_each(|column| self.visit(row, column, center, &mut visit));
                continue;
            }
            if let Some(left) = left {
                self.visit(row, left, center, &mut visit);
            }
            if right < self.columns {
                self.visit(row, right, center, &mut visit);
            }
        }
    }

    fn visit(&self, row: usize, column: usize, center: usize, visit: &mut impl FnMut(usize)) {
        let cell = row * self.columns + column;
        let (begin, alive) = (self.begins[cell], self.alive[cell]);
        // Of a crowd those that stand beside the center in the table are near enough.
        let most = alive.min(CROWD);
        let beside = self.slots[center].saturating_sub(begin + CROWD / 2);
        let from = begin + beside.min(alive - most);
        let members = &self.members[from..from + most];
        members.iter().for_each(|&point| visit(point));
    }

    /// The nearest point left; the lowest index of several.
    pub(super) fn nearest(&self, center: usize, distance: &impl Distance) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for ring in 0..=self.last_ring() {
            self.visit_ring(center, ring, |point| {
                let candidate = (distance.between(center, point), point);
                if best.is_none_or(|best| candidate < best) {
                    best = Some(candidate);
                }
            });
            if best.is_some_and(|(length, _)| length <= self.reach_of_ring(ring)) {
                break;
            }
        }
        best.map(|(_, point)| point)
    }
}

/// Lowest and highest coordinates.
pub(super) fn bounds(points: &[[f64; 2]]) -> ([f64; 2], [f64; 2]) {
    let Some(&first) = points.first() else {
        return ([0.0; 2], [0.0; 2]);
    };
    points.iter().fold((first, first), |(low, high), &[x, y]| {
        (
            [low[0].min(x), low[1].min(y)],
            [high[0].max(x), high[1].max(y)],
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::Dice;
    use crate::order::distance::{SlowerAxis, Straight};
    use crate::order::samples::samples;

    #[test]
    fn rings_meet_every_point_once_and_near_ones_first() {
        for points in samples() {
            let grid = PointGrid::new(&points);
            for center in 0..points.len() {
                let mut met = Vec::new();
                for ring in 0..=grid.last_ring() {
                    grid.visit_ring(center, ring, |point| met.push(point));
                    // Whoever is nearer than the ring's reach has been met.
                    let reach = grid.reach_of_ring(ring);
                    for point in 0..points.len() {
                        let near = SlowerAxis(&points).between(center, point) < reach;
                        assert!(!near || met.contains(&point), "{center}, {ring}");
                    }
                }
                met.sort_unstable();
                assert!(met.into_iter().eq(0..points.len()));
            }
        }
    }

    /// Against a look at all: the nearest that is left, of equals the first.
    #[test]
    fn the_nearest_that_is_left_is_found() {
        for points in samples() {
            let distance = Straight(&points);
            let mut grid = PointGrid::new(&points);
            let mut left: Vec<usize> = (0..points.len()).collect();
            let mut dice = Dice::new(5);
            while !left.is_empty() {
                let center = dice.below(points.len());
                let by_length = |&point: &usize| (distance.between(center, point), point);
                let nearest = left
                    .iter()
                    .map(by_length)
                    .min_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
                assert_eq!(
                    grid.nearest(center, &distance),
                    nearest.map(|(_, point)| point)
                );
                let gone = left.swap_remove(dice.below(left.len()));
                grid.remove(gone);
            }
            assert_eq!(grid.nearest(0, &distance), None);
        }
    }

    /// About two points a cell, so that a look at a ring is a look at few.
    #[test]
    fn cells_hold_few_points() {
        for points in samples() {
            let grid = PointGrid::new(&points);
            assert!(
                grid.columns * grid.rows <= points.len() + 3,
                "{}",
                points.len()
            );
        }
        let even: Vec<[f64; 2]> = (0..400_u16)
            .map(|at| [f64::from(at % 20) - 50.0, f64::from(at / 20) + 300.0])
            .collect();
        let grid = PointGrid::new(&even);
        assert!(grid.columns * grid.rows >= 150);
        assert!(grid.alive.iter().all(|&number| number <= 4));
    }
}
