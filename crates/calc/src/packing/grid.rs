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
