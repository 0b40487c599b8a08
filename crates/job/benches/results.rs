//! Results of a job of 2,000 rows, as each edit recomputes them: no order search, packing or draws.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

use std::hint::black_box;
use std::sync::Arc;

use chrono::NaiveDate;
use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_job::file::hash;
use quillbore_job::quick::{Quick, Says};
use quillbore_job::results::{Kept, results_quick};
use quillbore_job::to_input::to_input;
use quillbore_job::{CellAt, Column, Edit, Field, Issued, Job, Paper, Shop, Unit, apply};

const ROWS: usize = 2_000;

fn field(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    apply(job, &edit).unwrap().0
}

/// Seven sizes and forty depths, straight and tilted; every fourth has a finding of its own.
fn many_rows() -> Job {
    let mut job = Job::default();
    for (name, text) in [
        (Field::Material, "Alloy steel 4340"),
        (Field::Machine, "Barrow"),
        (Field::Quantity, "10"),
    ] {
        job = field(&job, name, text);
    }
    let sizes = ["0.6", "0.8", "1.0", "1.1", "1.3", "1.6", "1.9"];
    let cells = (0..ROWS).map(|id| {
        let limits = if id % 4 == 0 { "" } else { " +-0.05" };
        [
            format!("H{id}"),
            "4".to_owned(),
            format!("{}{limits}", sizes[id % sizes.len()]),
            format!("{}", 5 + id % 40),
            "through".to_owned(),
            if id % 3 == 0 { "30" } else { "" }.to_owned(),
        ]
        .map(Some)
        .to_vec()
    });
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: cells.collect(),
        unit: Unit::Mm,
    };
    apply(&job, &edit).unwrap().0
}

/// The job after two quotations left the house.
fn quoted(job: &Job) -> Job {
    let mut job = job.clone();
    job.number = "26-0107".to_owned();
    for revision in 1..=2 {
        let number = format!("26-0107-Q{revision}");
        let issued = Issued {
            file: format!("{number}.pdf"),
            paper: Paper::Quotation,
            date: NaiveDate::from_ymd_opt(2026, 3, 2).unwrap(),
            valid_until: None,
            kept_by: None,
            hash: hash(number.as_bytes()),
            lines: Vec::new(),
            currency: Some("USD".to_owned()),
            rests_on: Vec::new(),
            pages: vec!["page".repeat(500); 40],
            replaces: job.to_replace(Paper::Quotation),
            inputs: Some(Arc::new(job.inputs())),
            seal: None,
            number,
        };
        job.issued.push(Arc::new(issued.sealed()));
    }
    job
}

fn job_results(criterion: &mut Criterion) {
    let shop = Shop::embedded().unwrap();
    let job = many_rows();
    assert!(results_quick(&job, shop).figures.price.is_some());
    criterion.bench_function("results of 2000 rows", |bench| {
        bench.iter(|| results_quick(black_box(&job), shop));
    });
    criterion.bench_function("input of 2000 rows", |bench| {
        bench.iter(|| to_input(black_box(&job), shop));
    });
    let tilt = Edit::SetCells {
        at: CellAt {
            row: ROWS / 2,
            column: Column::Depth,
        },
        rows: vec![vec![Some("17".to_owned())]],
        unit: Unit::Mm,
    };
    criterion.bench_function("an edit of one cell among 2000 rows", |bench| {
        bench.iter(|| apply(black_box(&job), &tilt));
    });
    for (what, job) in [
        (
            "results after an edit of one cell among 2000 rows",
            job.clone(),
        ),
        ("the same with two issued quotations", quoted(&job)),
    ] {
        let (edited, _) = apply(&job, &tilt).unwrap();
        let mut kept = Kept::default();
        let mut turn = 0_usize;
        criterion.bench_function(what, |bench| {
            bench.iter(|| {
                turn += 1;
                let job = if turn.is_multiple_of(2) {
                    &job
                } else {
                    &edited
                };
                kept.results(black_box(job), shop)
            });
        });
    }
}

/// At each key typed on an empty sheet.
fn quick_price(criterion: &mut Criterion) {
    let shop = Shop::embedded().unwrap();
    let base = Job::default();
    for material in ["718", "nickel"] {
        let typed = Quick {
            material: material.to_owned(),
            size: "0.8".to_owned(),
            depth: "14".to_owned(),
            holes: "36".to_owned(),
            parts: "25".to_owned(),
        };
        let answer = typed.answer(&base, shop);
        assert!(matches!(answer.says, Says::Range(_)));
        criterion.bench_function(&format!("quick price in {material}"), |bench| {
            bench.iter(|| black_box(&typed).answer(&base, shop));
        });
    }
}

criterion_group!(benches, job_results, quick_price);
criterion_main!(benches);
