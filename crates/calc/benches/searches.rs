//! How long packing and hole order take.
//!
//! With QUILLBORE_TSPLIB naming a folder of TSPLIB files (Reinelt, ORSA J. on Computing 3(4), 1991)
//! their hole orders are timed too, and the tour lengths printed by TSPLIB's rounding; with an
//! `optima.csv` beside them (name, holes, optimum) the gap as well.

use std::collections::BTreeMap;
use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use quillbore_calc::order::{Ends, Metric, OrderEffort, hole_order};
use quillbore_calc::packing::{Effort, Electrode, HoleKind, electrodes_for_lot};

/// Random enough for a bench, and the same each time.
struct Congruence(u64);

impl Congruence {
    /// The next number from 0 to 1.
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 40) as f64 / (1_u64 << 24) as f64
    }
}

/// Holes 5 to 100 mm deep, wear 0.4 to 1.2 of the depth, 30 mm for the guide.
fn lot(kinds: u32, count: u32) -> Vec<HoleKind> {
    let mut random = Congruence(11);
    (0..kinds)
        .map(|id| {
            let depth = 5.0 + 95.0 * random.next();
            HoleKind {
                id,
                reach_mm: depth + 30.0,
                consume_mm: depth * (0.4 + 0.8 * random.next()) + 1.0,
                count,
            }
        })
        .collect()
}

fn packing(criterion: &mut Criterion) {
    let electrode = Electrode::new(300.0);
    let mut group = criterion.benchmark_group("packing");
    for (name, kinds) in [
        ("50 holes", lot(50, 1)),
        ("200 holes", lot(200, 1)),
        ("40 kinds x 5000", lot(40, 5_000)),
    ] {
        for (effort_name, effort) in [("quick", Effort::quick()), ("search", Effort::default())] {
            let plan = electrodes_for_lot(&kinds, &electrode, &effort);
            println!(
                "{name}, {effort_name}: needed {} at_least {}",
                plan.needed, plan.at_least
            );
            group.bench_function(BenchmarkId::new(effort_name, name), |bencher| {
                bencher.iter(|| electrodes_for_lot(black_box(&kinds), &electrode, &effort));
            });
        }
    }
    group.finish();
}

fn order(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("hole order");
    for holes in [1_000, 3_000] {
        let mut random = Congruence(5);
        let points: Vec<[f64; 2]> = (0..holes)
            .map(|_| [200.0 * random.next(), 120.0 * random.next()])
            .collect();
        for (name, ends) in [("open", Ends::Open), ("closed", Ends::Closed)] {
            let effort = OrderEffort::for_holes(points.len());
            group.bench_function(BenchmarkId::new(name, holes), |bencher| {
                bencher.iter(|| hole_order(black_box(&points), Metric::Straight, ends, &effort));
            });
        }
    }
    group.finish();
}

fn published(criterion: &mut Criterion) {
    let Some(folder) = std::env::var_os("QUILLBORE_TSPLIB") else {
        return;
    };
    let mut group = criterion.benchmark_group("TSPLIB");
    for (name, (points, optimum)) in read_folder(Path::new(&folder)) {
        let effort = OrderEffort::for_holes(points.len());
        let found = hole_order(&points, Metric::Straight, Ends::Closed, &effort);
        let length = rounded_length(&points, &found.order);
        match optimum {
            Some(optimum) => {
                let gap = 100.0 * (length / optimum - 1.0);
                println!("{name}: {length}, {gap:.2} % above {optimum}");
            }
            None => println!("{name}: {length}"),
        }
        group.bench_function(name, |bencher| {
            bencher
                .iter(|| hole_order(black_box(&points), Metric::Straight, Ends::Closed, &effort));
        });
    }
    group.finish();
}

type Instance = (Vec<[f64; 2]>, Option<f64>);

fn read_folder(folder: &Path) -> BTreeMap<String, Instance> {
    let optima = std::fs::read_to_string(folder.join("optima.csv")).unwrap_or_default();
    let optimum = |name: &str| {
        let row = optima
            .lines()
            .map(|line| line.split(',').collect::<Vec<_>>());
        row.into_iter()
            .find(|row| row.first() == Some(&name))
            .and_then(|row| row.get(2)?.parse().ok())
    };
    let mut instances = BTreeMap::new();
    for file in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = file.path();
        let (Some(name), true) = (
            path.file_stem(),
            path.extension().is_some_and(|end| end == "tsp"),
        ) else {
            continue;
        };
        let name = name.to_string_lossy().into_owned();
        let points = read_points(&std::fs::read_to_string(&path).unwrap_or_default());
        let optimum = optimum(&name);
        instances.insert(name, (points, optimum));
    }
    instances
}

/// The lines of a node section: number, x, y.
fn read_points(text: &str) -> Vec<[f64; 2]> {
    let lines = text
        .lines()
        .skip_while(|line| !line.starts_with("NODE_COORD_SECTION"));
    lines
        .filter_map(|line| {
            let mut values = line.split_whitespace().skip(1).map(str::parse);
            Some([values.next()?.ok()?, values.next()?.ok()?])
        })
        .collect()
}

/// Length of the tour with each move rounded to a whole number, as TSPLIB's EUC_2D says.
fn rounded_length(points: &[[f64; 2]], order: &[usize]) -> f64 {
    let after = order.iter().cycle().skip(1);
    let moves = order.iter().zip(after).map(|(&from, &to)| {
        let [x, y] = [0, 1].map(|axis| points[from][axis] - points[to][axis]);
        (x * x + y * y).sqrt().round()
    });
    moves.sum()
}

criterion_group! {
    name = searches;
    config = Criterion::default()
        .sample_size(10)
        .warm_up_time(Duration::from_millis(500))
        .measurement_time(Duration::from_secs(3));
    targets = packing, order, published
}
criterion_main!(searches);
