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

    use super::along_curve;

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
}
