//! Time to print a long table.
#![expect(clippy::unwrap_used, reason = "a bench may panic")]

use std::hint::black_box;

use chrono::NaiveDate;
use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_paper::flow::Flow;
use quillbore_paper::frame::Frame;
use quillbore_paper::page::{Document, Sheet};
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::table::{Cell, Column, Row, Table, Width};

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
        table.row(Row::new([
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
    let frame = Frame::default();
    flow.finish(|page, number, of| frame.write(page, Sheet::A4, number, of))
}

fn thirty_pages(c: &mut Criterion) {
    let meta = Meta {
        title: "Places".to_owned(),
        author: String::new(),
        date: NaiveDate::from_ymd_opt(2026, 11, 7).unwrap(),
    };
    let rows = (1..)
        .find(|rows| long_table(rows * 10).pages.len() == 30)
        .unwrap()
        * 10;
    c.bench_function("30-page table to PDF", |b| {
        b.iter(|| pdf::write(&long_table(black_box(rows)), &meta).unwrap());
    });
    c.bench_function("2000-row table to pages", |b| {
        b.iter(|| long_table(black_box(2000)));
    });
}

criterion_group!(papers, thirty_pages);
criterion_main!(papers);
