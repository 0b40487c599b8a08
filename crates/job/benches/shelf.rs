//! A shelf of 50,000 jobs in memory: each key of a search, the jobs most like one, the cache.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

use std::hint::black_box;
use std::sync::Arc;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_calc::tables::Family;
use quillbore_job::shelf::{
    Index, Price, ShelfLine, Stamp, Summary, Wanted, read_cache, similar, write_cache,
};

const JOBS: u32 = 50_000;
const CUSTOMERS: [&str; 7] = [
    "Alder Finch Rotors",
    "Dunmoor Hydraulics",
    "Moss & Pell Tooling",
    "Hollis Valve",
    "Quarry Lane Molds",
    "Fenwick Injectors",
    "Tarn Turbine Service",
];
const MATERIALS: [&str; 4] = [
    "Nickel alloy 718",
    "Alloy steel 4340",
    "Tool steel D2",
    "Carbide, 10 % cobalt",
];

fn line(at: u32) -> Arc<ShelfLine> {
    let (year, number) = (20 + at / 8_000, at % 8_000);
    let number = format!("{year:02}-{number:04}");
    let pick = at as usize;
    Arc::new(ShelfLine {
        file: format!("{number}.ron"),
        number: number.clone(),
        stamp: Stamp {
            changed_ns: i64::from(at),
            bytes: 1_800,
        },
        says: Ok(Summary {
            number,
            customer: CUSTOMERS[pick % 7].to_owned(),
            part: format!("{}-{}", at % 97, at * 7 % 1_000),
            part_name: ["ring", "spindle", "die plate"][pick % 3].to_owned(),
            revision: ["A", "B", "C"][pick % 3].to_owned(),
            drawing: format!("D{:05}", at * 31 % 100_000),
            material: MATERIALS[pick % 4].to_owned(),
            references: format!("PO {}", at * 13 % 90_000),
            notes: "wax in the bores, ask before the second clamping".to_owned(),
            state: "delivered".to_owned(),
            quantity: Some(1 + at % 60),
            size_mm: Some(0.3 + f64::from(at % 40) * 0.07),
            depth_mm: Some(2.0 + f64::from(at % 90)),
            holes: 1 + at % 300,
            price: at.is_multiple_of(3).then(|| Price {
                quantity: 1 + at % 60,
                each: "48.20".parse().unwrap(),
            }),
            ..Summary::default()
        }),
    })
}

fn shelf(criterion: &mut Criterion) {
    let lines: Vec<Arc<ShelfLine>> = (0..JOBS).map(line).collect();
    let index = Index::new(lines.clone());
    for typed in [
        "",
        "a",
        "al",
        "ald",
        "alder",
        "alder 4-1",
        "26",
        "26-0",
        "PO 71",
        "ask before",
        "zzz",
    ] {
        criterion.bench_function(&format!("find {typed:?} in 50000"), |bench| {
            bench.iter(|| index.find(black_box(typed)).len());
        });
    }
    let wanted = Wanted {
        number: "26-0001",
        family: Some(Family::Nickel),
        material: Some(0),
        size_mm: Some(0.8),
        depth_mm: Some(14.0),
        quantity: Some(25),
    };
    let family_of = |name: &str| {
        let at = MATERIALS.iter().position(|material| *material == name)?;
        let family = [
            Family::Nickel,
            Family::Steel,
            Family::ToolSteel,
            Family::Carbide,
        ][at];
        Some((at, family))
    };
    criterion.bench_function("the five most alike of 50000", |bench| {
        bench.iter(|| similar(&index, black_box(&wanted), &family_of, 5));
    });
    let bytes = write_cache(&lines);
    criterion.bench_function("read the cache of 50000", |bench| {
        bench.iter(|| read_cache(black_box(&bytes)).len());
    });
    criterion.bench_function("index of 50000", |bench| {
        bench.iter(|| Index::new(black_box(&lines).clone()).lines.len());
    });
}

criterion_group!(benches, shelf);
criterion_main!(benches);
