//! What is learned of run records: textbook shrinkage, a statistics library's posterior, and what
//! must not matter.
#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    dead_code,
    unreachable_pub,
    reason = "helpers of tests fail by panic; the tests' shop is also included by the documentation's examples"
)]

#[path = "shop/rows.rs"]
mod shop;

use quillbore_calc::learn::{Floor, Learned, Learns, Likeness, Ratio, Record, Term, learn};
use quillbore_calc::tables::Deviations;
use serde_json::Value;

const HOLE: f64 = 0.15;

fn start() -> Deviations {
    shop::start_values().deviations
}

fn like() -> Likeness {
    Likeness {
        machine: 0,
        family: 0,
        grade: 0,
        electrode: 0,
        tube_mm: 1.0,
        depth_mm: 20.0,
    }
}

fn burned(lot: u32, of_planned: f64) -> Record {
    Record {
        lot,
        like: like(),
        holes: 100.0,
        age_years: 0.0,
        burn: Some(Ratio {
            of_planned,
            reading: 0.05,
        }),
        wear: None,
        floor: None,
        gap: None,
    }
}

/// One shop and nothing else that differs: a mean of one level, shrunk by prior over prior and error
/// (Gelman and others, Bayesian Data Analysis, chapter 2, from memory). The record says exactly what is
/// expected of it, so that it has its full weight.
#[test]
fn one_level_is_the_textbooks_shrinkage() {
    let alone = Deviations {
        machine: 1e-9,
        family: 1e-9,
        grade: 1e-9,
        electrode: 1e-9,
        size_class: 1e-9,
        by_diameter: 1e-9,
        by_depth: 1e-9,
        lot: 1e-6,
        ..start()
    };
    let record = burned(0, 1.0);
    let [burn, ..] = learn(&[record], &alone, HOLE).predict(&like()).factors;
    // Error: 0.15^2 / 100 + 0.05^2, and a weight of 5/4 where nothing is off.
    let error = (0.15 * 0.15 / 100.0 + 0.05 * 0.05) / 1.25;
    let prior = 0.35 * 0.35;
    let shrunk = prior * error / (prior + error);
    assert!(
        (burn.unknown - shrunk).abs() < 1e-9,
        "{} {shrunk}",
        burn.unknown
    );
}

fn number(of: &Value, name: &str) -> f64 {
    of[name].as_f64().expect("a number")
}

fn whole(of: &Value, name: &str) -> u32 {
    u32::try_from(of[name].as_u64().expect("a whole number")).expect("a small one")
}

fn likeness(of: &Value) -> Likeness {
    Likeness {
        machine: whole(of, "machine"),
        family: whole(of, "family"),
        grade: whole(of, "grade"),
        electrode: whole(of, "electrode"),
        tube_mm: number(of, "tube_mm"),
        depth_mm: number(of, "depth_mm"),
    }
}

fn record(of: &Value) -> Record {
    let ratio = |name: &str| {
        (!of[name].is_null()).then(|| Ratio {
            of_planned: number(&of[name], "of_planned"),
            reading: number(&of[name], "reading"),
        })
    };
    let floor = &of["floor"];
    Record {
        lot: whole(of, "lot"),
        like: likeness(&of["like"]),
        holes: number(of, "holes"),
        age_years: number(of, "age_years"),
        burn: ratio("burn"),
        wear: ratio("wear"),
        gap: ratio("gap"),
        floor: (!floor.is_null()).then(|| Floor {
            minutes: number(floor, "minutes"),
            burn_min: number(floor, "burn_min"),
            wear_min: number(floor, "wear_min"),
            handling_min: number(floor, "handling_min"),
            reading: number(floor, "reading"),
        }),
    }
}

fn fixture() -> (Vec<Record>, Value) {
    let text = include_str!("../../../tests/golden/learned.json");
    let fixture: Value = serde_json::from_str(text).expect("the fixture");
    let records = fixture["records"].as_array().expect("records");
    (records.iter().map(record).collect(), fixture)
}

/// `tests/golden/learned.py` works the same records by scikit-learn.
#[test]
fn the_posterior_is_that_of_a_statistics_library() {
    let (records, fixture) = fixture();
    let learned = learn(&records, &start(), HOLE);
    let near = |found: f64, wanted: &Value, what: &str| {
        let wanted = wanted.as_f64().expect("a number");
        assert!((found - wanted).abs() < 1e-8, "{what}: {found} {wanted}");
    };
    for expected in fixture["expected"].as_array().expect("what is expected") {
        let prediction = learned.predict(&likeness(&expected["like"]));
        for (at, factor) in prediction.factors.iter().enumerate() {
            near(factor.mean, &expected["mean"][at], "mean");
            near(factor.unknown, &expected["unknown"][at], "variance");
        }
        near(
            prediction.burn_and_wear,
            &expected["burn_and_wear"],
            "covariance",
        );
        near(prediction.factors[0].lot.sqrt(), &fixture["lot"], "lot");
    }
}

fn predicted(learned: &Learned) -> [f64; 4] {
    learned.predict(&like()).factors.map(|factor| factor.mean)
}

#[test]
fn the_order_of_records_does_not_matter() {
    let (records, _) = fixture();
    let expected = predicted(&learn(&records, &start(), HOLE));
    let mut turned = records.clone();
    turned.reverse();
    turned.rotate_left(7);
    for (found, expected) in predicted(&learn(&turned, &start(), HOLE))
        .iter()
        .zip(expected)
    {
        assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    }
}

#[test]
fn nonsense_teaches_nothing() {
    let (records, _) = fixture();
    let expected = predicted(&learn(&records, &start(), HOLE));
    for nonsense in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let burn = burned(90, nonsense);
        let holes = Record {
            holes: nonsense,
            ..burned(91, 2.0)
        };
        let mut tube = burned(92, 2.0);
        tube.like.tube_mm = nonsense;
        let mut floor = burned(93, 2.0);
        floor.burn = None;
        floor.floor = Some(Floor {
            minutes: nonsense,
            burn_min: 1.0,
            wear_min: 1.0,
            handling_min: 1.0,
            reading: 0.1,
        });
        for wrong in [burn, holes, tube, floor] {
            let with = [records.clone(), vec![wrong]].concat();
            let learned = learn(&with, &start(), HOLE);
            for (found, expected) in predicted(&learned).iter().zip(expected) {
                assert!(
                    (found - expected).abs() < 1e-9,
                    "{wrong:?}: {found} {expected}"
                );
            }
            assert_eq!(learned.believed()[records.len()].figures, 0, "{wrong:?}");
        }
    }
}

#[test]
fn a_record_that_is_off_counts_little_and_is_flagged() {
    let mut records: Vec<Record> = (0..6).map(|lot| burned(lot, 1.5)).collect();
    let before = predicted(&learn(&records, &start(), HOLE))[0];
    records.push(burned(6, 1.5e9));
    let learned = learn(&records, &start(), HOLE);
    let after = predicted(&learned)[0];
    assert!((after - before).abs() < 0.1, "{before} {after}");
    let believed = learned.believed();
    assert!(
        believed[6].off > 3.0 && believed[6].weight < 0.1,
        "{believed:?}"
    );
    assert!(
        believed[0].off.abs() < 3.0 && believed[0].weight > 0.5,
        "{believed:?}"
    );
}

#[test]
fn the_parts_of_a_factor_add_up_to_it() {
    let (records, _) = fixture();
    let learned = learn(&records, &start(), HOLE);
    let like = &records[0].like;
    let prediction = learned.predict(like);
    for (factor, what) in prediction.factors.iter().zip(Learns::ALL) {
        let parts = learned.parts(what, like);
        let sum: f64 = parts.iter().map(|(_, part)| part).sum();
        assert!((sum - factor.mean).abs() < 1e-12, "{what:?}");
        assert!(parts.iter().any(|(term, _)| *term == Term::Shop));
    }
}

#[test]
fn a_deviation_of_nothing_keeps_nothing_else_from_being_learned() {
    let (records, _) = fixture();
    let zero = Deviations {
        machine: 0.0,
        lot: 0.0,
        handling_machine: 0.0,
        handling_lot: 0.0,
        gap_lot: 0.0,
        ..start()
    };
    let learned = learn(&records, &zero, HOLE);
    let slow = predicted(&learned);
    assert!(
        slow.iter().all(|mean| mean.is_finite()) && slow[0] > 0.1,
        "{slow:?}"
    );
    let parts = learned.parts(Learns::Burn, &records[0].like);
    let machine = parts
        .iter()
        .find(|(term, _)| matches!(term, Term::Machine(_)));
    assert!(machine.expect("a machine").1.abs() < 1e-6);
}
