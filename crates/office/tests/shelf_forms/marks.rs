//! Which shelf it is: nothing is written where nobody said that it is one.

use std::io::ErrorKind;
use std::path::Path;
use std::sync::Arc;

use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::folder::MARK_FILE;
use quillbore_office::shelf::{
    Commit, CommitError, Doc, Folder, Held, Memory, Shelf, ShelfError, Step,
};

use crate::common::forms::{ROOT, beside, content, desks, each, job, key, mark, put, start};
use crate::common::memory_disk::{MemoryDisk, Node};

/// Shelves that nobody has called one yet, each with two desks.
fn unmarked(test: impl Fn(&[Arc<dyn Shelf>])) {
    #[cfg(feature = "outside")]
    crate::common::postgres::shared();
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    test(&desks(&disk));
    test(&desks(
        &MemoryDisk::with_folder(Path::new(ROOT)).with_one_name(),
    ));
    let folder = tempfile::tempdir().expect("a folder");
    let desk = || -> Arc<dyn Shelf> {
        Arc::new(Folder::new(
            Arc::new(RealDisk::default()),
            folder.path(),
            None,
        ))
    };
    test(&[desk(), desk()]);
    let memory: Arc<dyn Shelf> = Arc::new(Memory::default());
    test(&[Arc::clone(&memory), memory]);
    #[cfg(feature = "outside")]
    {
        use crate::common::postgres::{Cluster, shared};
        let address = shared().database();
        let desk = || -> Arc<dyn Shelf> { Arc::new(Cluster::desk(&address)) };
        test(&[desk(), desk()]);
    }
}

#[test]
fn nothing_is_written_where_nobody_said_that_it_is_a_shelf() {
    unmarked(|desks| {
        assert_eq!(desks[0].mark(), Ok(None));
        let attached = Commit {
            attachments: vec![beside(&key("26-0101"), "a.pdf", b"a")],
            documents: Vec::new(),
        };
        for commit in [Commit::one(job("26-0101"), b"x".to_vec(), None), attached] {
            let refused = desks[0].commit(&commit);
            assert!(
                matches!(
                    refused,
                    Err(CommitError::Shelf(ShelfError::NotMarked { .. }))
                ),
                "{refused:?}"
            );
        }
        let held = desks[0].hold(&key("26-0101"), "front office");
        assert!(matches!(held, Held::Unknown), "{held:?}");
        // It can be read all the same, and there is nothing.
        assert_eq!(content(&desks[1], &job("26-0101")), None);
        assert_eq!(desks[1].highest_number(26), Ok(None));
        assert_eq!(desks[1].attachments(&key("26-0101")), Ok(vec![]));
        let told = desks[1].changes(&Default::default()).expect("a list");
        assert_eq!((told.there, told.gone), (vec![], vec![]));
    });
}

#[test]
fn the_first_mark_stays_whoever_gives_another() {
    unmarked(|desks| {
        desks[0].adopt(&mark(7)).expect("a mark");
        desks[1].adopt(&mark(8)).expect("it has one");
        desks[0].adopt(&mark(9)).expect("it has one");
        for (at, desk) in desks.iter().enumerate() {
            assert_eq!(desk.mark(), Ok(Some(mark(7))));
            start(desk, &job(&format!("26-010{at}")), b"a job");
        }
    });
}

#[test]
fn a_single_file_lies_on_no_shelf_and_needs_no_mark() {
    each(|form| {
        if !form.is_one_file() {
            assert_eq!(form.desks[2].mark(), Ok(Some(mark(1))));
            return;
        }
        assert_eq!(form.desks[0].mark(), Ok(None));
        let refused = form.desks[0].adopt(&mark(2));
        assert!(
            matches!(refused, Err(ShelfError::OneFile { .. })),
            "{refused:?}"
        );
        start(&form.desks[0], &form.docs[0], b"a job");
        assert_eq!(form.desks[0].mark(), Ok(None));
    });
}

/// A folder on a disk in memory, with its desks.
fn folders(test: impl Fn(&MemoryDisk, &[Arc<dyn Shelf>])) {
    each(|form| {
        if let Some(disk) = form.disk.as_ref().filter(|_| !form.is_one_file()) {
            test(disk, &form.desks);
        }
    });
}

#[test]
fn where_the_mark_vanished_or_is_another_nothing_is_there_and_nothing_is_made() {
    folders(|disk, desks| {
        let root = Path::new(ROOT);
        let mark_path = root.join(MARK_FILE);
        let doc = job("26-0101");
        let old = start(&desks[0], &doc, b"old");
        assert_eq!(desks[1].mark(), Ok(Some(mark(1))));
        let cursor = desks[1]
            .changes(&Default::default())
            .expect("a list")
            .cursor;
        let other = format!("{}\n", mark(2).as_str());
        let tricks: [&dyn Fn(); 4] = [
            // An empty mount point.
            &|| {
                disk.take(root);
                disk.put(root, Node::Folder);
            },
            // Another shelf, an empty one.
            &|| disk.put_file(&mark_path, other.as_bytes()),
            // A file without a mark in it.
            &|| disk.put_file(&mark_path, b""),
            // Nothing at all.
            &|| disk.take(root),
        ];
        for (at, trick) in tricks.iter().enumerate() {
            trick();
            let before = disk.names();
            // Both know the mark: one gave it, one saw it.
            for desk in &desks[..2] {
                let vanished = |what: &str, error: Option<ShelfError>| {
                    let gone = matches!(error, Some(ShelfError::Vanished { .. }));
                    assert!(gone, "{at} {what}: {error:?}");
                };
                let shelf = |error: CommitError| match error {
                    CommitError::Shelf(error) => error,
                    other => panic!("{at}: {other:?}"),
                };
                vanished("read", desk.read(&doc).err());
                vanished("previous", desk.previous(&doc).err());
                vanished("changes", desk.changes(&cursor).err());
                vanished("first", desk.changes(&Default::default()).err());
                vanished("number", desk.highest_number(26).err());
                let job = key("26-0101");
                vanished("beside", desk.attachments(&job).err());
                let name = crate::common::forms::name("a.pdf");
                vanished("beside", desk.attachment(&job, &name).err());
                let save = put(desk, &doc, b"new", Some(old));
                vanished("save", save.err().map(shelf));
                let new = put(desk, &Doc::Shop, b"new", None);
                vanished("new", new.err().map(shelf));
                let held = desk.hold(&job, "front office");
                assert!(matches!(held, Held::Unknown), "{held:?}");
                vanished("adopt", desk.adopt(&mark(1)).err());
            }
            assert_eq!(disk.names(), before, "{at}");
        }
    });
}

#[test]
fn a_desk_that_knows_the_mark_takes_no_other_shelf_for_it() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let desk = |known| Folder::new(Arc::new(disk.clone()), Path::new(ROOT), known);
    desk(None).adopt(&mark(1)).expect("a mark");
    desk(Some(mark(1)))
        .commit(&Commit::one(job("26-0101"), b"x".to_vec(), None))
        .expect("the same shelf");
    let other = desk(Some(mark(2)));
    let refused = other.commit(&Commit::one(job("26-0102"), b"x".to_vec(), None));
    assert!(
        matches!(
            refused,
            Err(CommitError::Shelf(ShelfError::Vanished { .. }))
        ),
        "{refused:?}"
    );
    assert!(other.changes(&Default::default()).is_err());
    assert!(other.adopt(&mark(2)).is_err());
    // One that should have a mark and has none is not given that mark anew.
    disk.take(&Path::new(ROOT).join(MARK_FILE));
    assert!(desk(Some(mark(1))).adopt(&mark(1)).is_err());
    assert_eq!(disk.file(&Path::new(ROOT).join(MARK_FILE)), None);
}

/// Whatever one desk has done when the other begins, one mark stands there, and both know it.
#[test]
fn two_desks_that_adopt_at_once_leave_one_mark() {
    for stick in [false, true] {
        for ahead in 0..12 {
            let mut disk = MemoryDisk::with_folder(Path::new(ROOT));
            if stick {
                disk = disk.with_one_name();
            }
            let two = desks(&disk);
            let (other, first) = (Arc::clone(&two[1]), Arc::clone(&two[0]));
            disk.meanwhile(ahead, move || drop(other.adopt(&mark(2))));
            first.adopt(&mark(1)).expect("a mark");
            disk.mend();
            two[1].adopt(&mark(2)).expect("a mark");
            let marks = [two[0].mark(), two[1].mark()];
            assert!(matches!(&marks[0], Ok(Some(_))), "{marks:?}");
            assert_eq!(marks[0], marks[1], "stick {stick}, step {ahead}");
            start(&two[0], &job("26-0101"), b"a job");
            start(&two[1], &job("26-0102"), b"a job");
        }
    }
}

#[test]
fn a_file_of_the_marks_name_without_a_mark_is_told_and_left_alone() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let path = Path::new(ROOT).join(MARK_FILE);
    for text in ["", "a letter", "0123"] {
        disk.put_file(&path, text.as_bytes());
        let desk = &desks(&disk)[0];
        assert_eq!(desk.mark(), Ok(None));
        let refused = desk.adopt(&mark(1));
        let Err(ShelfError::Step {
            step, kind, place, ..
        }) = &refused
        else {
            panic!("{refused:?}");
        };
        assert_eq!((*step, *kind), (Step::Adopt, ErrorKind::InvalidData));
        assert!(place.ends_with(MARK_FILE), "{place}");
        assert_eq!(disk.file(&path), Some(text.as_bytes().to_vec()));
        assert!(put(desk, &job("26-0101"), b"x", None).is_err());
    }
    for node in [Node::Link, Node::Folder, Node::Other] {
        disk.put(&path, node.clone());
        let desk = &desks(&disk)[0];
        assert!(desk.mark().is_err());
        assert!(desk.adopt(&mark(1)).is_err());
        assert!(put(desk, &job("26-0101"), b"x", None).is_err());
        assert_eq!(disk.node(&path), Some(node));
    }
    assert_eq!(disk.names().len(), 2, "{:?}", disk.names());
}
