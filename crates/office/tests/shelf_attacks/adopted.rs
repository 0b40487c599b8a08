//! Which folder is a shelf, on a real disk.

use std::fs;
use std::sync::{Arc, Barrier};

use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::folder::MARK_FILE;
use quillbore_office::shelf::{Commit, CommitError, Cursor, Folder, Held, Shelf, ShelfError};

use super::place::{Place, snapshot};
use crate::common::forms::{beside, content, job, key, mark, put, start, write};

#[test]
fn two_desks_that_adopt_at_once_leave_one_mark() {
    for _ in 0..40 {
        let whole = tempfile::tempdir().expect("a folder");
        let both = Barrier::new(2);
        let desk = || Folder::new(Arc::new(RealDisk::default()), whole.path(), None);
        let adopt = |of| {
            let desk = desk();
            both.wait();
            desk.adopt(&mark(of)).expect("a mark");
            desk.mark().expect("it can be read")
        };
        let marks = std::thread::scope(|threads| {
            let one = threads.spawn(|| adopt(1));
            let two = threads.spawn(|| adopt(2));
            [one, two].map(|desk| desk.join().expect("a desk"))
        });
        assert!(marks[0].is_some());
        assert_eq!(marks[0], marks[1]);
        assert_eq!(desk().mark().expect("it can be read"), marks[0]);
        let names: Vec<_> = snapshot(whole.path()).into_keys().collect();
        assert_eq!(names, [whole.path().join(MARK_FILE)]);
    }
}

#[test]
fn a_folder_that_nobody_called_a_shelf_is_read_and_never_written_to() {
    let whole = tempfile::tempdir().expect("a folder");
    fs::write(whole.path().join("26-0101.ron"), "a job").expect("a job");
    let before = snapshot(whole.path());
    let desk: Arc<dyn Shelf> = Arc::new(Folder::new(
        Arc::new(RealDisk::default()),
        whole.path(),
        None,
    ));
    let stored = desk.read(&job("26-0101")).expect("it can be read");
    let stored = stored.expect("a job");
    assert_eq!(stored.bytes, b"a job");
    assert_eq!(
        desk.changes(&Cursor::default()).expect("a list").there,
        [job("26-0101")]
    );
    assert_eq!(desk.highest_number(26), Ok(Some(101)));
    for (doc, expected) in [
        (job("26-0101"), Some(stored.version)),
        (job("26-0102"), None),
    ] {
        let commit = Commit {
            attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
            documents: vec![write(&doc, b"new", expected)],
        };
        let refused = desk.commit(&commit);
        assert!(
            matches!(
                refused,
                Err(CommitError::Shelf(ShelfError::NotMarked { .. }))
            ),
            "{refused:?}"
        );
    }
    let held = desk.hold(&key("26-0101"), "front office");
    assert!(matches!(held, Held::Unknown), "{held:?}");
    assert_eq!(snapshot(whole.path()), before);
}

/// The share goes away while a desk works: an empty folder, its mount point, is there instead; then
/// another shelf is.
#[test]
fn nothing_is_made_under_the_mount_point_of_a_share_that_vanished() {
    let place = Place::new();
    let desk = place.desk();
    let old = start(&desk, &job("26-0101"), b"old");
    let away = place.outside().join("away");
    fs::rename(place.root(), &away).expect("the share goes");
    fs::create_dir(place.root()).expect("its mount point");
    let tries = || {
        let vanished = |error: Option<CommitError>| {
            let gone = matches!(error, Some(CommitError::Shelf(ShelfError::Vanished { .. })));
            assert!(gone, "{error:?}");
        };
        vanished(put(&desk, &job("26-0101"), b"new", Some(old)).err());
        vanished(put(&desk, &job("26-0102"), b"new", None).err());
        vanished(desk.adopt(&mark(1)).err().map(CommitError::Shelf));
        vanished(desk.read(&job("26-0101")).err().map(CommitError::Shelf));
        vanished(
            desk.changes(&Cursor::default())
                .err()
                .map(CommitError::Shelf),
        );
        let held = desk.hold(&key("26-0101"), "front office");
        assert!(matches!(held, Held::Unknown), "{held:?}");
    };
    tries();
    assert_eq!(fs::read_dir(place.root()).expect("a folder").count(), 0);
    let other = Folder::new(Arc::new(RealDisk::default()), &place.root(), None);
    other.adopt(&mark(2)).expect("another shelf");
    tries();
    assert_eq!(fs::read_dir(place.root()).expect("a folder").count(), 1);
    // It comes back, and all goes on.
    fs::remove_dir_all(place.root()).expect("the mount point");
    fs::rename(&away, place.root()).expect("the share comes back");
    assert_eq!(content(&desk, &job("26-0101")), Some(b"old".to_vec()));
    put(&desk, &job("26-0101"), b"new", Some(old)).expect("saved");
}
