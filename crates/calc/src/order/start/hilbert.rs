//! Holes along a Hilbert curve: quick, and never torn far apart.

use alloc::vec::Vec;

use crate::order::point_grid::bounds;

/// Levels of the curve; cells a 65,536th of the part's size.
const LEVELS: u32 = 16;

/// Order along the curve over the square around all points.
pub(in crate::order) fn hilbert(points: &[[f64; 2]]) -> Vec<usize> {
    let (low, high) = bounds(points);
    let size = (high[0] - low[0]).max(high[1] - low[1]);
    let cells = f64::from((1_u32 << LEVELS) - 1);
    let cell = |value: f64, low: f64| {
        if size > 0.0 {
            ((value - low) / size * cells) as u32
        } else {
            0
        }
    };
    let mut order: Vec<usize> = (0..points.len()).collect();
    order.sort_by_cached_key(|&point| {
        let [x, y] = points[point];
        along_curve(cell(x, low[0]), cell(y, low[1]))
    });
    order
}

/// How far along the curve a cell comes.
fn along_curve(mut x: u32, mut y: u32) -> u64 {
    let mut along = 0;
    for level in (0..LEVELS).rev() {
        let side = 1 << level;
        let (right, upper) = (u32::from(x & side > 0), u32::from(y & side > 0));
        along += u64::from(side) * u64::from(side) * u64::from((3 * right) ^ upper);
        // Each quarter is the curve again, the lower two turned over.
        if upper == 0 {
            if right == 1 {
                (x, y) = (!x, !y);
            }
            (x, y) = (y, x);
        }
        (x, y) = (x & (side - 1), y & (side - 1));
    }
    along
}

#[cfg(test)]
mod tests {
    use alloc::collections::BTreeMap;
    use alloc::vec::Vec;

    use super::{along_curve, hilbert};

    #[test]
    fn the_curve_goes_from_cell_to_touching_cell() {
        // The corner of 64 x 64 cells is one run of the curve, so it must be one path.
        let cells: BTreeMap<u64, (u32, u32)> = (0..64 * 64)
            .map(|cell| (cell % 64, cell / 64))
            .map(|(x, y)| (along_curve(x, y), (x, y)))
            .collect();
        assert!(cells.keys().copied().eq(0..64 * 64));
        for (one, two) in cells.values().zip(cells.values().skip(1)) {
            assert_eq!(
                one.0.abs_diff(two.0) + one.1.abs_diff(two.1),
                1,
                "{one:?} {two:?}"
            );
        }
    }

    /// Holes in an even grid, wherever it lies and listed in leaps, are visited from one to the next.
    #[test]
    fn a_grid_is_visited_from_hole_to_hole_next_to_it() {
        for [left, bottom] in [[0.0, 0.0], [350.0, -20.0], [-20.0, 350.0], [-3.5, -3.5]] {
            let points: Vec<[f64; 2]> = (0..64_u16)
                .map(|hole| hole * 27 % 64)
                .map(|hole| [left + f64::from(hole % 8), bottom + f64::from(hole / 8)])
                .collect();
            let order = hilbert(&points);
            assert_eq!(order.len(), 64);
            for pair in order.windows(2) {
                let [one, two] = [points[pair[0]], points[pair[1]]];
                let apart = (one[0] - two[0]).abs() + (one[1] - two[1]).abs();
                assert!((apart - 1.0).abs() < 1e-9, "{one:?} {two:?}");
            }
        }
        // Of holes at one place each comes in turn.
        assert_eq!(hilbert(&[[2.0, 3.0]; 3]), [0, 1, 2]);
        assert!(hilbert(&[]).is_empty());
    }
}
