//! Three processes save one job and take numbers on one shelf, many rounds each: no number twice, no
//! edit lost, no torn file, no change that a reader misses. Without a harness, since the test starts
//! itself as those processes.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper that fails is a failed test"
)]

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::file::read_job;
use quillbore_job::merge::merge;
use quillbore_job::slip::{kind, line};
use quillbore_job::{Edit, Field, Job, Line, SlipKind, Unit, apply};
use quillbore_office::disk::RealDisk;
use quillbore_office::names::JobKey;
use quillbore_office::numbers::save_as_next;
use quillbore_office::save::{Opened, save};
use quillbore_office::shelf::{Cursor, Doc, Folder, Mark, Shelf, Version};

const ROUNDS: usize = 330;
const DESKS: [&str; 3] = ["left", "middle", "right"];
const DESK: &str = "QUILLBORE_TEST_DESK";

fn main() {
    if let Ok(desk) = std::env::var(DESK) {
        let folder = std::env::args_os().nth(1).expect("the shelf");
        work(Path::new(&folder), &desk);
        return;
    }
    let folder = tempfile::tempdir().expect("a folder for the test");
    let shelf = shelf(folder.path());
    shelf.adopt(&Mark::of([1; 16])).expect("a mark");
    save(&shelf, &shared(), &Arc::new(Job::default()), None).expect("the shared job");
    let start = |desk: &&str| {
        Command::new(std::env::current_exe().expect("this test's own file"))
            .arg(folder.path())
            .env(DESK, desk)
            .spawn()
            .expect("a desk")
    };
    let mut desks: Vec<_> = DESKS.iter().map(start).collect();
    let followed = follow(&shelf, || {
        let ended = |desk: &mut std::process::Child| desk.try_wait().expect("a desk").is_some();
        // All of them are asked, so that none stays a zombie.
        desks.iter_mut().map(ended).filter(|ended| !ended).count() == 0
    });
    for mut desk in desks {
        assert!(desk.wait().expect("a desk's end").success());
    }
    let said = every_call_once(&shelf);
    let numbers = every_number_once(&shelf);
    println!(
        "{} desks, {ROUNDS} rounds each, {said} calls, {numbers} numbers, followed {followed} times: 1 passed, 0 failed",
        DESKS.len()
    );
}

fn shelf(folder: &Path) -> Arc<dyn Shelf> {
    Arc::new(Folder::new(Arc::new(RealDisk::default()), folder, None))
}

fn shared() -> JobKey {
    JobKey::new("26-0001").expect("a job's name")
}

/// Every call of every desk stands in the shared job, once.
fn every_call_once(shelf: &Arc<dyn Shelf>) -> usize {
    let (job, _) = open(shelf, &shared());
    let said = job
        .slips_of::<kind::Call>()
        .map(|slip| slip.get(line::Said));
    let said: Vec<&str> = said.collect();
    for desk in DESKS {
        for round in 0..ROUNDS {
            let call = format!("{desk} {round}");
            let times = said.iter().filter(|said| **said == call).count();
            assert_eq!(times, 1, "{call}");
        }
    }
    assert_eq!(said.len(), DESKS.len() * ROUNDS);
    said.len()
}

/// Every new job of every desk has a number of its own, and none was left out.
fn every_number_once(shelf: &Arc<dyn Shelf>) -> usize {
    let all = shelf.changes(&Cursor::default()).expect("a list");
    assert_eq!((all.gone, all.unusable), (vec![], vec![]));
    let (mut numbers, mut customers) = (BTreeSet::new(), BTreeSet::new());
    for doc in all.there {
        let Doc::Job(key) = doc else {
            panic!("{doc:?}");
        };
        if key == shared() {
            continue;
        }
        let (job, _) = open(shelf, &key);
        assert_eq!(job.number, key.as_str());
        customers.insert(job.text(Field::Customer).to_owned());
        numbers.insert(key.number_of(26).expect("a number of the year"));
    }
    let many = u32::try_from(DESKS.len() * ROUNDS).expect("a small number");
    assert!(numbers.into_iter().eq(101..101 + many));
    assert_eq!(customers.len(), DESKS.len() * ROUNDS);
    customers.len()
}

/// Follows the shelf until all desks are done: by what is told alone, everything is known at the end.
/// How often it looked.
fn follow(shelf: &Arc<dyn Shelf>, mut done: impl FnMut() -> bool) -> usize {
    let (mut cursor, mut known) = (Cursor::default(), std::collections::BTreeMap::new());
    for looks in 1.. {
        let last = done();
        let told = shelf.changes(&cursor).expect("a list");
        assert_eq!(told.gone, [], "nobody takes a job away");
        for doc in told.there {
            let stored = shelf.read(&doc).expect("it can be read");
            let stored = stored.expect("nobody takes a job away");
            read_job(&stored.bytes).expect("never torn");
            known.insert(doc, stored.version);
        }
        cursor = told.cursor;
        if last {
            let all = shelf.changes(&Cursor::default()).expect("a list").there;
            assert!(known.keys().eq(&all));
            for (doc, version) in known {
                let stored = shelf.read(&doc).expect("it can be read");
                assert_eq!(
                    stored.map(|stored| stored.version),
                    Some(version),
                    "{doc:?}"
                );
            }
            return looks;
        }
        std::thread::sleep(std::time::Duration::from_millis(3));
    }
    0
}

/// One desk: every round it takes a number for a new job and writes a call into the shared one.
fn work(folder: &Path, desk: &str) {
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let shelf = shelf(folder);
    let (mut base, mut version) = open(&shelf, &shared());
    for round in 0..ROUNDS {
        let customer = Edit::SetField {
            field: Field::Customer,
            text: format!("{desk} {round}"),
            unit: Unit::Mm,
        };
        let (job, _) = apply(&Job::default(), &customer).expect("an edit");
        save_as_next(&shelf, &job, day).expect("a number");
        let call = Edit::AddSlip {
            kind: SlipKind::Call,
            lines: vec![(Line::Said, format!("{desk} {round}"))],
            unit: Unit::Mm,
        };
        let (mut ours, _) = apply(&base, &call).expect("a call");
        // What the window offers where another desk was faster: their work and ours put together.
        loop {
            match save(&shelf, &shared(), &Arc::new(ours.clone()), Some(version)) {
                Ok(Opened { version: now, .. }) => {
                    version = now;
                    break;
                }
                Err(error) if error.is_changed() => {
                    let (theirs, now) = open(&shelf, &shared());
                    let merged = merge(&base, &ours, &theirs).expect("room for both");
                    assert_eq!(merged.clashes, []);
                    ours = merged.job;
                    (base, version) = (theirs, now);
                }
                Err(error) => panic!("{desk} {round}: {error}"),
            }
        }
        base = ours;
    }
}

fn open(shelf: &Arc<dyn Shelf>, key: &JobKey) -> (Job, Version) {
    let stored = shelf.read(&Doc::Job(key.clone())).expect("it can be read");
    let stored = stored.expect("the job");
    (read_job(&stored.bytes).expect("never torn"), stored.version)
}
