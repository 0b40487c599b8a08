//! Two processes save one job and take numbers on one shelf, 1,000 rounds each: no number twice, no
//! edit lost, no torn file. Without a harness, since the test starts itself as those processes.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper that fails is a failed test"
)]

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use chrono::NaiveDate;
use quillbore_job::file::{RealDisk, SaveError, hash, read_job, save, write_job};
use quillbore_job::merge::merge;
use quillbore_job::shelf::save_under_next_number;
use quillbore_job::{Edit, Field, Job, Line, SlipKind, Unit, apply};

const ROUNDS: usize = 1_000;
const DESK: &str = "QUILLBORE_TEST_DESK";

fn main() {
    if let Ok(desk) = std::env::var(DESK) {
        let folder = std::env::args_os().nth(1).expect("the shelf");
        work(Path::new(&folder), &desk);
        return;
    }
    let folder = tempfile::tempdir().expect("a folder for the test");
    let shared = folder.path().join("26-0001.ron");
    std::fs::write(&shared, write_job(&Job::default())).expect("the shared job");
    let start = |desk: &str| {
        Command::new(std::env::current_exe().expect("this test's own file"))
            .arg(folder.path())
            .env(DESK, desk)
            .spawn()
            .expect("a desk")
    };
    let desks = [start("left"), start("right")];
    for mut desk in desks {
        assert!(desk.wait().expect("a desk's end").success());
    }
    let bytes = std::fs::read(&shared).expect("the shared job");
    let job = read_job(&bytes).expect("it opens");
    let said: Vec<&str> = job
        .slips(SlipKind::Call)
        .map(|slip| slip.text(Line::Said))
        .collect();
    for desk in ["left", "right"] {
        for round in 0..ROUNDS {
            let call = format!("{desk} {round}");
            let times = said.iter().filter(|said| **said == call).count();
            assert_eq!(times, 1, "{call}");
        }
    }
    let mut numbers = BTreeSet::new();
    for entry in std::fs::read_dir(folder.path()).expect("the shelf") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|end| end == "ron") && path != shared {
            let bytes = std::fs::read(&path).expect("a job");
            let job = read_job(&bytes).expect("it opens");
            let stem = path.file_stem().expect("a name").to_string_lossy();
            assert_eq!(job.number, stem);
            assert!(numbers.insert(job.number));
        }
    }
    assert_eq!(numbers.len(), 2 * ROUNDS);
    println!("2 desks, {ROUNDS} rounds each: 1 passed, 0 failed");
}

/// One desk: every round it takes a number for a new job and writes a call into the shared one.
fn work(shelf: &Path, desk: &str) {
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let shared = shelf.join("26-0001.ron");
    let mut base = open(&shared);
    for round in 0..ROUNDS {
        let customer = Edit::SetField {
            field: Field::Customer,
            text: format!("{desk} {round}"),
            unit: Unit::Mm,
        };
        let (job, _) = apply(&Job::default(), &customer).expect("an edit");
        save_under_next_number(&RealDisk, shelf, &job, day).expect("a number");
        let call = Edit::AddSlip {
            kind: SlipKind::Call,
            lines: vec![(Line::Said, format!("{desk} {round}"))],
            unit: Unit::Mm,
        };
        let (mut ours, _) = apply(&base, &call).expect("a call");
        // What the window offers where another desk was faster: their work and ours put together.
        loop {
            let opened = hash(write_job(&base).as_bytes());
            match save(&RealDisk, &shared, &ours, Some(opened)) {
                Ok(_) => break,
                Err(SaveError::Changed) => {
                    let theirs = open(&shared);
                    let merged = merge(&base, &ours, &theirs).expect("room for both");
                    assert_eq!(merged.clashes, []);
                    ours = merged.job;
                    base = theirs;
                }
                Err(error) => panic!("{desk} {round}: {error}"),
            }
        }
        base = ours;
    }
}

fn open(path: &Path) -> Job {
    let bytes = std::fs::read(path).expect("the shared job");
    read_job(&bytes).expect("never torn")
}
