//! Figures of a job of 2,000 rows, and of a ring of 1,500 places: quick, asked, answered.

use std::hint::black_box;

use criterion::{Bencher, Criterion, criterion_group, criterion_main};
use quillbore_calc::assemble::{Answers, Kept, Question, answer, figures, questions, quick};
use quillbore_calc::input::{PartAxis, RowInput};
use quillbore_calc::stop::never;
use quillbore_calc::{Idx, JobInput, Tables};

#[path = "../tests/lot/rows.rs"]
mod rows;
#[path = "../tests/lot/shop.rs"]
mod shop;

/// 2,000 rows of seven sizes, forty depths, two tilts.
fn many_rows() -> JobInput {
    let row = |id: u32| {
        let diameter = [0.62, 0.82, 1.02, 1.12, 1.32, 1.62, 2.12][id as usize % 7];
        RowInput {
            tilt_deg: f64::from(id % 2) * 30.0,
            ..rows::row(id, 1 + id % 5, diameter, 5.0 + f64::from(id % 40))
        }
    };
    rows::job(10, (1..=2000).map(row).collect())
}

/// One row of 1,500 places, each in a direction of its own.
fn ring() -> JobInput {
    let axes: Vec<[f64; 3]> = (0..1500)
        .map(|at| {
            let turn = f64::from(at) / 1500.0 * std::f64::consts::TAU;
            [-libm::cos(turn), -libm::sin(turn), 0.0]
        })
        .collect();
    JobInput {
        machine: Some(Idx::new(1)),
        index_about: Some(PartAxis::Z),
        ..rows::job(10, vec![rows::placed(1, &axes)])
    }
}

/// Figures of a job of which one row goes to and fro between two depths.
fn edited(bench: &mut Bencher<'_>, input: &JobInput, tables: &Tables, answers: &Answers) {
    let mut deeper = input.clone();
    let middle = deeper.rows.len() / 2;
    deeper.rows[middle].depth_mm = deeper.rows[middle].depth_mm.map(|depth| depth + 1.0);
    let mut kept = Kept::default();
    let mut turn = 0_usize;
    bench.iter(|| {
        turn += 1;
        let input = if turn.is_multiple_of(2) {
            input
        } else {
            &deeper
        };
        let prepared = kept.prepare(black_box(input), tables);
        let open = prepared.open(answers).len();
        (prepared.figures(answers), open)
    });
}

fn job(criterion: &mut Criterion) {
    let tables = shop::tables();
    for (name, input) in [("2000 rows", many_rows()), ("ring of 1500", ring())] {
        let asked = questions(&input, &tables);
        let answers = answer(&asked);
        criterion.bench_function(&format!("{name}, quick"), |bench| {
            bench.iter(|| quick(black_box(&input), &tables));
        });
        criterion.bench_function(&format!("{name}, one row edited, quick"), |bench| {
            edited(bench, &input, &tables, &Answers::default());
        });
        criterion.bench_function(
            &format!("{name}, one row edited, other answers kept"),
            |bench| {
                edited(bench, &input, &tables, &answers);
            },
        );
        criterion.bench_function(&format!("{name}, questions"), |bench| {
            bench.iter(|| questions(black_box(&input), &tables));
        });
        criterion.bench_function(&format!("{name}, figures with answers"), |bench| {
            bench.iter(|| figures(black_box(&input), &tables, &answers));
        });
        let mut slow = criterion.benchmark_group("answers");
        slow.sample_size(10);
        slow.bench_function(name, |bench| bench.iter(|| answer(black_box(&asked))));
        slow.finish();
    }
}

/// The first plans and the settled ones of one tube whose row was edited, for three quantities.
fn changed_tube(criterion: &mut Criterion) {
    let tables = shop::tables();
    for (name, rows) in [
        ("8 rows a tube", 56),
        ("40 rows a tube", 280),
        ("285 rows a tube", 2000),
    ] {
        let all = many_rows();
        let input = JobInput {
            rows: all.rows[..rows].to_vec(),
            breaks: vec![25, 100],
            ..all
        };
        let answers = answer(&questions(&input, &tables));
        let mut deeper = input.clone();
        deeper.rows[0].depth_mm = Some(41.5);
        let open = Kept::default().prepare(&deeper, &tables).open(&answers);
        let is_packing = |question: &&Question| matches!(question, Question::Packing(_));
        let packings: Vec<&Question> = open.iter().filter(is_packing).collect();
        // First plans come first: as many as there are settled ones.
        let (first, settled) = packings.split_at(packings.len() / 2);
        let mut slow = criterion.benchmark_group(format!("changed tube, {name}"));
        slow.sample_size(10);
        for (which, questions) in [("first plans", first), ("settled", settled)] {
            slow.bench_function(which, |bench| {
                bench.iter(|| {
                    let answers = questions.iter().map(|question| question.answer(&never));
                    answers.filter(Option::is_some).count()
                });
            });
        }
        slow.finish();
    }
}

criterion_group!(benches, job, changed_tube);
criterion_main!(benches);
