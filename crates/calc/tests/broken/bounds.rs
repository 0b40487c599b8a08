//! Where one rule ends and the next begins, and figures that are none.

use quillbore_calc::broken::{Broken, Choice, Kind, Start, Stock, Stuff, plan};

use super::{fits, from, near, planned, stock};

const DRILL: Broken = Broken::new(Kind::Drill, Stuff::Hss, 3.0);

/// What a figure that is none makes of a drill of 3 mm.
#[track_caller]
fn none(change: impl Fn(&mut Broken)) {
    let mut broken = DRILL;
    change(&mut broken);
    assert_eq!(
        plan(&broken, &stock(), &Start::default()),
        None,
        "{broken:?}"
    );
}

#[test]
fn figures_that_are_none() {
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        none(|broken| broken.nominal_mm = bad);
        none(|broken| broken.gap_mm = bad);
        none(|broken| broken.margin_mm = bad);
        none(|broken| broken.run_out_mm = bad);
        none(|broken| broken.off_center_mm = bad);
        none(|broken| broken.below_face_mm = bad);
        none(|broken| broken.left_mm = Some(bad));
        none(|broken| broken.bound_mm = Some(bad));
        let tap = Broken {
            pitch_mm: Some(bad),
            ..Broken::new(Kind::Tap, Stuff::Hss, 6.0)
        };
        assert_eq!(plan(&tap, &stock(), &Start::default()), None, "{bad}");
    }
    none(|broken| broken.nominal_mm = 0.0);
    // What is burnt of a screw goes by its thread alone, and still a screw of no diameter is none.
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let stud = Broken {
            bound_mm: Some(5.0),
            left_mm: Some(9.0),
            ..Broken::new(Kind::Stud, Stuff::Steel, bad)
        };
        assert_eq!(plan(&stud, &stock(), &Start::default()), None, "{bad}");
    }
    none(|broken| broken.left_mm = Some(0.0));
    none(|broken| broken.bound_mm = Some(0.0));
    let tap = Broken {
        pitch_mm: Some(0.0),
        ..Broken::new(Kind::Tap, Stuff::Hss, 6.0)
    };
    assert_eq!(plan(&tap, &stock(), &Start::default()), None);
}

/// A web of nothing, and one of any size: no core.
#[test]
fn webs_that_are_none() {
    let with = |drill_web| {
        let start = Start {
            drill_web,
            ..Start::default()
        };
        plan(&DRILL, &stock(), &start)
    };
    near(with(0.25).unwrap().core_mm, 0.75);
    for bad in [0.0, -0.25, f64::NAN, f64::INFINITY] {
        assert_eq!(with(bad), None, "{bad}");
    }
}

/// From 8 mm on a tap has four flutes: 0.48 x 8 = 3.84. An M7 has three: 0.4 x 7 = 2.8.
#[test]
fn the_usual_flutes() {
    let core = |mm| planned(&Broken::new(Kind::Tap, Stuff::Hss, mm)).core_mm;
    near(core(7.0), 2.8);
    near(core(8.0), 3.84);
    near(core(10.0), 4.8);
}

/// An electrode that is none is passed over, and so is one that burns nothing or wears backward.
#[test]
fn electrodes_that_are_none() {
    let good = Stock {
        outer_mm: 2.0,
        feed_mm_min: 9.0,
        wear: 0.8,
    };
    // Each of them would be the smaller one that fits, 1.5 to 2.7.
    let odd = |outer_mm, feed_mm_min, wear| Stock {
        outer_mm,
        feed_mm_min,
        wear,
    };
    for bad in [
        odd(1.6, 0.0, 0.8),
        odd(1.6, -9.0, 0.8),
        odd(1.6, f64::NAN, 0.8),
        odd(1.6, f64::INFINITY, 0.8),
        odd(1.6, 9.0, -0.1),
        odd(1.6, 9.0, f64::NAN),
        odd(1.6, 9.0, f64::INFINITY),
        odd(f64::NAN, 9.0, 0.8),
    ] {
        near(fits(&from(&DRILL, &[bad, good])), 2.0);
    }
    // One that doesn't wear is as good as any.
    near(fits(&from(&DRILL, &[odd(1.6, 9.0, 0.0), good])), 1.6);
    // Nothing is thinner than one of no diameter: none but it in the drawer is none at all.
    for bad in [0.0, -1.0] {
        assert_eq!(from(&DRILL, &[odd(bad, 9.0, 0.8)]).choice, Choice::Bought);
    }
}

/// Just as wide as may be: least hole 0.5 x 3 + 0.1 = 1.6, greatest 3 - 2 x 0.7. Neither is one more than the
/// other but for binary fractions.
#[test]
fn one_size_alone() {
    let tight = Broken {
        margin_mm: 0.7,
        ..DRILL
    };
    near(fits(&planned(&tight)), 1.5);
    let over = Broken {
        margin_mm: 0.701,
        ..DRILL
    };
    let found = planned(&over);
    assert!(
        matches!(found.choice, Choice::ThreadAtRisk { short_mm, .. } if (short_mm - 0.002).abs() < 1e-9),
        "{found:?}"
    );
    // The greatest of 1.5 to 2.7 goes, a hair more doesn't.
    let only = |outer_mm| {
        let stock = [Stock {
            outer_mm,
            feed_mm_min: 5.0,
            wear: 0.8,
        }];
        from(&DRILL, &stock).choice
    };
    assert!(matches!(only(2.7), Choice::Fits(_)));
    assert_eq!(only(2.701), Choice::Bought);
}

/// A hole of 12.7 mm is opened, one of 12.71 is not.
#[test]
fn the_widest() {
    let all = Start {
        stud_share: 1.0,
        ..Start::default()
    };
    let choice = |bound_mm| {
        let stud = Broken {
            bound_mm: Some(bound_mm),
            margin_mm: 0.0,
            ..Broken::new(Kind::Stud, Stuff::Steel, 14.0)
        };
        plan(&stud, &stock(), &all).unwrap().choice
    };
    assert!(matches!(choice(12.7), Choice::Opened(..)));
    assert_eq!(choice(12.71), Choice::TooWide);
}
