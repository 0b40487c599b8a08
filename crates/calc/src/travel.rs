//! Table travel between holes: along a quick sweep, or along an order that was searched.

use alloc::vec::Vec;

/// Order of a sweep over points in strips, there and back.
///
/// Formula: the shorter side a of the points' extent is cut into `sqrt(n a / (3 b))` strips, rounded
/// up, that run along the longer side b; every other strip is taken backward.
///
/// - `points_mm`: places on the table [mm], any finite ones.
///
/// Result: indexes of the points in the order of the sweep. Valid as a quick estimate: for evenly
/// strewn points the path is about `0.92 sqrt(n A)`, some 30 percent longer than the shortest.
///
/// ```
/// use quillbore_calc::travel::sweep;
/// assert_eq!(sweep(&[[2.0, 0.0], [0.0, 0.0], [1.0, 0.0]]), [1, 2, 0]);
/// ```
///
/// Source: strips as of Few 1955 «memory».
#[must_use]
pub fn sweep(points_mm: &[[f64; 2]]) -> Vec<u32> {
    let extent = |axis: usize| {
        let along = points_mm.iter().map(|point| point[axis]);
        let least = along.clone().fold(f64::INFINITY, f64::min);
        (least, along.fold(f64::NEG_INFINITY, f64::max) - least)
    };
    let sides = [extent(0), extent(1)];
    let long = usize::from(sides[1].1 > sides[0].1);
    let (least, width) = sides[1 - long];
    let area_ratio = if sides[long].1 > 0.0 {
        width / sides[long].1
    } else {
        0.0
    };
    let strips = libm::ceil(libm::sqrt(points_mm.len() as f64 * area_ratio / 3.0)).max(1.0);
    let mut keyed: Vec<(u32, f64, u32)> = (0..)
        .zip(points_mm)
        .map(|(index, point)| {
            let strip = if width > 0.0 {
                ((point[1 - long] - least) / width * strips).min(strips - 1.0) as u32
            } else {
                0
            };
            let forward = strip.is_multiple_of(2);
            let place = if forward { point[long] } else { -point[long] };
            (strip, place, index)
        })
        .collect();
    keyed.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
    keyed.into_iter().map(|(.., index)| index).collect()
}

/// Length of the way through points in a given order.
///
/// Formula: sum of straight distances from each to the next.
///
/// - `points_mm`: places on the table [mm], any finite ones.
/// - `order`: indexes of points, any; one that is out of range is passed over.
///
/// Result: the way's length [mm].
///
/// ```
/// use quillbore_calc::travel::length;
/// assert_eq!(length(&[[0.0, 0.0], [3.0, 4.0]], &[1, 0]), 5.0);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn length(points_mm: &[[f64; 2]], order: &[u32]) -> f64 {
    let mut sum = 0.0;
    let mut last: Option<[f64; 2]> = None;
    for &point in order
        .iter()
        .filter_map(|&index| points_mm.get(index as usize))
    {
        if let Some(from) = last {
            sum += libm::hypot(point[0] - from[0], point[1] - from[1]);
        }
        last = Some(point);
    }
    sum
}
