//! A shelf of 50,000 job files on a real disk: first scan, first list from the cache, a scan in which
//! nothing changed. Run with `--test`, as `cargo test --benches` does, it takes 200 files.
#![expect(clippy::expect_used, reason = "a bench fails by panic")]

use std::fs;
use std::time::Instant;

use quillbore_job::file::write_job;
use quillbore_job::shelf::{Index, read_cache, scan, write_cache};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Unit, apply};

const CUSTOMERS: [&str; 4] = [
    "Alder Finch Rotors",
    "Dunmoor Hydraulics",
    "Hollis Valve",
    "Tarn",
];

fn main() {
    let few = std::env::args().any(|word| word == "--test");
    let jobs = if few { 200 } else { 50_000 };
    let folder = tempfile::tempdir().expect("a folder");
    for at in 0..jobs {
        let job = job(at);
        let path = folder.path().join(format!("{}.ron", job.number));
        fs::write(path, write_job(&job)).expect("a job's file");
    }
    let cache = folder.path().join("cache.json");
    let begun = Instant::now();
    let first = scan(folder.path(), &[], |_| true).expect("a scan");
    println!(
        "first scan of {jobs} files, no cache: {:.3} s",
        begun.elapsed().as_secs_f64()
    );
    assert_eq!((first.lines.len(), first.read), (jobs, jobs));
    fs::write(&cache, write_cache(&first.lines)).expect("a cache");
    let begun = Instant::now();
    let known = read_cache(&fs::read(&cache).expect("the cache"));
    let index = Index::new(known.clone());
    println!(
        "first list, from the cache: {:.3} s",
        begun.elapsed().as_secs_f64()
    );
    assert_eq!(index.lines.len(), jobs);
    let begun = Instant::now();
    let again = scan(folder.path(), &known, |_| true).expect("a scan");
    println!(
        "scan where nothing changed: {:.3} s",
        begun.elapsed().as_secs_f64()
    );
    assert_eq!((again.lines.len(), again.read), (jobs, 0));
}

fn job(at: usize) -> Job {
    let mut job = Job {
        number: format!("{:02}-{:04}", 18 + at / 6_000, at % 6_000),
        ..Job::default()
    };
    for (field, text) in [
        (Field::Customer, CUSTOMERS[at % 4].to_owned()),
        (Field::Part, format!("{}-{}", at % 97, at * 7 % 1_000)),
        (Field::Material, "Nickel alloy 718".to_owned()),
        (Field::Quantity, format!("{}", 1 + at % 60)),
    ] {
        let edit = Edit::SetField {
            field,
            text,
            unit: Unit::Mm,
        };
        job = apply(&job, &edit).expect("an edit").0;
    }
    let rows = (0..3).map(|row| {
        let size = format!("{:.2} +-0.05", 0.3 + ((at + row) % 40) as f64 * 0.05);
        ["A", "12", &size, "14"]
            .map(|text| Some(text.to_owned()))
            .to_vec()
    });
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: rows.collect(),
        unit: Unit::Mm,
    };
    apply(&job, &edit).expect("an edit").0
}
