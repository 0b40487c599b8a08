//! Figures and drills of 2,000 rows without lot, setups and price; a context; one draw.
#![expect(
    clippy::unwrap_used,
    dead_code,
    unreachable_pub,
    reason = "the tests' shop, also included by the documentation's examples"
)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_calc::hole::{Context, Draw};
use quillbore_calc::input::{Exit, HoleEnd, Surface};
use quillbore_calc::tables::{Tables, Tube};
use quillbore_calc::{Idx, RowInput};

#[path = "../tests/shop/rows.rs"]
mod shop;
use shop::{CARBIDE, STEEL, job, layers, tables, through};

/// Straight, tilted, blind and layered holes of seven sizes and forty depths.
fn many_rows() -> Vec<RowInput> {
    (0..2000)
        .map(|id| {
            let diameter = [0.62, 0.82, 1.02, 1.12, 1.32, 1.62, 1.92][id % 7];
            let row = through(diameter, 5.0 + (id % 40) as f64);
            match id % 4 {
                0 => row,
                1 => RowInput {
                    tilt_deg: 30.0,
                    ..row
                },
                2 => RowInput {
                    end: HoleEnd::Blind,
                    ..row
                },
                _ => RowInput {
                    layers: layers(&[(CARBIDE, 3.0), (STEEL, 2.0 + (id % 40) as f64)]),
                    ..row
                },
            }
        })
        .collect()
}

/// Ten thousand rows of which no two are alike: every surface at entry and exit, tilted ones too.
fn distinct_rows() -> Vec<RowInput> {
    (0..10_000)
        .map(|id| {
            let diameter = 0.55 + (id % 140) as f64 * 0.01;
            let place = id as f64 / 10_000.0;
            let row = through(diameter, 4.0 + 60.0 * place);
            let round = |radius_mm: f64| (radius_mm, radius_mm * 0.4 * place);
            let (radius_mm, offset_mm) = round(12.0 + 40.0 * place);
            let surface = match id % 5 {
                0 => Surface::Flat,
                1 | 2 => Surface::Cylinder {
                    radius_mm,
                    offset_mm,
                },
                3 => Surface::Ball {
                    radius_mm,
                    offset_mm,
                },
                _ => Surface::Edge {
                    included_deg: 90.0,
                    offset_mm: place,
                },
            };
            let bore = Surface::Bore {
                radius_mm: 3.0 + place,
                offset_mm: place,
            };
            RowInput {
                tilt_deg: [0.0, 0.0, 25.0, 0.0, 40.0][id % 5] * (0.5 + place),
                surface,
                exit: (id % 3 == 0).then_some(Exit {
                    surface: bore,
                    tilt_deg: Some(20.0 * place),
                }),
                end: if id % 7 == 0 {
                    HoleEnd::Blind
                } else {
                    HoleEnd::Into
                },
                ..row
            }
        })
        .collect()
}

/// The electrode that a row would be begun with.
fn context_of(tables: &Tables, row: &RowInput) -> Option<Idx<Tube>> {
    let input = job(vec![row.clone()]);
    Context::new(&input, tables).row_figures(row).tube
}

fn rows(criterion: &mut Criterion) {
    let tables = tables();
    let input = job(many_rows());
    criterion.bench_function("context", |bench| {
        bench.iter(|| Context::new(black_box(&input), &tables));
    });
    let context = Context::new(&input, &tables);
    criterion.bench_function("figures of 2000 rows", |bench| {
        bench.iter(|| {
            let all = input.rows.iter().map(|row| context.row_figures(row));
            all.filter(|figures| figures.minutes.is_some()).count()
        });
    });
    criterion.bench_function("figures and drills of 2000 rows", |bench| {
        bench.iter(|| {
            let all = input.rows.iter().map(|row| context.figures_and_drill(row));
            all.filter(|(_, drill)| drill.is_some()).count()
        });
    });
    criterion.bench_function("drills of 2000 rows", |bench| {
        bench.iter(|| {
            input
                .rows
                .iter()
                .filter_map(|row| context.drill(row))
                .count()
        });
    });
    let distinct = job(distinct_rows());
    criterion.bench_function(
        "figures of 10000 distinct rows with surfaces and flush",
        |bench| {
            bench.iter(|| {
                // Nothing is known from the time before.
                let context = Context::new(black_box(&distinct), &tables);
                let all = distinct.rows.iter().map(|row| context.row_figures(row));
                all.filter(|figures| figures.flush.is_some()).count()
            });
        },
    );
    // What the process itself takes: somebody chose the electrode, by a drawing that gives no limits.
    let given = job(distinct_rows()
        .into_iter()
        .map(|row| RowInput {
            tube: context_of(&tables, &row),
            limits_mm: None,
            ..row
        })
        .collect());
    criterion.bench_function("the same with their electrodes given", |bench| {
        bench.iter(|| {
            let context = Context::new(black_box(&given), &tables);
            let all = given.rows.iter().map(|row| context.row_figures(row));
            all.filter(|figures| figures.flush.is_some()).count()
        });
    });
    let drill = context.drill(&input.rows[0]).unwrap();
    criterion.bench_function("one draw", |bench| {
        bench.iter(|| drill.at(black_box(&Draw::MEDIAN)));
    });
}

criterion_group!(benches, rows);
criterion_main!(benches);
