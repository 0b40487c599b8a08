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
                    .for_each(|column| self.visit(row, column, &mut visit));
                continue;
            }
            if let Some(left) = left {
                self.visit(row, left, &mut visit);
            }
            if right < self.columns {
                self.visit(row, right, &mut visit);
            }
        }
    }

    fn visit(&self, row: usize, column: usize, visit: &mut impl FnMut(usize)) {
        let cell = row * self.columns + column;
        let members = &self.members[self.begins[cell]..][..self.alive[cell]];
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
