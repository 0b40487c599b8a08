//! Ways over the table: sweeps laid out by hand, and their length against what is known of strips.

use quillbore_calc::travel::{length, sweep};

/// An even grid of points, row after row, from a corner [mm].
fn grid(columns: u8, rows: u8, pitch: [f64; 2], corner: [f64; 2]) -> Vec<[f64; 2]> {
    let row = |y: u8| {
        (0..columns).map(move |x| {
            let [x, y] = [f64::from(x) * pitch[0], f64::from(y) * pitch[1]];
            [corner[0] + x, corner[1] + y]
        })
    };
    (0..rows).flat_map(row).collect()
}

fn turned(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    points.iter().map(|[x, y]| [*y, *x]).collect()
}

/// Twelve holes on 30 x 20 mm: sqrt(12 x 20 / (3 x 30)) = 1.63, two strips of 10 along x. The first row is
/// taken forward, the others together backward; wherever the part lies, and whichever way it is turned.
#[test]
fn two_strips_there_and_back() {
    let by_hand = [0, 1, 2, 3, 7, 11, 6, 10, 5, 9, 4, 8];
    for corner in [[0.0, 0.0], [100.0, -50.0], [-300.0, 20.0], [-15.0, -10.0]] {
        let points = grid(4, 3, [10.0, 10.0], corner);
        assert_eq!(sweep(&points), by_hand, "{corner:?}");
        assert_eq!(sweep(&turned(&points)), by_hand, "turned, {corner:?}");
    }
}

/// 27 holes on a square: sqrt(27 / 3) = 3 strips, which here are the rows.
#[test]
fn three_strips_there_and_back_and_there() {
    let points = grid(9, 3, [1.25, 5.0], [40.0, 40.0]);
    let by_hand: Vec<u32> = (0..9).chain((9..18).rev()).chain(18..27).collect();
    assert_eq!(sweep(&points), by_hand);
    // Eight moves of 1.25 in each row and two of 5 from row to row.
    assert!((length(&points, &by_hand) - (24.0 * 1.25 + 10.0)).abs() < 1e-9);
}

/// A row is swept along it, whichever way it runs; of holes at one place each is visited in turn.
#[test]
fn rows_and_single_places() {
    let row = [[5.0, 7.0], [1.0, 7.0], [9.0, 7.0], [3.0, 7.0]];
    assert_eq!(sweep(&row), [1, 3, 0, 2]);
    assert_eq!(sweep(&turned(&row)), [1, 3, 0, 2]);
    assert_eq!(sweep(&[[2.0, 3.0]; 4]), [0, 1, 2, 3]);
    assert_eq!(sweep(&[[2.0, 3.0]]), [0]);
    assert_eq!(sweep(&[]), [0_u32; 0]);
}

/// Evenly strewn points: strips of the best width give a path of 0.92 sqrt(n A) (Few 1955, Daganzo 1984
/// «memory»), on a square as on a long rectangle, whichever way it lies.
#[test]
fn strewn_points_take_the_path_known_of_strips() {
    let mut state = 12_345_u64;
    let mut dice = || {
        // Numerical Recipes' generator of 64 bits; its upper bits are even enough.
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    for [width, height] in [[100.0, 100.0], [400.0, 50.0], [50.0, 400.0]] {
        let points: Vec<[f64; 2]> = (0..20_000)
            .map(|_| [dice() * width - 70.0, dice() * height + 30.0])
            .collect();
        let path = length(&points, &sweep(&points));
        let ratio = path / (points.len() as f64 * width * height).sqrt();
        assert!((ratio - 0.92).abs() < 0.01, "{width} x {height}: {ratio}");
    }
}

/// 3, 4 and 5; what is out of range is passed over.
#[test]
fn ways_are_straight() {
    let points = [[1.0, 1.0], [4.0, 5.0], [4.0, 11.0]];
    assert_eq!(length(&points, &[0, 1, 2]), 5.0 + 6.0);
    assert_eq!(length(&points, &[0, 9, 2, 1]), libm::hypot(10.0, 3.0) + 6.0);
    assert_eq!(length(&points, &[2]), 0.0);
    assert_eq!(length(&points, &[]), 0.0);
}
