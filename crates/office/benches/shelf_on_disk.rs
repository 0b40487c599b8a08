//! A shelf of 50,000 job files on a real disk: first look, first list from the cache, a look in which
//! nothing changed, one in which one job did. Where it is only tried, as `cargo test --benches` does,
//! it takes 200 files.
#![expect(clippy::expect_used, reason = "a bench fails by panic")]

use std::fs;
use std::sync::Arc;
use std::time::Instant;

use quillbore_job::file::write_job;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Unit, apply};
use quillbore_office::digest::{Follower, Index, Looked, Query, Sort};
use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::{Folder, Mark, Shelf as _};

const CUSTOMERS: [&str; 4] = [
    "Alder Finch Rotors",
    "Dunmoor Hydraulics",
    "Hollis Valve",
    "Tarn",
];

fn main() {
    let is_read = std::env::args().any(|word| word == "--bench");
    let jobs = if is_read { 50_000 } else { 200 };
    let folder = tempfile::tempdir().expect("a folder");
    let write = |job: &Job| {
        let path = folder.path().join(format!("{}.ron", job.number));
        fs::write(path, write_job(job)).expect("a job's file");
    };
    for at in 0..jobs {
        write(&job(at));
    }
    let shelf = Folder::new(Arc::new(RealDisk::default()), folder.path(), None);
    shelf.adopt(&Mark::of([7; 16])).expect("a mark");
    let look = |follower: &mut Follower| follower.look(&shelf, &mut |_| true).expect("a look");
    let read = |read| Looked { read, done: true };

    let mut follower = Follower::default();
    let first = timed(&format!("first look at {jobs} files, no cache"), || {
        look(&mut follower)
    });
    assert_eq!((first, follower.len()), (read(jobs), jobs));
    let cache = folder.path().join("cache");
    timed("writing the cache", || {
        fs::write(&cache, follower.to_cache()).expect("a cache");
    });
    println!(
        "the cache has {:.1} MB",
        fs::metadata(&cache).expect("a cache").len() as f64 / 1e6
    );
    let (mut follower, mut index) = timed("first list, from the cache", || {
        let bytes = fs::read(&cache).expect("the cache");
        let follower = Follower::from_cache(&bytes).expect("a cache of this version");
        let index = Index::new(follower.lines());
        (follower, index)
    });
    assert_eq!(index.lines.len(), jobs);
    let again = timed("look where nothing changed", || look(&mut follower));
    assert_eq!(again, read(0));
    timed("bringing the index up to it", || {
        index.follow(follower.lines());
    });

    let changed = with(&job(jobs / 2), Field::Customer, "Quarry Lane Molds");
    write(&changed);
    let again = timed("look where one job changed", || look(&mut follower));
    assert_eq!(again, read(1));
    timed("bringing the index up to it", || {
        index.follow(follower.lines());
    });
    assert_eq!(
        index.find(&Query::letters("quarry"), Sort::default()).len(),
        1
    );
}

fn timed<T>(what: &str, done: impl FnOnce() -> T) -> T {
    let begun = Instant::now();
    let came = done();
    println!("{what}: {:.4} s", begun.elapsed().as_secs_f64());
    came
}

fn with(job: &Job, field: Field, text: &str) -> Job {
    let (text, unit) = (text.to_owned(), Unit::Mm);
    let edit = Edit::SetField { field, text, unit };
    apply(job, &edit).expect("an edit").0
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
        job = with(&job, field, &text);
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
