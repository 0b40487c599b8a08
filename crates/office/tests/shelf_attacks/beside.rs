//! Where a file beside a job, a lock, a note, a mark or a half-written file should be, there is
//! something else.

use std::fs;

use quillbore_office::shelf::folder::MARK_FILE;
use quillbore_office::shelf::{Commit, CommitError, Cursor, Held, Version};

use super::place::{Place, Trap, in_time};
use crate::common::forms::{beside, content, job, key, name, put, start, write};

/// All that a desk does with a job, whatever comes of it.
fn all(place: &Place) {
    let (desk, other) = (place.desk(), place.desk());
    let doc = job("26-0101");
    let _ = desk.changes(&Cursor::default());
    let _ = desk.previous(&doc);
    let held = desk.hold(&key("26-0101"), "front office");
    let elsewhere = other.hold(&key("26-0101"), "the other desk");
    if matches!(held, Held::Here(_)) {
        assert!(matches!(elsewhere, Held::Elsewhere(_)), "{elsewhere:?}");
    }
    let _ = desk.attachments(&key("26-0101"));
    let _ = desk.attachment(&key("26-0101"), &name("a.pdf"));
    let _ = desk.highest_number(26);
    for bytes in [&b"one"[..], b"two"] {
        let there = desk.read(&doc).ok().flatten();
        let commit = Commit {
            attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
            documents: vec![write(&doc, bytes, there.map(|there| there.version))],
        };
        let _ = desk.commit(&commit);
    }
}

#[test]
fn nothing_outside_ever_changes_and_nothing_hangs() {
    for at in [
        "26-0101.files",
        "26-0101.files/previous.ron",
        "26-0101.files/saving.lock",
        "26-0101.files/open.lock",
        "26-0101.files/open-at.txt",
        "26-0101.files/a.pdf",
        "26-0101.files/.a.pdf.0.new",
        "26-0101.files/.previous.ron.0.new",
        ".26-0101.ron.0.new",
        MARK_FILE,
    ] {
        for trap in Trap::ALL {
            println!("{at}: {trap:?}");
            let place = Place::new();
            start(&place.desk(), &job("26-0101"), b"old");
            let path = place.root().join(at);
            let beside = at.starts_with("26-0101.files/");
            if beside {
                fs::create_dir(place.root().join("26-0101.files")).expect("a folder");
            } else if at == MARK_FILE {
                fs::remove_file(&path).expect("the mark");
            }
            trap.set(&place, &path);
            let before = place.snapshot();
            in_time(|| all(&place));
            assert_eq!(place.snapshot(), before, "{at}: {trap:?}");
            let desk = place.desk();
            let now = content(&desk, &job("26-0101")).expect("a job");
            let passed = [".new", "open.lock", "open-at.txt"];
            let passed = passed.iter().any(|end| at.ends_with(end));
            if passed || trap == Trap::Folder && at == "26-0101.files" {
                // Gone past, or of no use for a save.
                assert_eq!(now, b"two");
            } else {
                assert_eq!(now, b"old");
            }
            if at.ends_with("open-at.txt") && trap != Trap::Folder {
                // What stands where a note should is taken away, and a note of ours after it.
                assert!(fs::symlink_metadata(&path).is_err());
            } else {
                assert!(trap.stands(&path), "{at}: {trap:?}");
                if now == b"old" {
                    refuses(&place, at);
                }
                if at != "26-0101.files" || trap != Trap::Folder {
                    trap.take(&path);
                }
            }
            if at == MARK_FILE {
                desk.adopt(&crate::common::forms::mark(1)).expect("a mark");
            }
            // With that taken away all is well.
            let version = Version::of(&now);
            put(&desk, &job("26-0101"), b"three", Some(version)).expect("saved");
        }
    }
}

/// What is refused is told as what it is.
fn refuses(place: &Place, at: &str) {
    let desk = place.desk();
    let commit = Commit {
        attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
        documents: vec![write(&job("26-0101"), b"new", Some(Version::of(b"old")))],
    };
    let refused = desk.commit(&commit).expect_err("it is refused");
    if at.ends_with("a.pdf") {
        let taken = CommitError::AttachmentTaken(key("26-0101"), name("a.pdf"));
        assert_eq!(refused, taken);
    } else {
        let CommitError::Shelf(error) = refused else {
            panic!("{refused:?}");
        };
        let said = error.to_string();
        assert!(
            said.contains("link") || said.contains("not a plain file"),
            "{said}"
        );
    }
    // No file of the commit is left beside the job.
    let folder = place.root().join("26-0101.files");
    let left = fs::symlink_metadata(folder.join("a.pdf"));
    assert_eq!(left.is_ok(), at.ends_with("a.pdf"), "{at}");
    if fs::symlink_metadata(&folder).is_ok_and(|about| about.is_dir()) {
        let names = fs::read_dir(&folder).expect("a folder").count();
        assert!(names <= 5, "{at}");
    }
}

#[test]
fn the_folder_beside_a_job_as_a_link_is_not_looked_into() {
    let place = Place::new();
    let desk = place.desk();
    start(&desk, &job("26-0101"), b"old");
    let folder = place.outside().join("folder");
    for file in ["previous.ron", "a.pdf"] {
        fs::write(folder.join(file), "private").expect("a file");
    }
    std::os::unix::fs::symlink(&folder, place.root().join("26-0101.files")).expect("a link");
    let before = place.snapshot();
    assert!(desk.previous(&job("26-0101")).is_err());
    assert!(desk.attachment(&key("26-0101"), &name("a.pdf")).is_err());
    assert!(desk.attachments(&key("26-0101")).is_err());
    all(&place);
    assert_eq!(content(&desk, &job("26-0101")), Some(b"old".to_vec()));
    assert_eq!(place.snapshot(), before);
}

#[test]
fn a_link_that_lies_beside_a_job_is_not_listed_and_not_read() {
    let place = Place::new();
    let desk = place.desk();
    start(&desk, &job("26-0101"), b"old");
    let folder = place.root().join("26-0101.files");
    fs::create_dir(&folder).expect("a folder");
    for trap in Trap::ALL {
        trap.set(&place, &folder.join("a.pdf"));
        assert_eq!(desk.attachments(&key("26-0101")), Ok(vec![]));
        in_time(|| assert!(desk.attachment(&key("26-0101"), &name("a.pdf")).is_err()));
        trap.take(&folder.join("a.pdf"));
    }
}
