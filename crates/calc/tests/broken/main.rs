//! Broken tools worked by hand, odd ones and wild ones.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "helpers of tests stop the test as tests do"
)]

mod bounds;

use proptest::prelude::*;
use quillbore_calc::broken::{Broken, Choice, Kind, Plan, Start, Stock, Stuff, plan};
use quillbore_calc::plunge::Way;
use quillbore_calc::standards::threads::named;
use quillbore_calc::tables::Family;

/// Electrodes as shops keep them, feeds in HSS made up but of the right size.
fn stock() -> Vec<Stock> {
    [
        (0.5, 12.0),
        (0.8, 15.0),
        (1.0, 15.0),
        (1.3, 14.0),
        (1.5, 12.0),
        (2.0, 9.0),
        (2.5, 7.0),
        (3.0, 5.0),
    ]
    .map(|(outer_mm, feed_mm_min)| Stock {
        outer_mm,
        feed_mm_min,
        wear: 0.8,
    })
    .to_vec()
}

fn planned(broken: &Broken) -> Plan {
    plan(broken, &stock(), &Start::default()).unwrap()
}

fn near(found: f64, by_hand: f64) {
    assert!((found - by_hand).abs() < 0.0006, "{found} {by_hand}");
}

fn fits(plan: &Plan) -> f64 {
    let Choice::Fits(with) = plan.choice else {
        panic!("{plan:?}");
    };
    with.outer_mm
}

/// Minor diameter 4.917 (ISO 724). Web 0.4 x 6 = 2.4; least 2.4 + 0.5 - 0.1 = 2.8; greatest
/// 4.917 - 0.1 - 0.2 = 4.617. With 3.0: hole 3.1, clear (4.917 - 3.1) / 2 - 0.25 = 0.659.
#[test]
fn an_m6_tap_in_a_blind_hole() {
    let tap = Broken {
        left_mm: Some(12.0),
        below_face_mm: 3.0,
        ..Broken::of_thread(Kind::Tap, Stuff::Hss, named("M6").unwrap())
    };
    let plan = planned(&tap);
    near(plan.core_mm, 2.4);
    near(plan.electrode_mm.lower, 2.8);
    near(plan.electrode_mm.upper, 4.617);
    near(fits(&plan), 3.0);
    near(plan.clear_mm.unwrap(), 0.659);
    let minutes = plan.minutes.unwrap();
    near(minutes.p10, 4.8); // 12 / (5 x 0.5)
    near(minutes.p90, 9.6);
    near(minutes.p50(), 6.788); // 2.4 / sqrt(0.125)
    near(plan.wear_mm.unwrap(), 9.6);
    near(plan.stop_mm, 15.0);
    assert!(!plan.left_assumed);
    // Open at the far end it goes half a millimeter further, in no more minutes.
    let open = planned(&Broken {
        through: true,
        ..tap
    });
    near(open.stop_mm, 15.5);
    assert_eq!(open.minutes, plan.minutes);
    // The pitch of the diameter is found where nobody typed it.
    let coarse = planned(&Broken {
        pitch_mm: None,
        ..tap
    });
    assert_eq!(coarse, plan);
}

/// Minor 2 - 1.0825 x 0.4 = 1.567. Web 0.8; least 0.8 + 0.5 - 2 x 0.03 = 1.24; greatest
/// 1.567 - 0.06 - 0.2 = 1.307. The length is assumed: 3 mm.
#[test]
fn an_m2_tap_just_goes() {
    let tap = Broken {
        gap_mm: 0.03,
        ..Broken::of_thread(Kind::Tap, Stuff::Hss, named("M2").unwrap())
    };
    let plan = planned(&tap);
    near(plan.electrode_mm.lower, 1.24);
    near(plan.electrode_mm.upper, 1.307);
    near(fits(&plan), 1.3);
    // At its worst it cuts the crests by 0.15: (1.567 - 1.36) / 2 - 0.25.
    near(plan.clear_mm.unwrap(), -0.1465);
    assert!(plan.left_assumed);
    near(plan.left_mm, 3.0);
    // Without 1.3 in the drawer a thinner one plunges round, on a circle of 0.02 or so.
    let few: Vec<Stock> = stock()
        .into_iter()
        .filter(|with| with.outer_mm != 1.3)
        .collect();
    let round = from(&tap, &few);
    let Choice::Opened(with, opening) = round.choice else {
        panic!("{round:?}");
    };
    near(with.outer_mm, 1.0);
    assert!(opening.minutes >= 3.0 / 15.0);
    near(round.hole_mm.unwrap(), 1.367);
}

fn from(broken: &Broken, stock: &[Stock]) -> Plan {
    plan(broken, stock, &Start::default()).unwrap()
}

/// Minor 1.6 - 1.0825 x 0.35 = 1.221: greatest 1.221 - 0.06 - 0.2 = 0.961, least
/// 0.64 + 0.5 - 0.06 = 1.08.
#[test]
fn an_m1_6_tap_puts_the_thread_at_risk() {
    let tap = Broken {
        gap_mm: 0.03,
        ..Broken::of_thread(Kind::Tap, Stuff::Hss, named("M1.6").unwrap())
    };
    let plan = planned(&tap);
    let Choice::ThreadAtRisk {
        short_mm,
        electrode,
    } = plan.choice
    else {
        panic!("{plan:?}");
    };
    near(short_mm, 0.119);
    near(electrode.unwrap().outer_mm, 0.8);
    assert!(plan.electrode_mm.lower > plan.electrode_mm.upper);
    // Found in the middle to 0.05 it goes.
    let centered = planned(&Broken {
        off_center_mm: 0.05,
        ..tap
    });
    near(centered.electrode_mm.lower, 0.88);
    let Choice::Opened(with, _) = centered.choice else {
        panic!("{centered:?}");
    };
    near(with.outer_mm, 0.8);
    // And with nothing thinner in the drawer, one of that size is to be had.
    let none = from(&tap, &[]);
    let bare = from(
        &Broken {
            off_center_mm: 0.05,
            ..tap
        },
        &[],
    );
    assert!(matches!(
        none.choice,
        Choice::ThreadAtRisk {
            electrode: None,
            ..
        }
    ));
    assert_eq!(
        (bare.choice, bare.minutes, bare.hole_mm),
        (Choice::Bought, None, None)
    );
}

/// 1/4-20: minor 0.1959 in = 4.976 (ASME B1.1). Web 2.54; least 2.94; greatest 4.976 - 0.3.
#[test]
fn a_quarter_inch_tap() {
    let plan = planned(&Broken::of_thread(
        Kind::Tap,
        Stuff::Hss,
        named("1/4-20").unwrap(),
    ));
    near(plan.electrode_mm.lower, 2.94);
    near(plan.electrode_mm.upper, 4.6753);
    near(fits(&plan), 3.0);
    near(plan.left_mm, 9.525);
}

/// M12 in carbide: web 0.48 x 12 = 5.76, least hole 6.26, minor 12 - 1.0825 x 1.75 = 10.106. With
/// cusps of 0.1 the hole is 6.46; 2.5 makes 2.6: rc 1.93, w 3.13,
/// cos = (9.7969 + 3.7249 - 1.69) / 12.0818 = 0.9793, half the angle 0.2038, n 15.4 up; slug 1.26.
#[test]
fn an_m12_carbide_tap_is_too_thick_for_one_plunge() {
    let tap = Broken {
        flutes: Some(4),
        ..Broken::of_thread(Kind::Tap, Stuff::Carbide, named("M12").unwrap())
    };
    let slow: Vec<Stock> = stock()
        .into_iter()
        .map(|with| Stock {
            feed_mm_min: with.feed_mm_min * 0.3,
            wear: 2.0,
            ..with
        })
        .collect();
    let plan = from(&tap, &slow);
    near(plan.core_mm, 5.76);
    near(plan.electrode_mm.lower, 6.16);
    near(plan.electrode_mm.upper, 9.8056);
    let Choice::Opened(with, opening) = plan.choice else {
        panic!("{plan:?}");
    };
    near(with.outer_mm, 2.5);
    near(plan.hole_mm.unwrap(), 6.46);
    assert_eq!((opening.way, opening.plunges), (Way::OnCircle, 16));
    near(opening.slug_mm.unwrap(), 1.26);
    // A ring of 0.63 to 3.23 mm but for cusps: the metal of 5.94 plunges. The last two, between
    // what is open on both sides, take a least share of 0.2 for less.
    near(plan.left_mm, 18.0);
    let metal = opening.wear_mm / (2.0 * 18.0);
    assert!((5.8..5.94).contains(&metal), "{metal}");
    let plunges = opening.minutes / (18.0 / 2.1);
    assert!(plunges > metal && plunges < metal + 2.0 * 0.2, "{plunges}");
    let minutes = plan.minutes.unwrap();
    near(minutes.p10, 2.0 * opening.minutes);
    near(minutes.p90, 4.0 * opening.minutes);
    assert_eq!(plan.wear_mm, Some(opening.wear_mm));
    // Four flutes are the usual ones, three leave a thinner web.
    assert_eq!(
        from(
            &Broken {
                flutes: None,
                ..tap
            },
            &slow
        ),
        plan
    );
    near(
        from(
            &Broken {
                flutes: Some(3),
                ..tap
            },
            &slow,
        )
        .core_mm,
        4.8,
    );
}

/// Web 0.75 + 0.5 = 1.25, but lands come free from half the drill on: 1.5. Greatest 3 - 0.1 - 0.2.
#[test]
fn a_3_mm_drill_in_an_open_hole() {
    let drill = Broken {
        left_mm: Some(20.0),
        through: true,
        ..Broken::new(Kind::Drill, Stuff::Hss, 3.0)
    };
    let plan = planned(&drill);
    near(plan.electrode_mm.lower, 1.5);
    near(plan.electrode_mm.upper, 2.7);
    near(fits(&plan), 1.5);
    near(plan.point_mm.unwrap(), 0.9013); // 1.5 tan 31
    near(plan.stop_mm, 20.5);
    near(plan.minutes.unwrap().p10, 3.3333);
    near(plan.minutes.unwrap().p90, 6.6667);
    near(plan.wear_mm.unwrap(), 16.0);
    near(plan.clear_mm.unwrap(), 0.45);
    // A thin one is ruled by how far it may be off: 0.25 + 0.5 - 0.1 above half.
    let thin = planned(&Broken {
        nominal_mm: 1.0,
        ..drill
    });
    near(thin.electrode_mm.lower, 0.65);
}

/// M20, pitch 2.5 (ISO 261 «memory»): minor 17.294, 0.85 of it 14.70: no work for a tube.
#[test]
fn an_m20_stud_is_too_wide() {
    let stud = Broken {
        pitch_mm: Some(2.5),
        ..Broken::new(Kind::Stud, Stuff::Steel, 20.0)
    };
    let found = planned(&stud);
    near(found.bound_mm, 17.2937);
    near(found.core_mm, 14.6996);
    assert_eq!(found.choice, Choice::TooWide);
    assert_eq!(
        (found.minutes, found.wear_mm, found.clear_mm),
        (None, None, None)
    );
    near(found.stop_mm, 30.0);
    // Without its pitch there is none: the tables end at M12.
    let bare = Broken {
        pitch_mm: None,
        ..stud
    };
    assert_eq!(plan(&bare, &stock(), &Start::default()), None);
}

/// M6: 0.85 x 4.917 = 4.180 is the least hole, with room for cusps 4.380; full metal, so its own band.
#[test]
fn an_m6_screw_is_opened_to_its_coil() {
    let screw = Broken::of_thread(Kind::Stud, Stuff::Steel, named("M6").unwrap());
    let plan = planned(&screw);
    near(plan.electrode_mm.lower, 4.0798);
    let Choice::Opened(_, opening) = plan.choice else {
        panic!("{plan:?}");
    };
    near(plan.hole_mm.unwrap(), 4.3798);
    near(plan.minutes.unwrap().p10, opening.minutes);
    near(plan.minutes.unwrap().p90, opening.minutes / 0.7);
}

/// A reamer of 6: web 3.6 + 0.5 - 0.1 = 4.0, greatest 5.7. An extractor of 3 in an M6 screw: body
/// 2.25 + 0.4; it may be burnt out up to the screw's thread.
#[test]
fn reamer_and_extractor() {
    let reamer = planned(&Broken::new(Kind::Reamer, Stuff::Hss, 6.0));
    near(reamer.core_mm, 3.6);
    near(reamer.electrode_mm.lower, 4.0);
    near(reamer.electrode_mm.upper, 5.7);
    let extractor = Broken {
        bound_mm: Some(4.917),
        ..Broken::new(Kind::Extractor, Stuff::Hss, 3.0)
    };
    let found = planned(&extractor);
    near(found.electrode_mm.lower, 2.65);
    near(found.electrode_mm.upper, 4.617);
    near(fits(&found), 3.0);
    let alone = planned(&Broken {
        bound_mm: None,
        ..extractor
    });
    near(alone.electrode_mm.upper, 2.7);
}

#[test]
fn families() {
    let families = [Stuff::Hss, Stuff::Carbide, Stuff::Steel].map(Stuff::family);
    assert_eq!(
        families,
        [Family::ToolSteel, Family::Carbide, Family::Steel]
    );
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 0.0..20.0,
        4 => 0.0..0.3,
        1 => proptest::num::f64::ANY,
        1 => prop_oneof![Just(0.0), Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(-1.0)],
    ]
}

proptest! {
    #[test]
    fn wild_tools_make_no_wild_plans(
        figures in proptest::array::uniform8(number()),
        stuff in proptest::collection::vec(proptest::array::uniform3(number()), 0..4),
        kind in prop_oneof![
            Just(Kind::Tap), Just(Kind::Drill), Just(Kind::Stud), Just(Kind::Reamer),
            Just(Kind::Extractor),
        ],
        told in proptest::array::uniform3(any::<bool>()),
        flutes in proptest::option::of(any::<u32>()),
    ) {
        let [nominal_mm, pitch_mm, below_face_mm, left_mm, gap_mm, margin_mm, run_out_mm, bound_mm] =
            figures;
        let broken = Broken {
            pitch_mm: told[0].then_some(pitch_mm),
            flutes,
            below_face_mm,
            left_mm: told[1].then_some(left_mm),
            through: told[2],
            bound_mm: told[2].then_some(bound_mm),
            gap_mm,
            margin_mm,
            run_out_mm,
            ..Broken::new(kind, Stuff::Hss, nominal_mm)
        };
        let stock: Vec<Stock> = stuff
            .into_iter()
            .map(|[outer_mm, feed_mm_min, wear]| Stock { outer_mm, feed_mm_min, wear })
            .collect();
        let Some(found) = plan(&broken, &stock, &Start::default()) else {
            return Ok(());
        };
        prop_assert!(found.left_mm > 0.0 && found.stop_mm >= found.left_mm);
        prop_assert!(found.minutes.is_none_or(|minutes| minutes.p10 > 0.0));
        let least_hole = found.electrode_mm.lower + 2.0 * gap_mm;
        let greatest_hole = found.electrode_mm.upper + 2.0 * gap_mm;
        if let Some(hole) = found.hole_mm {
            prop_assert!(hole <= greatest_hole + 1e-5, "{hole} {greatest_hole}");
            let at_risk = matches!(found.choice, Choice::ThreadAtRisk { .. });
            prop_assert!(at_risk || hole >= least_hole - 1e-5);
        }
    }
}
