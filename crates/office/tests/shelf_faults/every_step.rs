//! Each step of a commit fails in each way.

use std::io::ErrorKind;

use quillbore_office::shelf::{CommitError, Committed, ShelfError, Step, Version};

use super::scene::{NEW, Scene, Standing, each, shelf};
use crate::common::memory_disk::Fault;

/// How many steps a commit takes when nothing fails.
fn steps(scene: &Scene) -> usize {
    let (shelf, before) = (shelf(&scene.disk), scene.disk.steps());
    shelf.commit(&scene.commit).expect("committed");
    scene.disk.steps() - before
}

#[test]
fn a_commit_takes_the_steps_that_it_must_and_no_more() {
    let mut all = Vec::new();
    each(|make, stick| {
        if !stick {
            all.push(steps(&make()));
        }
    });
    // Over an old one: 2 for the mark, a look whether a copy is on its way there; a look; the folder; the lock, looked at first; a look and a
    // read; the new and the old content, each synced; a look, a name and its settling for the old
    // one, a look and a name for the new one, and its settling.
    assert_eq!(all[0], 19, "{all:?}");
    // A new one: 2 for the mark, a look for a copy, two looks, the content and its syncing, its name, the other name
    // taken away, settling.
    assert_eq!(all[1], 10, "{all:?}");
}

/// What stands there is the old or the new, whole, the first ones before the later ones.
fn check(scene: &Scene, old: &Standing, said: &Result<Committed, CommitError>, dead: bool) {
    let now = scene.standing();
    let done = scene.done(old);
    let count = now
        .docs
        .iter()
        .zip(&done.docs)
        .take_while(|(a, b)| a == b)
        .count();
    // On a memory stick the name is taken with an empty file first.
    let empty = |at: usize| dead && old.docs[at].is_none() && now.docs[at] == Some(Vec::new());
    for at in count..now.docs.len() {
        assert!(
            now.docs[at] == old.docs[at] || empty(at),
            "{said:?}: {now:?}"
        );
    }
    let versions: Vec<Version> = scene
        .commit
        .documents
        .iter()
        .map(|write| Version::of(&write.bytes))
        .collect();
    match said {
        Ok(committed) => {
            assert_eq!((&now, &committed.versions), (&done, &versions));
        }
        Err(CommitError::NotSettled { versions: told, .. }) => {
            assert_eq!((&now, told), (&done, &versions));
        }
        Err(CommitError::HalfDone {
            done: told, left, ..
        }) => {
            assert!(0 < count && count < now.docs.len(), "{now:?}");
            let docs = scene.commit.documents.iter().map(|write| write.doc.clone());
            let first: Vec<_> = docs.zip(versions).take(count).collect();
            assert_eq!((told, left), (&first, &scene.commit.documents[count].doc));
            // The documents that are there may name them.
            assert_eq!(now.beside, done.beside);
        }
        Err(CommitError::Shelf(_) | CommitError::Gone(_)) => {
            assert!(
                count == 0 || dead && done.docs.len() == 1,
                "{said:?}: {now:?}"
            );
            if !dead {
                assert_eq!(now.beside, old.beside, "{said:?}");
            }
        }
        other => panic!("{other:?}"),
    }
    if let Err(CommitError::Shelf(ShelfError::Step { step, .. })) = said
        && *step != Step::PutInPlace
        && *step != Step::Settle
    {
        // A full disk is found before the version before is touched.
        assert!(
            dead || *step == Step::Read || now.before == old.before,
            "{said:?}"
        );
    }
    for (at, before) in now.before.iter().enumerate() {
        // The version before is kept before the new one stands there, and it is never torn.
        let kept = [&old.before[at], &done.before[at]].contains(&before);
        assert!(kept, "{said:?}: {before:?}");
        if at < count {
            assert_eq!(*before, done.before[at], "{said:?}");
        }
    }
    for (at, file) in now.beside.iter().enumerate() {
        // Never torn, except for the name that was taken on a memory stick.
        let whole = [&old.beside[at], &done.beside[at]].contains(&file);
        assert!(
            whole || dead && *file == Some(Vec::new()),
            "{said:?}: {file:?}"
        );
    }
}

#[test]
fn old_or_new_content_stands_there_whatever_step_fails() {
    each(|make, stick| {
        let (steps, mut half_done) = (steps(&make()), 0);
        for at in 0..steps {
            for fault in Fault::all() {
                let scene = make();
                let desk = shelf(&scene.disk);
                let old = scene.standing();
                scene.disk.break_at(at, fault);
                let said = desk.commit(&scene.commit);
                assert!(scene.disk.mend(), "step {at}");
                println!("step {at}, {fault:?}: {said:?}");
                let dead = matches!(fault, Fault::Dead { .. });
                check(&scene, &old, &said, dead);
                half_done += usize::from(matches!(said, Err(CommitError::HalfDone { .. })));
                let left = scene.left_behind();
                if !dead {
                    // Only what could not be taken away, since that was the step that failed, or
                    // what a second name was given to.
                    assert!(left.len() <= 1, "{left:?}");
                }
                // With the disk well again the same goes through, past what was left behind, from
                // where it stands.
                again(&scene, dead && stick);
            }
        }
        let several = make().commit.documents.len() > 1;
        assert_eq!(half_done > 0, several);
    });
}

/// The same once more, from what stands there now.
fn again(scene: &Scene, names_taken: bool) {
    let desk = shelf(&scene.disk);
    let mut commit = scene.commit.clone();
    for write in &mut commit.documents {
        let there = desk.read(&write.doc).expect("it can be read");
        write.expected = there.map(|there| there.version);
    }
    if names_taken {
        // An empty file that took a name on a stick is nobody's: hands take it away.
        for name in scene.disk.names() {
            let empty = scene.disk.file(&name).is_some_and(|bytes| bytes.is_empty());
            if empty && name.extension().is_some_and(|end| end == "pdf") {
                scene.disk.take(&name);
            }
        }
    }
    let committed = desk.commit(&commit).expect("a disk that is well again");
    assert!(committed.locked);
    let now = scene.standing();
    assert!(now.docs.iter().all(|doc| doc.as_deref() == Some(NEW)));
    assert!(now.beside.iter().all(Option::is_some));
    scene.left_behind();
}

/// A step that fails and is told by a kind that could mean something else.
#[test]
fn a_look_that_finds_nothing_by_mistake_never_costs_a_document() {
    each(|make, _| {
        for at in 0..steps(&make()) {
            let scene = make();
            let desk = shelf(&scene.disk);
            let old = scene.standing();
            let kind = ErrorKind::NotFound;
            scene.disk.break_at(at, Fault::Once { short: 0, kind });
            let said = desk.commit(&scene.commit);
            check(&scene, &old, &said, false);
        }
    });
}

/// A read that ends early and says nothing of it: nothing is written on the strength of what it gave,
/// and what it was asked about is told as another one.
#[test]
fn a_read_that_ends_early_never_costs_a_document() {
    let (mut refused, mut done) = (0, 0);
    each(|make, stick| {
        for at in 0..steps(&make()) {
            for short in [0, 1, 7] {
                let scene = make();
                let desk = shelf(&scene.disk);
                let old = scene.standing();
                scene.disk.break_at(at, Fault::ShortRead { short });
                let said = desk.commit(&scene.commit);
                scene.disk.mend();
                let now = scene.standing();
                match said {
                    Ok(_) => {
                        assert_eq!(now, scene.done(&old), "step {at}");
                        done += 1;
                    }
                    Err(error) => {
                        assert_eq!(now, old, "step {at}: {error}");
                        refused += 1;
                    }
                }
                again(&scene, stick);
            }
        }
    });
    assert!(refused > 20 && done > 20, "{refused} refused, {done} done");
}

/// A file beside a job that is there already, and of which a read gives only the beginning.
#[test]
fn a_file_of_which_only_the_beginning_is_read_is_not_taken_for_ours() {
    let make = || {
        let mut scene =
            super::scene::over_an_old_one(crate::common::memory_disk::MemoryDisk::with_folder(
                std::path::Path::new(crate::common::forms::ROOT),
            ));
        let key = crate::common::forms::key("26-0101");
        let whole = crate::common::forms::beside(&key, "a.pdf", b"%PDF of theirs");
        scene.commit.attachments = vec![whole];
        let desk = shelf(&scene.disk);
        let alone = quillbore_office::shelf::Commit {
            attachments: scene.commit.attachments.clone(),
            documents: Vec::new(),
        };
        desk.commit(&alone).expect("theirs");
        scene.commit.attachments = vec![crate::common::forms::beside(&key, "a.pdf", b"%PDF")];
        scene
    };
    for at in 0..steps_of_refused(&make()) {
        let scene = make();
        let desk = shelf(&scene.disk);
        let old = scene.standing();
        scene.disk.break_at(at, Fault::ShortRead { short: 4 });
        let said = desk.commit(&scene.commit);
        scene.disk.mend();
        let now = scene.standing();
        assert_eq!(now, old, "step {at}");
        assert!(
            said.is_err(),
            "step {at}: a document names what is not there"
        );
    }
}

fn steps_of_refused(scene: &Scene) -> usize {
    let (shelf, before) = (shelf(&scene.disk), scene.disk.steps());
    assert!(shelf.commit(&scene.commit).is_err());
    scene.disk.steps() - before
}
