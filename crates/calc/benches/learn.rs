//! Learning from 5,000 records, what is said of 200 rows, a job of 200 rows figured anew by what was learned, and
//! a quotation of 12 rows at five quantities with its risk.
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_calc::assemble::{Kept, answer, figures_now, questions};
use quillbore_calc::input::RowInput;
use quillbore_calc::learn::{
    BreakageClass, Evidence, Floor, Lessons, Likeness, Ratio, Record, learn,
};
use quillbore_calc::{JobInput, Tables};

#[path = "../tests/lot/rows.rs"]
#[expect(dead_code, reason = "shared with tests that need more of it")]
mod rows;
#[path = "../tests/lot/shop.rs"]
mod shop;

fn like(at: usize) -> Likeness {
    let family = at % 8;
    Likeness {
        machine: (at % 5) as u32,
        family: family as u32,
        grade: (family * 5 + at / 8 % 5) as u32,
        electrode: (at % 3) as u32,
        tube_mm: 0.3 + 0.1 * (at % 23) as f64,
        depth_mm: 5.0 + (at % 90) as f64,
    }
}

fn records(count: usize) -> Vec<Record> {
    let ratio = |at: usize| Ratio {
        of_planned: 0.7 + 0.01 * (at * 7 % 131) as f64,
        reading: 0.05,
    };
    let record = |at: usize| Record {
        lot: (at / 3) as u32,
        // A lot is of one grade on one machine; its marks differ in size and depth.
        like: Likeness {
            tube_mm: like(at).tube_mm,
            depth_mm: like(at).depth_mm,
            ..like(at / 3)
        },
        holes: 1.0 + (at % 60) as f64,
        age_years: (at % 50) as f64 / 10.0,
        burn: at.is_multiple_of(2).then(|| ratio(at)),
        wear: (!at.is_multiple_of(5)).then(|| ratio(at + 3)),
        floor: (at % 2 == 1).then_some(Floor {
            minutes: 80.0 + (at % 60) as f64,
            burn_min: 60.0,
            wear_min: 10.0,
            handling_min: 25.0,
            reading: 0.1,
        }),
        gap: at.is_multiple_of(4).then(|| ratio(at + 9)),
    };
    (0..count).map(record).collect()
}

fn learning(c: &mut Criterion) {
    let start = shop::start();
    let (deviations, scatter) = (&start.deviations, start.hole_scatter);
    for count in [50, 500, 5_000] {
        let records = records(count);
        c.bench_function(&format!("learn from {count} records"), |b| {
            b.iter(|| learn(black_box(&records), deviations, scatter));
        });
        let learned = learn(&records, deviations, scatter);
        c.bench_function(
            &format!("of {count} records: what 200 rows are to expect"),
            |b| {
                b.iter(|| {
                    (0..200)
                        .map(|at| learned.predict(&like(at)).burn_and_wear)
                        .sum::<f64>()
                });
            },
        );
    }
}

fn evidence(count: usize) -> Vec<Evidence> {
    let of = |record| Evidence {
        record,
        ends: 20.0,
        broken: Some(0.0),
        class: BreakageClass::Usual,
        size_mm: None,
        pieces: None,
        deep: 20.0,
        thin: false,
    };
    records(count).into_iter().map(of).collect()
}

/// Rows of six sizes and as many depths as there are rows.
fn job_of(count: u32, breaks: Vec<u32>) -> JobInput {
    let row = |id: u32| -> RowInput {
        let diameter = [0.62, 0.82, 1.02, 1.12, 1.32, 1.62][id as usize % 6];
        rows::row(id, 1 + id % 5, diameter, 5.0 + f64::from(id) * 0.1)
    };
    JobInput {
        breaks,
        ..rows::job(10, (1..=count).map(row).collect())
    }
}

/// A record is typed: everything is learned anew, and the job on the desk figured anew.
fn figuring(c: &mut Criterion) {
    let tables = shop::tables();
    let evidence = evidence(5_000);
    let input = job_of(200, Vec::new());
    let answers = answer(&questions(&input, &tables));
    c.bench_function("learn from 5000 records and figure 200 rows", |b| {
        let mut kept = Kept::default();
        b.iter(|| {
            let lessons = Lessons::of(black_box(evidence.clone()), &tables.start);
            let tables = Tables {
                lessons: lessons.into(),
                ..tables.clone()
            };
            kept.prepare(black_box(&input), &tables).figures(&answers)
        });
    });
    let learned = Tables {
        lessons: Lessons::of(evidence, &tables.start).into(),
        ..tables
    };
    let quoted = job_of(12, vec![1, 5, 25, 100]);
    c.bench_function("12 rows at 5 quantities with their risk", |b| {
        b.iter(|| figures_now(black_box(&quoted), &learned));
    });
}

criterion_group!(benches, learning, figuring);
criterion_main!(benches);
