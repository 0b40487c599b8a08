//! From which depth on the gap is slow, and what the water carries.

use quillbore_calc::flush::{Path, Water};

use super::{PATH, at, near, paths};

/// Substitution: slower just below the depth, as fast as asked at it.
#[test]
fn weak_from_by_substitution() {
    let water = Water::at(20.0).unwrap();
    let speed = |path: Path, depth: f64| path.at_depth(depth, 50.0, &water).unwrap().gap_m_s;
    let mut inside = 0;
    for path in paths() {
        for least in [0.01, 0.03, 0.1, 0.3, 0.5, 1.0, 3.0, 10.0, 30.0, 100.0] {
            match path.weak_from(least, 200.0, 50.0, &water) {
                None => assert!(speed(path, 200.0) >= least, "{path:?} {least}"),
                Some(0.0) => assert!(speed(path, 0.0) <= least, "{path:?} {least}"),
                Some(depth) => {
                    inside += 1;
                    near(speed(path, depth) / least, 1.0, 1e-9, "there");
                    assert!(speed(path, depth * 1.001) < least);
                    assert!(speed(path, depth * 0.999) >= least);
                }
            }
        }
    }
    assert!(inside > 50, "{inside}");
    // The depth that is asked for counts itself.
    let depth = PATH.weak_from(6.0, 300.0, 50.0, &water).unwrap();
    assert_eq!(PATH.weak_from(6.0, depth, 50.0, &water), Some(depth));
    assert_eq!(PATH.weak_from(6.0, depth - 1e-6, 50.0, &water), None);
}

/// Where Re stays at the turn over a stretch of depth, the speed is under its own from the stretch's end.
#[test]
fn weak_from_the_end_of_a_level_stretch() {
    let water = Water::at(20.0).unwrap();
    let path = Path {
        bore_mm: 0.2,
        ..PATH
    };
    let level = at(path, 0.0, 50.0, 20.0).gap_m_s;
    let end = path
        .weak_from(level * (1.0 - 1e-12), 300.0, 50.0, &water)
        .unwrap();
    assert!(end > 1.0, "{end}");
    near(
        at(path, end * 0.99, 50.0, 20.0).gap_m_s / level,
        1.0,
        1e-9,
        "level",
    );
    assert!(at(path, end * 1.01, 50.0, 20.0).gap_m_s < level * (1.0 - 1e-6));
    assert_eq!(
        path.weak_from(level * (1.0 + 1e-9), 300.0, 50.0, &water),
        Some(0.0)
    );
}

/// Worked by hand: of the work pi/4 (1.1^2 - 0.35^2) 20 = 17.082 mm3/min, of the tube
/// pi/4 (1 - 0.35^2) 0.8 20 = 11.027, together 28.109 in 87 ml; with no core 1.924 more.
#[test]
fn debris_by_hand() {
    let share = |wear, core, ml_min| PATH.debris_share(20.0, wear, core, ml_min).unwrap();
    near(share(0.8, 0.35, 87.0) * 87_000.0, 28.109, 0.001, "core");
    near(share(0.8, 0.0, 87.0) * 87_000.0, 30.033, 0.001, "no core");
    near(share(0.0, 0.35, 1.0) * 1000.0, 17.082, 0.001, "no wear");
    assert!(share(0.8, 0.35, 0.01) > 1.0);
    for (feed, wear, core, ml_min) in [
        (0.0, 0.8, 0.0, 87.0),
        (20.0, -0.1, 0.0, 87.0),
        (20.0, 0.8, 1.2, 87.0),
        (20.0, 0.8, -0.1, 87.0),
        (20.0, 0.8, 0.0, 0.0),
        (f64::NAN, 0.8, 0.0, 87.0),
        (20.0, f64::NAN, 0.0, 87.0),
        (20.0, f64::INFINITY, 0.0, 87.0),
        (20.0, 0.8, f64::NAN, 87.0),
    ] {
        assert_eq!(PATH.debris_share(feed, wear, core, ml_min), None);
    }
}
