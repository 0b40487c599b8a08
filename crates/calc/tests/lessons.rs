//! What run records make of a job's figures: each start value moved and narrowed by its factor, and
//! records that nobody can believe making no difference.
#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    dead_code,
    unreachable_pub,
    reason = "helpers of tests fail by panic; the tests' shop is also included by the documentation's examples"
)]

#[path = "shop/rows.rs"]
mod shop;

use std::sync::Arc;

use quillbore_calc::assemble::quick;
use quillbore_calc::finding::{Kind, Level, Remedy};
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::learn::{
    BreakageClass, BurnAndWear, Evidence, Learns, Lessons, Likeness, after_test_burn, learn,
};
use quillbore_calc::recorded::{NotUsed, Ran, Recorded, Unbelievable, recorded, start_context};
use quillbore_calc::tables::Tube;
use quillbore_calc::{Idx, JobFigures, JobInput, Spread, Tables};
use shop::{job, start_values, tables, through};

fn input() -> JobInput {
    job(vec![through(0.8, 20.0)])
}

fn told(ran: &Ran) -> Result<Recorded, NotUsed> {
    let (input, tables) = (input(), tables());
    let context = start_context(&input, &tables);
    recorded(&context, &tables, &input.rows[0], ran)
}

/// 120 holes, and nothing else yet.
fn ran() -> Ran {
    Ran {
        holes: 120.0,
        ..Ran::default()
    }
}

/// What the start values say of those.
fn planned() -> Recorded {
    let counted = Ran {
        broken: Some(0.0),
        ..ran()
    };
    told(&counted).expect("a plan")
}

fn evidence(ran: &Ran) -> Evidence {
    told(ran).expect("a record").evidence
}

fn taught(evidence: &[Evidence]) -> Tables {
    let tables = tables();
    Tables {
        lessons: Arc::new(Lessons::of(evidence.to_vec(), &tables.start)),
        ..tables
    }
}

fn figures(evidence: &[Evidence]) -> JobFigures {
    quick(&input(), &taught(evidence))
}

fn hole(figures: &JobFigures) -> &HoleFigures {
    &figures.holes[0]
}

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} {wanted}");
}

#[test]
fn a_record_is_held_against_the_same_holes_by_the_start_values() {
    let planned = planned().planned;
    let hole = hole(&figures(&[])).clone();
    let sparking = hole.minutes_in.unwrap().sparking();
    near(planned.burn_min, 120.0 * sparking, 1e-9);
    near(planned.wear_mm, 120.0 * hole.wear_mm.unwrap(), 1e-9);
    // Twice the sparking minutes, half of the wear, and 0.81 by pins: 20 mm at 0.03 mm a 100 mm are
    // 0.006 of taper, so the gap per side is (0.81 + 0.006 - 0.7) / 2.
    let record = told(&Ran {
        spark_min: Some(2.0 * planned.burn_min),
        lost_mm: Some(0.5 * planned.wear_mm),
        sizes_mm: vec![0.80, 0.82],
        ..ran()
    });
    let record = record.unwrap().evidence.record;
    near(record.burn.unwrap().of_planned, 2.0, 1e-12);
    near(record.wear.unwrap().of_planned, 0.5, 1e-12);
    near(
        record.gap.unwrap().of_planned * planned.gap_mm.unwrap(),
        0.058,
        1e-12,
    );
    assert!(record.floor.is_none());
    // By the clock: touch-off, drawing out, loading and changes beside what sparks.
    let record = evidence(&Ran {
        clock_min: Some(planned.clock_min),
        ..ran()
    });
    let floor = record.record.floor.unwrap();
    near(floor.burn_min, planned.burn_min, 1e-9);
    near(
        floor.burn_min + floor.wear_min + floor.handling_min,
        floor.minutes,
        1e-9,
    );
    assert!(
        floor.wear_min > 0.0 && floor.handling_min > 120.0 * hole.minutes_in.unwrap().touch_off
    );
}

#[test]
fn nonsense_is_told_and_teaches_nothing() {
    let expected = figures(&[]);
    for nonsense in [0.0, -5.0, 1e9, f64::NAN, f64::INFINITY] {
        let spark = Ran {
            spark_min: Some(nonsense),
            ..ran()
        };
        let clock = Ran {
            clock_min: Some(nonsense),
            ..ran()
        };
        let lost = Ran {
            lost_mm: Some(nonsense),
            ..ran()
        };
        let size = Ran {
            sizes_mm: vec![nonsense],
            ..ran()
        };
        for wrong in [&spark, &clock, &lost, &size] {
            let not = told(wrong);
            assert!(
                matches!(not, Err(NotUsed::Unbelievable(_))),
                "{wrong:?}: {not:?}"
            );
            // Beside something that counts it is told, and the rest counts.
            let beside = told(&Ran {
                broken: Some(0.0),
                ..wrong.clone()
            });
            let beside = beside.expect("a breakage counts");
            assert_eq!(beside.unbelievable.len(), 1, "{wrong:?}");
            assert_eq!(beside.evidence.record, planned().evidence.record);
        }
        let holes = Ran {
            holes: nonsense,
            spark_min: Some(10.0),
            ..Ran::default()
        };
        let not = told(&holes).err();
        let is_told = matches!(not, Some(NotUsed::NoHoles | NotUsed::Unbelievable(_)));
        assert!(is_told, "{nonsense} holes: {not:?}");
    }
    // Nothing that teaches nothing moves a figure.
    assert_eq!(figures(&[]), expected);
    let told = told(&Ran {
        spark_min: Some(1e9),
        broken: Some(0.0),
        ..ran()
    });
    let told = told.expect("a record").unbelievable;
    assert!(matches!(told[..], [Unbelievable::Spark(told, _)] if told == 1e9));
}

#[test]
fn a_factor_on_the_burn_is_a_factor_on_sparking_minutes() {
    let planned = planned().planned;
    let slow = evidence(&Ran {
        spark_min: Some(2.0 * planned.burn_min),
        ..ran()
    });
    let (before, after) = (figures(&[]), figures(&[slow]));
    let start = &tables().start;
    let learned = learn(&[slow.record], &start.deviations, start.hole_scatter);
    let factor = libm::exp(learned.predict(&slow.record.like).factors[0].mean);
    assert!(factor > 1.4 && factor < 2.0, "{factor}");
    let [was, is] = [&before, &after].map(|figures| hole(figures).minutes_in.unwrap());
    near(is.sparking(), factor * was.sparking(), 1e-9);
    assert_eq!(is.touch_off, was.touch_off);
    near(
        hole(&after).feed_mm_min.unwrap() * factor,
        hole(&before).feed_mm_min.unwrap(),
        1e-9,
    );
    let own = hole(&after).own.as_ref().expect("records");
    near(own.burn.factor, factor, 1e-12);
    assert!(own.burn.sigma < own.burn.start_sigma);
    // What is slower is dearer, and what is surer has a narrower band.
    let [was, is] = [&before, &after].map(|figures| figures.price.as_ref().unwrap());
    assert!(is.expected_cost > was.expected_cost);
    let width = |figures: &JobFigures| {
        let band = figures.lot.as_ref().unwrap().machine_hours;
        band.p90 / band.p10
    };
    assert!(width(&after) < width(&before));
    // A record that says what was planned moves nothing much, and narrows all the same.
    let same = evidence(&Ran {
        spark_min: Some(planned.burn_min),
        ..ran()
    });
    let own = hole(&figures(&[same])).own.clone().unwrap();
    near(own.burn.factor, 1.0, 1e-9);
    assert!(own.burn.sigma < own.burn.start_sigma);
    // The wear goes with the burn by half, though nobody measured it.
    assert!(own.wear.sigma < own.wear.start_sigma);
}

#[test]
fn a_gap_is_moved_and_narrowed_by_its_factor() {
    let record = evidence(&Ran {
        sizes_mm: vec![0.83],
        ..ran()
    });
    let start = &tables().start;
    let learned = learn(&[record.record], &start.deviations, start.hole_scatter);
    let foreseen = learned.predict(&record.record.like).factors[Learns::Gap as usize];
    let lessons = Lessons::of(vec![record], start);
    let gap = Spread::new(0.03, 0.08).unwrap();
    let machine = input().machine;
    let moved = lessons.gap(start, machine, 0.7, gap);
    near(moved.p50(), gap.p50() * libm::exp(foreseen.mean), 1e-12);
    let narrowed = gap.sigma() * foreseen.sigma() / start.deviations.gap();
    near(moved.sigma(), narrowed, 1e-12);
    assert!(moved.p50() > gap.p50() && moved.sigma() < gap.sigma());
    // Of burn and wear it says nothing.
    assert_eq!(lessons.foresee(&record.record.like), None);
}

#[test]
fn minutes_by_the_clock_move_handling() {
    let planned = planned().planned;
    // The sparks took what was planned, and the clock twice of it: the rest was handling.
    let slow_hands = evidence(&Ran {
        spark_min: Some(planned.burn_min),
        clock_min: Some(2.0 * planned.clock_min),
        ..ran()
    });
    let tables = taught(&[slow_hands]);
    let now = tables.lessons.start_on(&tables.start, input().machine);
    let was = &tables.start;
    for (now, was) in [
        (now.touch_off_min, was.touch_off_min),
        (now.load_min, was.load_min),
        (now.setup_min, was.setup_min),
    ] {
        assert!(now.p50() > 1.2 * was.p50(), "{now:?} {was:?}");
        assert!(now.sigma() < was.at_least(was_handling()).sigma());
    }
    // Washing goes with no machine: the shop's part of it alone.
    let factor = |now: Spread, was: Spread| now.p50() / was.p50();
    let [load, wash] = [
        factor(now.load_min, was.load_min),
        factor(now.wash_min, was.wash_min),
    ];
    assert!(wash > 1.0 && wash < load, "{wash} {load}");
    assert!(now.deviations.handling() < was.deviations.handling());
}

fn was_handling() -> f64 {
    start_values().deviations.handling()
}

#[test]
fn counted_shares_are_worth_the_start_value_and_what_was_counted() {
    let mut broke = planned().evidence;
    (broke.ends, broke.broken) = (200.0, Some(3.0));
    broke.pieces = Some([390.0, 10.0]);
    let start = start_values();
    let lessons = Lessons::of(vec![broke], &start);
    // 50 holes of sqrt(0.002 x 0.01) = 0.0044721 and 3 of 200: (0.22361 + 3) / 250 = 0.0128944.
    let usual = lessons.breakage(&start, BreakageClass::Usual);
    near(usual.chance, 0.012_894_4, 5e-8);
    near(usual.worth_holes, 250.0, 0.0);
    let thin = lessons.breakage(&start, BreakageClass::Thin);
    near(thin.worth_holes, 50.0, 0.0);
    // 100 parts of 0.005 and 10 of 400: 10.5 / 500.
    near(lessons.spoiled_share(0.005), 0.021, 1e-12);
    // More broken than drilled counts as all of them.
    broke.broken = Some(1e9);
    let lessons = Lessons::of(vec![broke], &start);
    assert!(lessons.breakage(&start, BreakageClass::Usual).chance < 1.0);
}

#[test]
fn records_are_counted_by_grade_lot_and_family() {
    let planned = planned().planned;
    let of_lot = |lot: u32, spark_min: f64| {
        evidence(&Ran {
            lot,
            spark_min: Some(spark_min),
            ..ran()
        })
    };
    let records: Vec<Evidence> = (0..12)
        .map(|at| of_lot(at / 2, planned.burn_min * 1.3))
        .collect();
    let all = figures(&records);
    let behind = all.behind().expect("records");
    assert_eq!(
        (behind.grade, behind.lots, behind.family, behind.all),
        (12, 6, 12, 12)
    );
    let own = hole(&all).own.clone().unwrap();
    assert!(own.burn.is_calibrated(), "{own:?}");
    // Handling was never recorded, so that not all of the hours are.
    assert!(!all.lot.unwrap().labor_hours_calibrated);
    // Of another grade in another family nothing is known.
    let mut other = input();
    other.material = Some(shop::CARBIDE);
    let tables = taught(&records);
    let other = quick(&other, &tables);
    let behind = other.behind().expect("records");
    assert_eq!(
        (behind.grade, behind.lots, behind.family, behind.all),
        (0, 0, 0, 12)
    );
    assert!(!other.is_calibrated());
}

#[test]
fn what_was_drilled_as_deep_before_is_a_note_alone() {
    let mut deep = job(vec![through(0.8, 84.0)]);
    deep.rows[0].ends = Some(Ends::One);
    let code = |tables: &Tables| {
        let figures = quick(&deep, tables);
        let findings = figures.holes[0].findings.clone();
        let deep = |kind: &Kind| {
            matches!(
                kind,
                Kind::DeepTestPiece { .. } | Kind::DeepCheck { .. } | Kind::DeepDone { .. }
            )
        };
        let found = findings
            .into_iter()
            .find(|found| deep(&found.kind))
            .expect("it is deep");
        (found.level, found.kind.code())
    };
    let before = code(&tables());
    assert_eq!(before, (Level::Check, "deep-check"));
    let mut record = planned().evidence;
    record.deep = 125.0;
    assert_eq!(code(&taught(&[record])), (Level::Note, "deep-done-before"));
    record.deep = 60.0;
    assert_eq!(code(&taught(&[record])), before);
}

/// A test burn tells what a record of another lot of as many holes would: here both are worked, the one
/// by its formula and the other by learning.
#[test]
fn a_test_burn_tells_what_a_record_of_another_lot_would() {
    let start = &tables().start;
    let like = Likeness {
        tube_mm: 1.0,
        depth_mm: 20.0,
        ..planned().evidence.record.like
    };
    let mut record = planned().evidence.record;
    (record.like, record.holes, record.age_years) = (like, 10.0, 0.0);
    let ratio = quillbore_calc::learn::Ratio {
        of_planned: 1.0,
        reading: 0.05,
    };
    (record.burn, record.wear) = (Some(ratio), Some(ratio));
    let learned = learn(&[record], &start.deviations, start.hole_scatter);
    let by_record = learned.predict(&like).factors;
    let all = start.deviations.process(1.0, 20.0);
    let before = BurnAndWear {
        sigmas: [all; 2],
        lots: [start.deviations.lot; 2],
    };
    let together = start.deviations.burn_and_wear;
    let after = after_test_burn(&before, together, 10.0, start.hole_scatter);
    for (after, by_record) in after.iter().zip(&by_record) {
        // One record as expected lowers the scatter between lots a little, and has a weight of 5/4.
        near(*after, by_record.sigma(), 0.012);
        assert!(*after < all);
    }
    // Without anything unknown it tells nothing.
    let known = BurnAndWear {
        sigmas: [0.3; 2],
        lots: [0.3; 2],
    };
    assert_eq!(after_test_burn(&known, together, 10.0, 0.15), [0.3; 2]);
}

/// A tube that drilled the size by its pins is told where the plan takes another, until the planned one has
/// drilled it, too.
#[test]
fn a_tube_that_drilled_this_size_is_told_where_the_plan_takes_another() {
    let tables = tables();
    let tube = |outer_mm: f64| Idx::find(&tables.tubes, |tube| tube.outer_mm == outer_mm);
    let pinned = |outer_mm: f64, size_mm: f64, age_years: f64| {
        let ran = Ran {
            tube: tube(outer_mm),
            sizes_mm: vec![size_mm],
            age_years,
            ..ran()
        };
        evidence(&ran)
    };
    let told = |evidence: &[Evidence], input: &JobInput| {
        let figures = quick(input, &taught(evidence));
        let outer = |tube: Idx<Tube>| tube.of(&tables.tubes).map(|tube| tube.outer_mm);
        let planned = figures.holes[0].tube.and_then(outer);
        let findings = figures.holes[0].findings.iter();
        let told = findings.filter(|finding| finding.kind.code() == "other-tube-drilled-it");
        let told: Vec<_> = told
            .map(|told| {
                let Some(Remedy::UseTube(row, tube)) = told.remedy else {
                    panic!("no tube to use");
                };
                (told.kind.clone(), row, outer(tube))
            })
            .collect();
        (planned, told)
    };
    let (planned, nothing) = told(&[], &input());
    assert_eq!((planned, nothing.len()), (Some(0.7), 0));
    let other = pinned(0.6, 0.76, 0.5);
    let (planned, said) = told(&[other], &input());
    assert_ne!(planned, Some(0.6));
    let kind = Kind::OtherTubeDrilledIt {
        tube_mm: 0.6,
        size_mm: 0.76,
    };
    assert_eq!(said, [(kind, input().rows[0].id, Some(0.6))]);
    // Outside the limits it is no help, and what the planned tube drilled since then counts for more.
    assert_eq!(told(&[pinned(0.6, 0.65, 0.5)], &input()).1.len(), 0);
    assert_eq!(told(&[other, pinned(0.7, 0.80, 0.1)], &input()).1.len(), 0);
    assert_eq!(told(&[pinned(0.7, 0.80, 0.9), other], &input()).1.len(), 1);
    // Somebody chose: nothing is to be said.
    let mut chosen = input();
    chosen.rows[0].tube = tube(0.7);
    assert_eq!(told(&[other], &chosen).1.len(), 0);
}
