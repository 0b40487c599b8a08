//! The holes of a STEP file of 20 MB: a plate of the corpus, again and again.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

use std::fmt::Write as _;
use std::hint::black_box;
use std::path::Path;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_intake::step;

const BYTES: usize = 20_000_000;

/// So many plates beside each other in one file, each with numbers of its own.
fn many_plates() -> String {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/step-corpus/plate-214-mm.step");
    let text = std::fs::read_to_string(path).unwrap();
    let (head, rest) = text.split_once("DATA;\n").unwrap();
    let (data, end) = rest.split_once("ENDSEC;").unwrap();
    let mut all = format!("{head}DATA;\n");
    let (mut first, mut aside) = (0_u64, 0.0);
    while all.len() < BYTES {
        let mut pieces = data.split('#');
        all += pieces.next().unwrap();
        let mut most = 0;
        for piece in pieces {
            let digits = piece.len() - piece.trim_start_matches(|c: char| c.is_ascii_digit()).len();
            let number: u64 = piece[..digits].parse().unwrap();
            most = most.max(number);
            let rest = moved(&piece[digits..], aside);
            write!(all, "#{}{rest}", first + number).unwrap();
        }
        first += most;
        // Bodies that stand in one place are one.
        aside += 200.0;
    }
    all + "ENDSEC;" + end
}

/// An instance, a point in space being put aside along x.
fn moved(instance: &str, aside: f64) -> String {
    const POINT: &str = "CARTESIAN_POINT('',(";
    let Some((before, rest)) = instance.split_once(POINT) else {
        return instance.to_owned();
    };
    let (inner, after) = rest.split_once(')').unwrap();
    let parts: Vec<&str> = inner.split(',').collect();
    let [x, y, z] = parts.as_slice() else {
        return instance.to_owned();
    };
    let x: f64 = x.trim().parse().unwrap();
    format!("{before}{POINT}{:?},{y},{z}){after}", x + aside)
}

fn step_of_20_mb(c: &mut Criterion) {
    let text = many_plates();
    let seen = step::read(text.as_bytes(), &|_| false).unwrap();
    assert!(seen.holes.len() > 6_000, "{}", seen.holes.len());
    let mut group = c.benchmark_group("step");
    group.sample_size(10);
    group.bench_function("20 MB", |b| {
        b.iter(|| step::read(black_box(text.as_bytes()), &|_| false).unwrap());
    });
    group.finish();
}

criterion_group!(benches, step_of_20_mb);
criterion_main!(benches);
