//! The run records of a shelf of 5,000 jobs, each with one: gathered for the first time, looked at where
//! nothing changed, and where one job has one more. Where it is only tried, as `cargo test --benches`
//! does, it takes 50 jobs.
#![expect(clippy::expect_used, reason = "a bench fails by panic")]

use std::fs;
use std::sync::Arc;
use std::time::Instant;

use chrono::NaiveDate;
use quillbore_job::file::write_job;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Line, Shop, SlipKind, Unit, apply};
use quillbore_office::disk::RealDisk;
use quillbore_office::pool::Pool;
use quillbore_office::shelf::{Folder, Mark, Shelf as _};

const MATERIALS: [&str; 5] = [
    "Tool steel D2",
    "Nickel alloy 718",
    "Stainless 316",
    "Alloy steel 4340",
    "Aluminum 6061",
];

fn main() {
    let is_read = std::env::args().any(|word| word == "--bench");
    let jobs = if is_read { 5_000 } else { 50 };
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
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let mut pool = Pool::new(Arc::new(Shop::embedded().expect("the shop").clone()));
    timed(&format!("gathering {jobs} records"), || {
        pool.look(&shelf).expect("a look")
    });
    let teaching = timed("learning from them", || pool.teaching(day));
    assert_eq!(teaching.sources.len(), jobs);
    let changed = timed("a look where nothing changed", || {
        pool.look(&shelf).expect("a look")
    });
    assert!(!changed);
    write(&with_run(&job(7), 9));
    let changed = timed("a look where one job has one more", || {
        pool.look(&shelf).expect("a look")
    });
    assert!(changed);
    // On a desk nobody looks at the shelf: the job is there already.
    let on_desk = with_run(&job(8), 11);
    let key = quillbore_office::names::JobKey::new(&on_desk.number).expect("a name");
    timed("taking in one from a desk", || pool.took(&key, &on_desk));
    assert_eq!(pool.teaching(day).sources.len(), jobs + 2);
}

fn timed<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let done = work();
    println!("{what}: {:.1} ms", start.elapsed().as_secs_f64() * 1e3);
    done
}

/// A job of one row of a size of its own, with one run record.
fn job(at: usize) -> Job {
    let edit = |job: &Job, edit: &Edit| apply(job, edit).expect("an edit").0;
    let field = |job: &Job, field: Field, text: &str| {
        let text = text.to_owned();
        let unit = Unit::Mm;
        edit(job, &Edit::SetField { field, text, unit })
    };
    let job = Job {
        number: format!("26-{at:04}"),
        ..Job::default()
    };
    let job = field(&job, Field::Material, MATERIALS[at % MATERIALS.len()]);
    let job = field(&job, Field::Machine, ["Barrow", "Steeple"][at % 2]);
    let job = field(&job, Field::Quantity, "10");
    let size = format!("{:.2} +-0.05", 0.5 + 0.1 * (at % 12) as f64);
    let depth = format!("{}", 5 + at % 20);
    let cells = ["A", "12", &size, &depth].map(|text| Some(text.to_owned()));
    let at_start = CellAt {
        row: 0,
        column: Column::Mark,
    };
    let job = edit(
        &job,
        &Edit::SetCells {
            at: at_start,
            rows: vec![cells.to_vec()],
            unit: Unit::Mm,
        },
    );
    with_run(&job, at)
}

fn with_run(job: &Job, at: usize) -> Job {
    let minutes = (60 + at % 90).to_string();
    let lines = [
        (Line::Date, "2026-10-20"),
        (Line::Mark, "A"),
        (Line::Holes, "120"),
        (Line::SparkMinutes, &minutes),
        (Line::TubeBefore, "300"),
        (Line::TubeAfter, "180"),
    ];
    let edit = Edit::AddSlip {
        kind: SlipKind::Run,
        lines: lines.map(|(line, text)| (line, text.to_owned())).to_vec(),
        unit: Unit::Mm,
    };
    apply(job, &edit).expect("an edit").0
}
