//! Time to print a long traveler, and to set a long table.
#![expect(clippy::unwrap_used, reason = "a bench may panic")]

#[path = "../tests/common/mod.rs"]
mod common;

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_paper::page::{Document, Sheet};
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::traveler;
use quillbore_paper::typeset::flow::Flow;
use quillbore_paper::typeset::table::{Cell, Column, Table, TableRow, Width};

fn long_table(rows: usize) -> Document {
    let mut table = Table::new([
        Column::text("Hole", Width::Fit(60.0)),
        Column::figures("Diameter", "mm", Width::Fit(60.0)),
        Column::figures("Depth on the axis", "mm", Width::Fit(60.0)),
        Column::figures("Angle", "deg", Width::Fit(60.0)),
        Column::text("Electrode", Width::Share(1.0)),
        Column::figures("Minutes", "min", Width::Fit(60.0)),
    ]);
    for index in 0..rows {
        table.row(TableRow::new([
            Cell::new(format!("A{index}")),
            Cell::new("0.80"),
            Cell::new("14.0"),
            Cell::new("60.0"),
            Cell::new("brass tube 0.70, one channel, 400 long"),
            Cell::new("0.74"),
        ]));
    }
    let mut flow = Flow::new(Sheet::A4);
    table.set(&mut flow);
    flow.finish(|_, _, _| {})
}

fn papers(c: &mut Criterion) {
    let meta = Meta {
        title: "Traveler".to_owned(),
        author: String::new(),
        date: common::day(),
    };
    let long = (1..)
        .map(|tens| common::rows(tens * 10))
        .find(|sample| traveler(&sample.matter(Sheet::A4)).pages.len() >= 30)
        .unwrap();
    c.bench_function("30-page traveler to PDF", |b| {
        b.iter(|| pdf::write(&traveler(&black_box(&long).matter(Sheet::A4)), &meta).unwrap());
    });
    let ring = common::ring();
    c.bench_function("1080-hole traveler to pages", |b| {
        b.iter(|| traveler(&black_box(&ring).matter(Sheet::A4)));
    });
    c.bench_function("2000-row table to pages", |b| {
        b.iter(|| long_table(black_box(2000)));
    });
}

criterion_group!(benches, papers);
criterion_main!(benches);
