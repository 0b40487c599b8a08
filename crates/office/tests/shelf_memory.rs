//! The shelf in memory fails as it is told to, and as a folder on a disk fails: what stands above a
//! shelf is tested on it.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

#[path = "common/shelf.rs"]
mod common;

use std::sync::Arc;

use common::forms::{before, beside, content, job, key, mark, name, put, start, write};
use quillbore_office::shelf::memory::Fault;
use quillbore_office::shelf::{
    Commit, CommitError, Cursor, Doc, Held, Memory, Shelf, ShelfError, Step, Version,
};

/// A shelf with a job and the shop's data on it, and a commit that writes both anew, a third one and
/// a file beside the first.
fn scene() -> (Arc<Memory>, Arc<dyn Shelf>, Commit) {
    let memory = Arc::new(Memory::marked(mark(1)));
    let shelf: Arc<dyn Shelf> = memory.clone();
    start(&shelf, &job("26-0101"), b"old job");
    start(&shelf, &Doc::Shop, b"old shop");
    let commit = Commit {
        attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
        documents: vec![
            write(&job("26-0101"), b"new job", Some(Version::of(b"old job"))),
            write(&Doc::Shop, b"new shop", Some(Version::of(b"old shop"))),
            write(&job("26-0102"), b"another", None),
        ],
    };
    (memory, shelf, commit)
}

/// How many documents of the commit stand there anew, which must be the first ones.
fn done(shelf: &Arc<dyn Shelf>, commit: &Commit) -> usize {
    let is_new = |at: &usize| {
        let write = &commit.documents[*at];
        content(shelf, &write.doc).as_ref() == Some(&write.bytes)
    };
    let new: Vec<usize> = (0..commit.documents.len()).filter(is_new).collect();
    assert!(new.iter().copied().eq(0..new.len()), "{new:?}");
    new.len()
}

fn has_file(shelf: &Arc<dyn Shelf>) -> bool {
    let there = shelf.attachment(&key("26-0101"), &name("a.pdf"));
    there.expect("it can be read").is_some()
}

#[test]
fn what_is_refused_is_not_done_and_the_next_call_is_well() {
    let (memory, shelf, commit) = scene();
    memory.break_at(memory.calls(), Fault::Refused);
    let refused = shelf.commit(&commit);
    let Err(CommitError::Shelf(ShelfError::Step { step, .. })) = refused else {
        panic!("{refused:?}");
    };
    assert_eq!(step, Step::WriteNew);
    assert_eq!((done(&shelf, &commit), has_file(&shelf)), (0, false));
    assert_eq!(before(&shelf, &Doc::Shop), None);
    shelf.commit(&commit).expect("the next one is done");
    assert_eq!((done(&shelf, &commit), has_file(&shelf)), (3, true));
}

#[test]
fn every_call_can_be_refused() {
    let (memory, shelf, commit) = scene();
    let refuse = || memory.break_at(memory.calls(), Fault::Refused);
    let job_key = key("26-0101");
    refuse();
    assert!(shelf.mark().is_err());
    refuse();
    assert!(shelf.adopt(&mark(2)).is_err());
    refuse();
    assert!(shelf.read(&Doc::Shop).is_err());
    refuse();
    assert!(shelf.previous(&Doc::Shop).is_err());
    refuse();
    assert!(shelf.changes(&Cursor::default()).is_err());
    refuse();
    assert!(shelf.highest_number(26).is_err());
    refuse();
    assert!(shelf.attachment(&job_key, &name("a.pdf")).is_err());
    refuse();
    assert!(shelf.attachments(&job_key).is_err());
    refuse();
    assert!(matches!(
        shelf.hold(&job_key, "front office"),
        Held::Unknown
    ));
    refuse();
    assert!(shelf.commit(&commit).is_err());
    // Each was one call, and one call alone.
    assert_eq!(shelf.mark(), Ok(Some(mark(1))));
    assert!(matches!(
        shelf.hold(&job_key, "front office"),
        Held::Here(_)
    ));
    shelf.commit(&commit).expect("all is well");
}

#[test]
fn what_is_not_confirmed_is_done() {
    let (memory, shelf, commit) = scene();
    memory.break_at(memory.calls(), Fault::NotConfirmed);
    let told = shelf.commit(&commit);
    let must: Vec<Version> = commit
        .documents
        .iter()
        .map(|w| Version::of(&w.bytes))
        .collect();
    let Err(CommitError::NotSettled { versions, error }) = told else {
        panic!("{told:?}");
    };
    assert_eq!(versions, must);
    assert!(matches!(
        error,
        ShelfError::Step {
            step: Step::Settle,
            ..
        }
    ));
    assert_eq!((done(&shelf, &commit), has_file(&shelf)), (3, true));
    assert_eq!(before(&shelf, &Doc::Shop), Some(b"old shop".to_vec()));
    // What somebody who was not told tries again is there already, as far as it rests on something.
    let mut again = commit.clone();
    again.documents.pop();
    shelf.commit(&again).expect("it is there");
    assert_eq!(before(&shelf, &Doc::Shop), Some(b"old shop".to_vec()));
    let taken = shelf.commit(&commit);
    assert_eq!(taken, Err(CommitError::Taken(job("26-0102"))));
}

#[test]
fn a_commit_stops_after_so_many_documents() {
    for after in 0..5 {
        let (memory, shelf, commit) = scene();
        memory.break_at(memory.calls(), Fault::After(after));
        let told = shelf.commit(&commit);
        match after {
            // Nothing is done before the first document is.
            0 => {
                assert!(
                    matches!(
                        told,
                        Err(CommitError::Shelf(ShelfError::Step {
                            step: Step::PutInPlace,
                            ..
                        }))
                    ),
                    "{told:?}"
                );
                assert!(!has_file(&shelf));
                assert_eq!(done(&shelf, &commit), 0);
            }
            1 | 2 => {
                let docs = commit.documents.iter().take(after);
                let must: Vec<_> = docs
                    .map(|w| (w.doc.clone(), Version::of(&w.bytes)))
                    .collect();
                let Err(CommitError::HalfDone {
                    done: first, left, ..
                }) = told
                else {
                    panic!("{told:?}");
                };
                assert_eq!((first, &left), (must, &commit.documents[after].doc));
                assert!(has_file(&shelf));
                assert_eq!(done(&shelf, &commit), after);
            }
            _ => {
                assert_eq!(told.expect("all is done").versions.len(), 3);
                assert_eq!(done(&shelf, &commit), 3);
            }
        }
    }
}

/// As on a disk: a document that stands there with its new content needs no writing.
#[test]
fn a_document_that_is_there_already_does_not_count() {
    let (memory, shelf, commit) = scene();
    put(
        &shelf,
        &job("26-0101"),
        b"new job",
        Some(Version::of(b"old job")),
    )
    .expect("saved");
    memory.break_at(memory.calls(), Fault::After(0));
    let told = shelf.commit(&commit);
    assert!(matches!(told, Err(CommitError::Shelf(_))), "{told:?}");
    memory.break_at(memory.calls(), Fault::After(1));
    let told = shelf.commit(&commit);
    let Err(CommitError::HalfDone {
        done: first, left, ..
    }) = told
    else {
        panic!("{told:?}");
    };
    assert_eq!(first, [(Doc::Shop, Version::of(b"new shop"))]);
    assert_eq!(left, job("26-0102"));
}

#[test]
fn a_shelf_that_is_gone_stays_gone_until_it_is_mended() {
    let (memory, shelf, commit) = scene();
    let cursor = shelf.changes(&Cursor::default()).expect("a list").cursor;
    // In two calls.
    memory.break_at(memory.calls() + 1, Fault::Gone);
    assert_eq!(content(&shelf, &Doc::Shop), Some(b"old shop".to_vec()));
    for _ in 0..3 {
        let vanished = |error: Option<ShelfError>| {
            let gone = matches!(error, Some(ShelfError::Vanished { .. }));
            assert!(gone, "{error:?}");
        };
        vanished(shelf.read(&Doc::Shop).err());
        vanished(shelf.previous(&Doc::Shop).err());
        vanished(shelf.changes(&cursor).err());
        vanished(shelf.mark().err());
        vanished(shelf.adopt(&mark(2)).err());
        vanished(shelf.highest_number(26).err());
        vanished(shelf.attachments(&key("26-0101")).err());
        vanished(shelf.attachment(&key("26-0101"), &name("a.pdf")).err());
        let refused = shelf.commit(&commit);
        assert!(
            matches!(
                refused,
                Err(CommitError::Shelf(ShelfError::Vanished { .. }))
            ),
            "{refused:?}"
        );
        assert!(matches!(
            shelf.hold(&key("26-0101"), "front office"),
            Held::Unknown
        ));
    }
    memory.mend();
    assert_eq!((done(&shelf, &commit), has_file(&shelf)), (0, false));
    let told = shelf.changes(&cursor).expect("a list");
    assert_eq!((told.there, told.gone), (vec![], vec![]));
    shelf.commit(&commit).expect("it is back");
}

/// What only a commit can come to leaves readers alone.
#[test]
fn a_reader_is_not_told_what_a_commit_comes_to() {
    let (memory, shelf, commit) = scene();
    for fault in [Fault::NotConfirmed, Fault::After(0), Fault::After(1)] {
        memory.break_at(memory.calls(), fault);
        assert_eq!(content(&shelf, &Doc::Shop), Some(b"old shop".to_vec()));
        assert_eq!(shelf.highest_number(26), Ok(Some(101)));
    }
    // A commit that would be refused anyway is told that, not what was going to go wrong.
    memory.break_at(memory.calls(), Fault::NotConfirmed);
    let stale = put(&shelf, &Doc::Shop, b"x", Some(Version::of(b"never was")));
    assert_eq!(stale, Err(CommitError::Changed(vec![Doc::Shop])));
    shelf.commit(&commit).expect("all is well");
}

#[test]
fn calls_are_counted_one_by_one() {
    let memory = Arc::new(Memory::default());
    let shelf: Arc<dyn Shelf> = memory.clone();
    assert_eq!(memory.calls(), 0);
    shelf.adopt(&mark(1)).expect("a mark");
    assert_eq!(shelf.mark(), Ok(Some(mark(1))));
    start(&shelf, &job("26-0101"), b"a job");
    drop(shelf.hold(&key("26-0101"), "front office"));
    // A sentence asks nothing of the shelf.
    assert_eq!(shelf.place(), "memory");
    assert_eq!(memory.calls(), 4);
}
