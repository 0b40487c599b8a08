//! Directions against Machinery's Handbook, 31st ed. (Industrial Press 2020), pp. 121-122.

use quillbore_calc::direction::{
    across, antiparallel, between, from_tilt_turn, from_views, parallel, quarter, same_about,
    tilt_turn, unit,
};

const MINUTE: f64 = 1.0 / 60.0;

/// Fig. 4: A 47 deg 14', B 38 deg 10' -> R 36 deg 0.9', C 53 deg 12'.
#[test]
fn two_views_figure_4() {
    let (tilt, turn) = tilt_turn(from_views(47.0 + 14.0 * MINUTE, 38.0 + 10.0 * MINUTE).unwrap());
    assert!(
        (turn - (36.0 + 0.9 * MINUTE)).abs() < 0.1 * MINUTE,
        "{turn}"
    );
    assert!(
        (tilt - (53.0 + 12.0 * MINUTE)).abs() < 0.1 * MINUTE,
        "{tilt}"
    );
}

/// Fig. 5 gives both angles from the base: A 27, B 36 -> C 22 deg 38.6', R 35 deg 2.5'.
#[test]
fn two_views_figure_5() {
    let (tilt, turn) = tilt_turn(from_views(90.0 - 27.0, 90.0 - 36.0).unwrap());
    assert!(
        (90.0 - tilt - (22.0 + 38.6 * MINUTE)).abs() < 0.1 * MINUTE,
        "{tilt}"
    );
    assert!(
        (turn - (35.0 + 2.5 * MINUTE)).abs() < 0.1 * MINUTE,
        "{turn}"
    );
}

/// Fig. 6, a pin at A1 and B1 from vertical in two views: computed from its formulas, 20 and 30 ->
/// R 32.2279 (from the side view's plane), C1 34.3136; 45 and 45 -> 54.7356; A1 = 0 -> C1 = B1.
#[test]
fn two_views_figure_6() {
    let (tilt, turn) = tilt_turn(from_views(20.0, 30.0).unwrap());
    assert!((90.0 - turn - 32.2279).abs() < 0.00005, "{turn}");
    assert!((tilt - 34.3136).abs() < 0.00005, "{tilt}");
    let (tilt, _) = tilt_turn(from_views(45.0, 45.0).unwrap());
    assert!((tilt - 54.7356).abs() < 0.00005);
    let (tilt, turn) = tilt_turn(from_views(0.0, 30.0).unwrap());
    assert!((tilt - 30.0).abs() < 1e-9 && (turn - 90.0).abs() < 1e-9);
}

/// Published pages answer the same question with tan C = tan A / cos B and cos C = cos A cos B: they
/// answer other questions and fail the Handbook's figures.
#[test]
fn traps() {
    let (a, b) = (20.0_f64.to_radians(), 30.0_f64.to_radians());
    let wrong = [
        libm::atan(libm::tan(a) / libm::cos(b)).to_degrees(),
        libm::acos(libm::cos(a) * libm::cos(b)).to_degrees(),
    ];
    let (tilt, _) = tilt_turn(from_views(20.0, 30.0).unwrap());
    for angle in wrong {
        assert!((angle - 34.3136).abs() > 0.5, "{angle}");
        assert!((angle - tilt).abs() > 0.5, "{angle}");
    }
}

/// A view shows the angle that the direction's own components make with vertical in that plane.
#[test]
fn views_come_back_from_the_vector() {
    for (front, side) in [(20.0, 30.0), (-15.0, 40.0), (0.0, 0.0), (-60.0, -5.0)] {
        let [x, y, z] = from_views(front, side).unwrap();
        assert!((libm::atan2(x, -z).to_degrees() - front).abs() < 1e-9);
        assert!((libm::atan2(y, -z).to_degrees() - side).abs() < 1e-9);
    }
    assert_eq!(from_views(90.0, 0.0), None);
    assert_eq!(from_views(0.0, -90.0), None);
    assert_eq!(from_views(f64::NAN, 0.0), None);
}

#[test]
fn tilt_and_turn_come_back() {
    for (tilt, turn) in [
        (0.0, 0.0),
        (30.0, -170.0),
        (90.0, 180.0),
        (150.0, 45.0),
        (180.0, 0.0),
    ] {
        let direction = from_tilt_turn(tilt, turn);
        let (back, turned) = tilt_turn(direction);
        assert!((back - tilt).abs() < 1e-9, "{tilt} {turn}: {back}");
        let straight = tilt == 0.0 || tilt == 180.0;
        assert!(
            straight || (turned - turn).abs() < 1e-9,
            "{tilt} {turn}: {turned}"
        );
    }
}

#[test]
fn unit_vectors() {
    let [x, y, z] = unit([3e200, 0.0, -4e200]).unwrap();
    assert!((x - 0.6).abs() < 1e-12 && y == 0.0 && (z + 0.8).abs() < 1e-12);
    assert!(unit([3e-200, 0.0, -4e-200]).is_some());
    for none in [[0.0; 3], [f64::NAN, 0.0, 1.0], [f64::INFINITY, 0.0, 1.0]] {
        assert_eq!(unit(none), None);
    }
}

/// The angle between directions close together is exact, where an arc cosine would lose it.
#[test]
fn small_angles_are_exact() {
    for tilt in [1e-6, 1e-4, 0.05, 179.9999] {
        let found = between(from_tilt_turn(0.0, 0.0), from_tilt_turn(tilt, 70.0));
        assert!((found / tilt - 1.0).abs() < 1e-6, "{tilt}: {found}");
    }
}

/// The tolerance is a twentieth of a degree, either way of it.
#[test]
fn stated_tolerance() {
    let down = from_tilt_turn(0.0, 0.0);
    let up = from_tilt_turn(180.0, 0.0);
    assert!(parallel(down, from_tilt_turn(0.0499, 33.0)));
    assert!(!parallel(down, from_tilt_turn(0.0501, 33.0)));
    assert!(!parallel(down, up));
    assert!(antiparallel(up, from_tilt_turn(0.0499, 33.0)));
    assert!(!antiparallel(up, from_tilt_turn(0.0501, 33.0)));
    assert!(!antiparallel(down, down));
}

#[test]
fn a_turn_about_an_axis() {
    let about_x = [1.0, 0.0, 0.0];
    // 36 radial holes about x: one turn brings each into each.
    let radial = |step: i32| {
        let angle = f64::from(step * 10).to_radians();
        [0.0, libm::cos(angle), libm::sin(angle)]
    };
    for step in 1..36 {
        assert!(same_about(about_x, radial(0), radial(step)));
    }
    // The same leaning along x stay together, a different lean does not.
    assert!(same_about(about_x, [0.2, 1.0, 0.0], [0.2, 0.0, -1.0]));
    assert!(!same_about(about_x, [0.2, 1.0, 0.0], [-0.2, 1.0, 0.0]));
    // The axis' own sign does not matter.
    assert!(same_about(
        [-1.0, 0.0, 0.0],
        [0.2, 1.0, 0.0],
        [0.2, 0.0, -1.0]
    ));
}

/// Turns about an axis are counted from a direction square to it, the part's x made square to it as long
/// as x does not lie along it, and a quarter turn goes on right-handed.
#[test]
fn turns_are_counted_from_square_to_the_axis() {
    let close = |a: [f64; 3], b: [f64; 3]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-12);
    let [lean, third] = [0.5_f64.sqrt(), 1.0 / 3.0_f64.sqrt()];
    // By hand: x less its part along the axis, at length one, and the axis times that.
    for (axis, from, quarter_on) in [
        ([0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]),
        ([0.0, 0.0, -1.0], [1.0, 0.0, 0.0], [0.0, -1.0, 0.0]),
        ([0.0, 1.0, 0.0], [1.0, 0.0, 0.0], [0.0, 0.0, -1.0]),
        ([lean, 0.0, lean], [lean, 0.0, -lean], [0.0, 1.0, 0.0]),
        ([lean, lean, 0.0], [lean, -lean, 0.0], [0.0, 0.0, -1.0]),
        (
            [third; 3],
            [
                2.0 / 6.0_f64.sqrt(),
                -1.0 / 6.0_f64.sqrt(),
                -1.0 / 6.0_f64.sqrt(),
            ],
            [0.0, lean, -lean],
        ),
        // Along x, and leaning from it by less than 26 degrees (its cosine is above 0.9): the part's z.
        ([1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]),
        ([-1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0]),
        ([0.96, 0.0, 0.28], [-0.28, 0.0, 0.96], [0.0, -1.0, 0.0]),
    ] {
        assert!(close(across(axis), from), "{axis:?}: {:?}", across(axis));
        assert!(
            close(quarter(axis), quarter_on),
            "{axis:?}: {:?}",
            quarter(axis)
        );
    }
}
