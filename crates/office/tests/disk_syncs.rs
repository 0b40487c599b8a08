//! The machine's own disk brings contents and names to the medium: where the system refuses to, a
//! save fails and says so. On Linux a filter makes the system refuse it to one thread.
#![cfg(target_os = "linux")]
#![expect(clippy::expect_used, reason = "a helper that fails is a failed test")]

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::{
    Attachment, Commit, CommitError, Doc, Folder, Mark, Shelf, ShelfError, Step, Version, folder,
};
use seccompiler::{BpfProgram, SeccompAction, SeccompFilter, apply_filter};

/// Does something on a thread to which the system refuses to sync anything.
fn where_nothing_syncs<T: Send + 'static>(what: impl FnOnce() -> T + Send + 'static) -> T {
    let calls = [libc::SYS_fsync, libc::SYS_fdatasync, libc::SYS_syncfs];
    let rules: BTreeMap<i64, _> = calls.into_iter().map(|call| (call, Vec::new())).collect();
    let arch = std::env::consts::ARCH.try_into().expect("a known machine");
    let error = u32::try_from(libc::EIO).expect("a number");
    let filter = SeccompFilter::new(
        rules,
        SeccompAction::Allow,
        SeccompAction::Errno(error),
        arch,
    );
    let program: BpfProgram = filter.expect("a filter").try_into().expect("a program");
    let thread = std::thread::spawn(move || {
        apply_filter(&program).expect(
            "the system lets no thread filter its calls: run this test where seccomp is allowed",
        );
        what()
    });
    thread.join().expect("the thread")
}

#[test]
fn a_content_that_cannot_be_synced_is_an_error() {
    let place = tempfile::tempdir().expect("a folder");
    let path = place.path().join("a.ron");
    let at = path.clone();
    let synced = where_nothing_syncs(move || {
        let disk = RealDisk::default();
        disk.write_new(&at, b"content").expect("written");
        disk.sync_file(&at)
    });
    assert!(synced.is_err(), "nothing was brought to the medium");
    assert!(RealDisk::default().sync_file(&path).is_ok());
}

#[test]
fn names_that_cannot_be_synced_are_an_error() {
    let place = tempfile::tempdir().expect("a folder");
    let at = place.path().to_owned();
    let synced = where_nothing_syncs(move || RealDisk::default().sync_folder(&at));
    assert!(synced.is_err(), "nothing was brought to the medium");
    assert!(RealDisk::default().sync_folder(place.path()).is_ok());
}

fn shelf(root: &Path) -> Arc<dyn Shelf> {
    Arc::new(Folder::new(Arc::new(RealDisk::default()), root, None))
}

fn key() -> JobKey {
    JobKey::new("26-0101").expect("a name")
}

/// A save, an issue and a file outside any shelf: none of them is told as done.
#[test]
fn nothing_is_told_as_saved_that_the_medium_does_not_have() {
    let place = tempfile::tempdir().expect("a folder");
    let root = place.path().to_owned();
    let desk = shelf(&root);
    desk.adopt(&Mark::of([1; 16])).expect("a mark");
    let doc = Doc::Job(key());
    let first = Commit::one(doc.clone(), b"old".to_vec(), None);
    desk.commit(&first).expect("saved");
    let over = Commit::one(doc.clone(), b"new".to_vec(), Some(Version::of(b"old")));
    let new = Commit::one(
        Doc::Job(JobKey::new("26-0102").expect("a name")),
        b"new".to_vec(),
        None,
    );
    let paper = Commit {
        attachments: vec![Attachment {
            job: key(),
            name: AttachmentName::new("a.pdf").expect("a name"),
            bytes: b"%PDF".to_vec(),
        }],
        documents: Vec::new(),
    };
    for commit in [over, new, paper] {
        let at = root.clone();
        let said = where_nothing_syncs(move || shelf(&at).commit(&commit));
        let Err(CommitError::Shelf(ShelfError::Step { step, .. })) = said else {
            panic!("told as done: {said:?}");
        };
        assert_eq!(step, Step::WriteNew);
    }
    let stands = desk.read(&doc).expect("it can be read");
    assert_eq!(stands.map(|stored| stored.bytes), Some(b"old".to_vec()));
    let at = root.join("letter.pdf");
    let written = where_nothing_syncs({
        let at = at.clone();
        move || {
            let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
            folder::write_whole(&disk, &at, b"%PDF").is_ok()
        }
    });
    assert!(!written && !at.exists());
}
