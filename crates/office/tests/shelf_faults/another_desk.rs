//! Another desk does something between any two steps of a commit.

use std::path::Path;
use std::sync::{Arc, Mutex};

use quillbore_office::disk::Disk as _;
use quillbore_office::shelf::{Commit, CommitError, Committed, Doc, ShelfError, Step};

use super::scene::{NEW, OLD, Scene, each, over_an_old_one, shelf};
use crate::common::forms::{ROOT, before, beside, content, file_of, key, write};
use crate::common::memory_disk::{MemoryDisk, Node};

const THEIRS: &[u8] = b"what they wrote";

type Said = Result<Committed, CommitError>;

/// Commits, and lets another desk in before a step; what each was told, and whether there was time.
fn both(scene: &Scene, at: usize, theirs: Commit) -> (Said, Option<Said>) {
    let (ours, other) = (shelf(&scene.disk), shelf(&scene.disk));
    let told = Arc::new(Mutex::new(None));
    let tell = Arc::clone(&told);
    scene.disk.meanwhile(at, move || {
        *tell.lock().expect("a place") = Some(other.commit(&theirs));
    });
    let said = ours.commit(&scene.commit);
    scene.disk.mend();
    let told = told.lock().expect("a place").take();
    (said, told)
}

/// Whether somebody was told to wait, since the other one has the lock.
fn waits(said: &Said) -> bool {
    let Err(CommitError::Shelf(ShelfError::Step { step, kind, .. })) = said else {
        return false;
    };
    *step == Step::Wait && *kind == std::io::ErrorKind::TimedOut
}

/// They write all the documents, with other contents, at every step of ours.
#[test]
fn of_two_commits_one_is_done_and_the_other_is_told() {
    each(|make, _| {
        let (mut at, mut ours_first, mut theirs_first) = (0, 0, 0);
        loop {
            let scene = make();
            let mut theirs = scene.commit.clone();
            theirs.attachments.clear();
            for write in &mut theirs.documents {
                write.bytes = THEIRS.to_vec();
            }
            let (said, told) = both(&scene, at, theirs);
            let Some(told) = told else { break };
            println!("step {at}: {said:?}, {told:?}");
            let now = scene.standing().docs;
            let all = |bytes: &[u8]| now.iter().all(|now| now.as_deref() == Some(bytes));
            match (&said, &told) {
                // Theirs came after ours was in place: refused, or kept out meanwhile.
                (Ok(_), Err(_)) => {
                    assert!(all(NEW), "{now:?}");
                    ours_first += 1;
                }
                (Err(CommitError::Changed(_) | CommitError::Taken(_)), Ok(_)) => {
                    assert!(all(THEIRS), "{now:?}");
                    theirs_first += 1;
                }
                // A commit of several with new names among them: both stopped at the other's.
                (Err(CommitError::HalfDone { done, .. }), Err(CommitError::HalfDone { .. })) => {
                    assert!(!done.is_empty());
                }
                other => panic!("step {at}: {other:?}"),
            }
            scene.left_behind();
            at += 1;
        }
        assert!(at > 5 && ours_first > 0 && theirs_first > 0, "{at}");
    });
}

/// Nobody ever takes another's new file, whichever of them comes first.
#[test]
fn of_two_files_of_one_name_one_stays_and_its_document_with_it() {
    let (mut at, mut kept_out) = (0, 0);
    loop {
        let disk = MemoryDisk::with_folder(Path::new(ROOT));
        let mut scene = over_an_old_one(disk);
        let files = |bytes: &[u8]| vec![beside(&key("26-0101"), "a.pdf", bytes)];
        scene.commit.attachments = files(b"ours");
        let mut theirs = scene.commit.clone();
        theirs.attachments = files(b"theirs");
        theirs.documents[0].bytes = THEIRS.to_vec();
        let (said, told) = both(&scene, at, theirs);
        let Some(told) = told else { break };
        let now = scene.standing();
        let stands = (now.docs[0].clone(), now.beside[0].clone());
        if said.is_ok() {
            assert_eq!(stands, (Some(NEW.to_vec()), Some(b"ours".to_vec())));
            assert!(told.is_err());
            kept_out += usize::from(waits(&told));
        } else {
            assert_eq!(stands, (Some(THEIRS.to_vec()), Some(b"theirs".to_vec())));
            assert!(told.is_ok());
        }
        at += 1;
    }
    assert!(at > 10 && kept_out > 5, "{at}, {kept_out}");
}

/// A job that is gone, or that is there and should be new, gets no folder beside it by the trying.
#[test]
fn nothing_is_made_for_a_commit_that_cannot_be() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let desk = shelf(&disk);
    crate::common::forms::start(&desk, &crate::common::forms::job("26-0101"), OLD);
    let before = disk.names();
    let tries = [("26-0102", Some(OLD)), ("26-0101", None)];
    for (name, rests_on) in tries {
        let doc = Doc::Job(key(name));
        let rests_on = rests_on.map(quillbore_office::shelf::Version::of);
        let refused = desk.commit(&Commit {
            attachments: vec![beside(&key(name), "a.pdf", b"%PDF")],
            documents: vec![write(&doc, NEW, rests_on)],
        });
        let must = if rests_on.is_some() {
            CommitError::Gone(doc)
        } else {
            CommitError::Taken(doc)
        };
        assert_eq!(refused, Err(must));
        assert_eq!(disk.names(), before);
    }
}

/// Without locks only comparing versions keeps work from being lost: it is told that it did.
#[test]
fn on_a_disk_without_locks_it_is_told_that_nobody_was_kept_out() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT)).without_locks();
    let desk = shelf(&disk);
    let doc = crate::common::forms::job("26-0101");
    let new = desk.commit(&Commit::one(doc.clone(), OLD.to_vec(), None));
    // A new document's name is its lock.
    let new = new.expect("committed");
    assert!(new.locked);
    let over = Commit::one(doc.clone(), NEW.to_vec(), Some(new.versions[0]));
    assert!(!desk.commit(&over).expect("committed").locked);
    let again = desk.commit(&over).expect("the same again");
    assert!(!again.locked);
    let files = Commit {
        attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
        documents: Vec::new(),
    };
    assert!(!desk.commit(&files).expect("committed").locked);
    // What somebody else wrote before is told all the same.
    let stale = Commit::one(doc.clone(), THEIRS.to_vec(), Some(new.versions[0]));
    let changed = desk.commit(&stale);
    assert_eq!(changed, Err(CommitError::Changed(vec![doc.clone()])));
    assert_eq!(content(&desk, &doc), Some(NEW.to_vec()));
    assert_eq!(before(&desk, &doc), Some(OLD.to_vec()));
    let held = desk.hold(&key("26-0101"), "front office");
    assert!(
        matches!(held, quillbore_office::shelf::Held::NoLocks),
        "{held:?}"
    );
}

/// Hands take the job away, or put something else in its place, at every step.
#[test]
fn what_hands_put_in_the_place_of_a_job_is_never_written_through() {
    for node in [
        None,
        Some(Node::Link),
        Some(Node::Folder),
        Some(Node::Other),
    ] {
        let (mut at, mut refused) = (0, 0);
        loop {
            let scene = over_an_old_one(MemoryDisk::with_folder(Path::new(ROOT)));
            let file = file_of(Path::new(ROOT), &scene.commit.documents[0].doc);
            let (disk, put) = (scene.disk.clone(), node.clone());
            let path = file.clone();
            let done = Arc::new(Mutex::new(false));
            let tell = Arc::clone(&done);
            scene.disk.meanwhile(at, move || {
                disk.take(&path);
                if let Some(node) = put {
                    disk.put(&path, node);
                }
                *tell.lock().expect("a place") = true;
            });
            let said = shelf(&scene.disk).commit(&scene.commit);
            scene.disk.mend();
            if !*done.lock().expect("a place") {
                break;
            }
            let now = scene.disk.node(&file);
            match said {
                Err(CommitError::Gone(_)) => assert_eq!(now, None),
                Err(CommitError::Shelf(_)) => {
                    assert_eq!(now, node);
                    refused += 1;
                }
                Ok(_) => {}
                other => panic!("{other:?}"),
            }
            at += 1;
        }
        assert!(
            at > 10 && (refused > 5) == node.is_some(),
            "{node:?}: {at}, {refused}"
        );
    }
}

/// The folder beside a job becomes a link while a file is put into it: a disk in memory tells by a
/// panic when anything goes through one, so this says at which steps the shelf looks.
#[test]
fn a_folder_that_is_a_link_is_not_entered() {
    let scene = over_an_old_one(MemoryDisk::with_folder(Path::new(ROOT)));
    let folder = Path::new(ROOT).join("26-0101.files");
    scene.disk.take(&folder);
    scene.disk.put(&folder, Node::Link);
    let desk = shelf(&scene.disk);
    let doc = Doc::Job(key("26-0101"));
    let link = |error: Option<ShelfError>| {
        assert!(matches!(error, Some(ShelfError::Link { .. })), "{error:?}");
    };
    let said = desk.commit(&scene.commit);
    assert!(
        matches!(said, Err(CommitError::Shelf(ShelfError::Link { .. }))),
        "{said:?}"
    );
    link(desk.previous(&doc).err());
    link(desk.attachments(&key("26-0101")).err());
    link(
        desk.attachment(&key("26-0101"), &crate::common::forms::name("a.pdf"))
            .err(),
    );
    let held = desk.hold(&key("26-0101"), "front office");
    assert!(
        matches!(held, quillbore_office::shelf::Held::Unknown),
        "{held:?}"
    );
    assert_eq!(content(&desk, &doc), Some(OLD.to_vec()));
    let new = Commit {
        attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
        documents: vec![write(&Doc::Shop, NEW, None)],
    };
    assert!(desk.commit(&new).is_err());
    assert_eq!(scene.disk.node(&folder), Some(Node::Link));
    assert!(scene.disk.remove(&folder).is_ok());
}
