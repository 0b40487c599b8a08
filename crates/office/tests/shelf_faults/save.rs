//! Saving a job: only what opens again as this job is ever written.

use std::path::Path;
use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_job::file::read_job;
use quillbore_job::read_field::read_field;
use quillbore_job::{Edit, Entry, Field, Job, Row, Unit, Value, apply};
use quillbore_office::save::{SaveError, content, save};
use quillbore_office::shelf::{CommitError, Shelf, ShelfError, Step, Version};

use super::scene::shelf;
use crate::common::forms::{ROOT, before, job as doc, key};
use crate::common::memory_disk::{Fault, MemoryDisk};

fn job(customer: &str) -> Job {
    let edit = Edit::SetField {
        field: Field::Customer,
        text: customer.to_owned(),
        unit: Unit::Mm,
    };
    apply(&Job::default(), &edit).expect("an edit").0
}

fn stands(shelf: &Arc<dyn Shelf>) -> Option<Job> {
    let stored = shelf.read(&doc("26-0101")).expect("it can be read");
    stored.map(|stored| read_job(&stored.bytes).expect("a job that opens"))
}

#[test]
fn a_job_that_would_not_open_again_is_not_written() {
    let old = job("old");
    let place = |part: f64| Place {
        number: 1,
        point_mm: [part, 0.0, 0.0],
        axis: [0.0, 0.0, -1.0],
    };
    let placed = |places: Vec<Place>| Job {
        rows: vec![Arc::new(Row {
            places: Arc::new(places),
            ..Row::default()
        })]
        .into(),
        next_row: 1,
        ..old.clone()
    };
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let shelf = shelf(&disk);
    let first = save(&shelf, &key("26-0101"), &Arc::new(old.clone()), None).expect("saved");
    let rows = [
        ("no finite point", placed(vec![place(f64::NAN)])),
        ("a number twice", placed(vec![place(1.0), place(2.0)])),
        (
            "an identity to come",
            Job {
                next_row: 0,
                ..placed(vec![])
            },
        ),
    ];
    for (what, bad) in rows {
        let steps = disk.steps();
        let saved = save(&shelf, &key("26-0101"), &Arc::new(bad), Some(first.version));
        assert!(
            matches!(saved, Err(SaveError::WouldNotOpen { .. })),
            "{what}"
        );
        assert_eq!(disk.steps(), steps, "{what}: nothing was touched");
    }
    let good = Arc::new(placed(vec![place(1.0)]));
    save(&shelf, &key("26-0101"), &good, Some(first.version)).expect("saved");
    assert_eq!(stands(&shelf), Some(placed(vec![place(1.0)])));
}

/// Files hold texts, and a text that says something else than the value beside it comes back as what
/// it says: reading it at all is not enough.
#[test]
fn a_job_that_would_come_back_as_another_is_not_written_and_told_in_which_part() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let shelf = shelf(&disk);
    let old = Arc::new(job("old"));
    let first = save(&shelf, &key("26-0101"), &old, None).expect("saved");
    let five = |field| read_field(field, "5", Unit::Mm);
    let untrue = |text: &str, entry: Entry<Value>| {
        let value = entry.value().expect("a value").clone();
        Entry::read(text, Unit::Mm, value)
    };
    let with_field = |field: Field, entry: Entry<Value>| {
        let mut job = job("old");
        Arc::make_mut(&mut job.fields).insert(field, entry);
        job
    };
    let sized = Row {
        mark: Entry::read("B", Unit::Mm, "A".to_owned()),
        ..Row::default()
    };
    let cases = [
        (
            with_field(Field::Quantity, untrue("7", five(Field::Quantity))),
            "\u{201c}quantity\u{201d}",
        ),
        (
            with_field(Field::Spares, untrue("7", five(Field::Spares))),
            "\u{201c}spares sent\u{201d}",
        ),
        (
            Job {
                rows: vec![Arc::new(sized)].into(),
                next_row: 1,
                ..job("old")
            },
            "row 1 of the hole table",
        ),
    ];
    for (bad, part) in cases {
        let text = quillbore_job::file::write_job(&bad);
        assert!(read_job(text.as_bytes()).is_ok(), "it can be read: {text}");
        let steps = disk.steps();
        let refused = save(&shelf, &key("26-0101"), &Arc::new(bad), Some(first.version));
        let refused = refused.expect_err("another job");
        assert!(matches!(refused, SaveError::WouldNotOpen { .. }));
        assert!(refused.to_string().contains(part), "{refused}");
        assert_eq!(disk.steps(), steps, "nothing was touched");
    }
    assert_eq!(stands(&shelf), Some(old.as_ref().clone()));
}

#[test]
fn a_save_says_what_it_wrote_and_rests_on_it_next_time() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let shelf = shelf(&disk);
    let save = |text: &str, rests_on| save(&shelf, &key("26-0101"), &Arc::new(job(text)), rests_on);
    let one = save("1", None).expect("saved");
    assert_eq!(
        (one.key.as_str(), one.base.as_ref()),
        ("26-0101", &job("1"))
    );
    assert_eq!(
        one.version,
        Version::of(&content(&job("1")).expect("a job's content"))
    );
    let two = save("2", Some(one.version)).expect("saved");
    assert_ne!(one, two);
    assert_eq!(save("2", Some(one.version)).expect("the same again"), two);
    let changed = save("3", Some(one.version)).expect_err("another one stands there");
    assert!(changed.is_changed());
    let taken = save("3", None).expect_err("one stands there");
    assert!(matches!(taken, SaveError::Commit(CommitError::Taken(_))) && !taken.is_changed());
    assert_eq!(stands(&shelf), Some(job("2")));
    let previous = before(&shelf, &doc("26-0101")).expect("the version before");
    assert_eq!(read_job(&previous), Ok(job("1")));
    disk.take(&Path::new(ROOT).join("26-0101.ron"));
    let gone = save("3", Some(two.version)).expect_err("it is gone");
    assert!(matches!(gone, SaveError::Commit(CommitError::Gone(_))));
}

/// What a disk said reaches whoever saves: which step, which kind, where.
#[test]
fn a_step_that_failed_is_named_with_its_place() {
    let mut told = Vec::new();
    for at in 0.. {
        let disk = MemoryDisk::with_folder(Path::new(ROOT));
        let shelf = shelf(&disk);
        let one = save(&shelf, &key("26-0101"), &Arc::new(job("1")), None).expect("saved");
        let kind = std::io::ErrorKind::StorageFull;
        disk.break_at(at, Fault::Once { short: 3, kind });
        let saved = save(
            &shelf,
            &key("26-0101"),
            &Arc::new(job("2")),
            Some(one.version),
        );
        disk.mend();
        match saved {
            Err(SaveError::Commit(CommitError::Shelf(error))) => {
                let ShelfError::Step {
                    step,
                    kind: said,
                    ref place,
                    ..
                } = error
                else {
                    panic!("{error:?}");
                };
                assert_eq!(said, kind);
                assert!(place.starts_with(ROOT), "{place}");
                told.push(step);
            }
            Err(SaveError::Commit(CommitError::NotSettled { versions, error })) => {
                assert_eq!(
                    versions,
                    [Version::of(&content(&job("2")).expect("a content"))]
                );
                assert!(matches!(
                    error,
                    ShelfError::Step {
                        step: Step::Settle,
                        ..
                    }
                ));
                told.push(Step::Settle);
            }
            Ok(_) => break,
            Err(other) => panic!("{other:?}"),
        }
    }
    for step in [
        Step::Read,
        Step::MakeFolder,
        Step::Wait,
        Step::WriteNew,
        Step::KeepPrevious,
        Step::PutInPlace,
        Step::Settle,
    ] {
        assert!(told.contains(&step), "{step:?}: {told:?}");
    }
}

#[test]
fn each_refusal_is_one_sentence_with_a_hint() {
    let step = |step| ShelfError::Step {
        step,
        kind: std::io::ErrorKind::StorageFull,
        says: "no room".to_owned(),
        place: "/shelf".to_owned(),
    };
    let place = || "/shelf".to_owned();
    let steps = [
        Step::List,
        Step::Read,
        Step::Wait,
        Step::MakeFolder,
        Step::KeepPrevious,
        Step::WriteNew,
        Step::PutInPlace,
        Step::Settle,
        Step::Adopt,
    ];
    let shelf = [
        ShelfError::Vanished { place: place() },
        ShelfError::NotMarked { place: place() },
        ShelfError::OneFile { place: place() },
        ShelfError::Link { place: place() },
        ShelfError::NoFile { place: place() },
        ShelfError::TooLarge { place: place() },
    ];
    let shelf = shelf
        .into_iter()
        .chain(steps.map(step))
        .map(CommitError::Shelf);
    let commits = [
        CommitError::Changed(vec![doc("26-0101"), doc("26-0102")]),
        CommitError::Gone(doc("26-0101")),
        CommitError::Taken(doc("26-0101")),
        CommitError::AttachmentTaken(key("26-0101"), crate::common::forms::name("a.pdf")),
        CommitError::HalfDone {
            done: vec![(doc("26-0101"), Version::of(b""))],
            left: doc("26-0102"),
            error: step(Step::PutInPlace),
        },
        CommitError::NotSettled {
            versions: Vec::new(),
            error: step(Step::Settle),
        },
    ];
    let commits = commits.into_iter().chain(shelf).map(SaveError::Commit);
    let others = [
        SaveError::WouldNotOpen {
            source: None,
            differs: None,
        },
        SaveError::NoNumberLeft { year: 26 },
        SaveError::Name(quillbore_office::names::NameRefused::Empty),
    ];
    for error in others.into_iter().chain(commits) {
        let (sentence, hint) = (error.to_string(), error.hint());
        assert!(
            sentence.len() > 15 && !sentence.ends_with('.'),
            "{sentence}"
        );
        assert!(sentence.starts_with(char::is_uppercase), "{sentence}");
        assert!(hint.len() > 15 && !hint.ends_with('.'), "{hint}");
        assert!(hint.starts_with(char::is_lowercase), "{hint}");
    }
}
