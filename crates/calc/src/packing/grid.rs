//! Lengths in cells of a coarser grid, for the bit tables of repacking.

use super::lot::Lot;

/// Cells an electrode is divided into at most.
const MOST_CELLS: i64 = 8_192;

/// A grid that holds every wear exactly where the electrode is short enough for that.
#[derive(Clone, Copy, Debug)]
pub(super) struct Grid {
    cell: i64,
}

impl Grid {
    /// Takes the wears' common measure, or the finest cell allowed if that is too fine.
    pub(super) fn new(lot: &Lot) -> Self {
        let common = lot
            .items
            .iter()
            .fold(0, |common, item| common_measure(common, item.wear));
        let finest = lot.full / MOST_CELLS + 1;
        Grid {
            cell: common.max(finest),
        }
    }

    /// Whole cells in a length: for capacities.
    pub(super) fn down(self, length: i64) -> usize {
        (length / self.cell) as usize
    }

    /// Cells that cover a length: for wears, so that what fits in cells fits in truth.
    pub(super) fn up(self, length: i64) -> usize {
        ((length + self.cell - 1) / self.cell) as usize
    }
}

/// Euclid's greatest common divisor.
fn common_measure(left: i64, right: i64) -> i64 {
    if right == 0 {
        left
    } else {
        common_measure(right, left % right)
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::lot;
    use super::*;

    /// Cells of the wears' common measure, and at most 8,192 of them; usable lengths are cut down to whole
    /// cells, wears filled up, so that what fits in cells fits.
    #[test]
    fn lengths_in_cells() {
        let common = Grid::new(&lot(1000, None, &[(0, 60, 1), (0, 45, 1), (0, 30, 1)]));
        assert_eq!(
            [common.down(1000), common.down(14), common.down(15)],
            [66, 0, 1]
        );
        assert_eq!(
            [common.up(60), common.up(45), common.up(46), common.up(0)],
            [4, 3, 4, 0]
        );
        // 1,000,000 in cells of at least 123: without a common measure 8,130 of them.
        let fine = Grid::new(&lot(1_000_000, None, &[(0, 7, 1), (0, 4, 1)]));
        assert_eq!(
            [
                fine.down(1_000_000),
                fine.down(122),
                fine.up(123),
                fine.up(124)
            ],
            [8130, 0, 1, 2]
        );
    }
}
