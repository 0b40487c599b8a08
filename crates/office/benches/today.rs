//! A shelf of 50,000 jobs of six years in shares as a shop has them (nearly all delivered, some hundreds
//! alive): what a key in the find line costs, with any sort, and the day's list. Where it is only tried,
//! as `cargo test --benches` does, it takes 200.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

mod many;

use std::collections::BTreeMap;
use std::hint::black_box;
use std::sync::Arc;

use chrono::{Days, NaiveDate};
use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_job::drawer::Thing;
use quillbore_job::life::State;
use quillbore_job::order::Difference;
use quillbore_job::words::life::state;
use quillbore_job::{Form, Line, SlipKind, Unit};
use quillbore_office::digest::{
    Asking, Digest, Hours, Index, OpenMatter, Price, Query, ShelfLine, Sort, SortBy, Summary,
};
use quillbore_office::names::JobKey;
use quillbore_office::today::{self, Day, PutOff, Short, on_the_floor};
use quillbore_office::week::five_days;
use rust_decimal::Decimal;

use many::{CUSTOMERS, MATERIALS, jobs};

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).unwrap()
}

fn before(days: u32) -> NaiveDate {
    today().checked_sub_days(Days::new(days.into())).unwrap()
}

fn after(days: u32) -> NaiveDate {
    today().checked_add_days(Days::new(days.into())).unwrap()
}

/// Of the newest 800 jobs some 600 are alive; of the older ones one in fifty was set aside, and one in
/// five hundred still has a matter.
fn stands(at: u32) -> State {
    if at + 800 < jobs() {
        return if at.is_multiple_of(50) {
            State::LaidAside
        } else {
            State::Delivered
        };
    }
    match at % 8 {
        0 | 1 => State::Delivered,
        2 => State::Inquiry,
        3 | 4 => State::Quoted,
        5 => State::Ordered,
        6 => State::PartsHere,
        _ => State::OnTheFloor,
    }
}

fn open(at: u32, stands: State) -> Vec<OpenMatter> {
    let due = OpenMatter::Due {
        day: after(at % 40).min(before(at % 9)).max(after(at % 3)),
        slip: Some(1),
        left: Some(25),
    };
    let since = Some(before(at % 30));
    let mut open = match stands {
        State::Quoted => vec![OpenMatter::Quotation {
            number: format!("{at}-Q1"),
            date: before(at % 60),
            follow_up: at.is_multiple_of(3).then(|| after(at % 5)),
        }],
        State::Ordered => vec![
            OpenMatter::Parts {
                here: 0,
                ordered: 25,
                since,
            },
            due,
        ],
        State::PartsHere => vec![OpenMatter::ToRelease { parts: 25, since }, due],
        State::OnTheFloor => vec![due],
        _ => Vec::new(),
    };
    if stands == State::Ordered && at.is_multiple_of(5) {
        open.push(OpenMatter::OrderDiffers {
            slip: 1,
            date: since,
            what: Difference::Price {
                ordered: Decimal::from(81),
                quoted: Decimal::from(86),
            },
            more: 1,
        });
    }
    if at.is_multiple_of(500) {
        open.push(OpenMatter::Nonconformance {
            slip: 3,
            date: since,
            what: "A3 of SN104: 0.1 too deep".to_owned(),
        });
    }
    if at.is_multiple_of(701) {
        open.push(OpenMatter::Unread {
            slip: 2,
            kind: SlipKind::Call,
            line: Line::CallAgain,
            typed: "soon".to_owned(),
        });
    }
    open
}

fn line(at: u32) -> Arc<ShelfLine> {
    let pick = at as usize;
    let name = format!("{:02}-{:04}", 20 + at / 8_000, at % 8_000);
    let stands = stands(at);
    let quantity = 1 + at % 60;
    let size_mm = 0.3 + f64::from(at % 40) * 0.07;
    let summary = Summary {
        number: name.clone(),
        customer: format!("{} {}", CUSTOMERS[pick % 7], at % 31),
        part: format!("{}-{}", at % 97, at * 7 % 1_000),
        part_name: ["ring", "spindle", "die plate"][pick % 3].to_owned(),
        revision: ["A", "B", "C"][pick % 3].to_owned(),
        drawing: format!("D{:05}", at * 31 % 100_000),
        material: MATERIALS[pick % 4].to_owned(),
        machine: ["Wren", "Barrow"][pick % 2].to_owned(),
        references: format!("PO {}", at * 13 % 90_000),
        notes: "wax in the bores, ask before the second clamping".to_owned(),
        state: state(stands).to_owned(),
        opened: Some(before((jobs() - at) / 25)),
        due: Some(after(at % 40)),
        follow_up: None,
        quantity: Some(quantity),
        size_mm: Some(size_mm),
        depth_mm: Some(f64::from(2 + at % 90)),
        // Most jobs have a few kinds of holes, some have many.
        other_kinds: (0..if at.is_multiple_of(50) { 20 } else { at % 4 })
            .map(|kind| {
                (
                    Some(0.5 + f64::from(kind) * 0.1),
                    Some(f64::from(3 + at % 70)),
                )
            })
            .collect(),
        holes: 1 + at % 300,
        price: (stands != State::Inquiry).then(|| Price {
            quantity,
            each: Decimal::new(i64::from(at * 37 % 90_000), 2),
            ..Price::default()
        }),
        hours: (stands == State::Delivered).then(|| Hours {
            each: f64::from(at % 700) / 100.0,
            by_clock: true,
            scaled: false,
        }),
    };
    Arc::new(ShelfLine {
        job: Some(JobKey::new(&name).unwrap()),
        name,
        says: Ok(Digest {
            summary,
            open: open(at, stands),
            ..Digest::default()
        }),
    })
}

fn keys(criterion: &mut Criterion, index: &Index, how: &str) {
    let calendar = five_days();
    let by = Asking {
        form: Form::default(),
        today: today(),
        calendar: &calendar,
        unit: Unit::Mm,
    };
    let sorts = [
        Sort::default(),
        Sort {
            by: SortBy::Price,
            falling: true,
        },
        Sort {
            by: SortBy::Customer,
            falling: false,
        },
    ];
    for typed in [
        "",
        "a",
        "ask before",
        "late",
        "due this week",
        "no answer 14 days",
        "material 718",
        "material 718 size 0.8",
        "customer a material l machine r",
        "material 718 size under 2 depth over 20 l/d 20 customer alder price over 100 ring",
    ] {
        for sort in sorts {
            let Sort { by: column, .. } = sort;
            let name = format!("{typed:?} by {column:?}, {how}");
            criterion.bench_function(&name, |bench| {
                bench.iter(|| index.find(&Query::read(black_box(typed), &by), sort).len());
            });
        }
    }
}

/// The day's list: a few hundred lines of the whole shelf.
fn list(criterion: &mut Criterion, index: &Index) {
    let calendar = five_days();
    let floor = on_the_floor(index).into_iter();
    let hours: BTreeMap<JobKey, f64> = floor.map(|job| (job, 3.5)).collect();
    let short = Short {
        thing: Thing::Electrode,
        name: "Electrode 0.70 mm".to_owned(),
        here: 3,
        wanted: 9,
        job: hours.keys().next().cloned(),
    };
    let mut day = Day {
        today: today(),
        calendar: &calendar,
        hours: &hours,
        short: &[short],
        put_off: &PutOff::new(),
        form: Form::default(),
    };
    let lines = |day: &Day<'_>| today::today(index, black_box(day)).lines;
    let put_off: PutOff = lines(&day)
        .into_iter()
        .step_by(10)
        .map(|line| (line.matter, after(3)))
        .collect();
    day.put_off = &put_off;
    let (count, floor) = (lines(&day).len(), hours.len());
    let name = format!("the day's list, {count} lines, {floor} jobs on the floor");
    criterion.bench_function(&name, |bench| bench.iter(|| lines(&day).len()));
}

fn shelf(criterion: &mut Criterion) {
    let lines: Vec<Arc<ShelfLine>> = (0..jobs()).map(line).collect();
    criterion.bench_function("index with its orders", |bench| {
        bench.iter(|| Index::new(black_box(&lines).clone()).lines.len());
    });
    let mut index = Index::new(lines);
    list(criterion, &index);
    keys(criterion, &index, "settled");
    // As many lines beside the base as there may be.
    for at in 0..200 {
        index.put(line(at * (jobs() / 200)));
    }
    keys(criterion, &index, "200 saved since");
}

criterion_group!(benches, shelf);
criterion_main!(benches);
