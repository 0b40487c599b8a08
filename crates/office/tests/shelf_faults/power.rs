//! The power goes at each step, and takes with it what was not settled.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use quillbore_office::shelf::Commit;

use super::scene::{Scene, Standing, a_new_one, each, over_an_old_one, shelf};
use crate::common::forms::{ROOT, beside, key};
use crate::common::memory_disk::{Fault, MemoryDisk};
use crate::common::random::Random;

/// How many tries at how much of the unsettled names stays.
const TRIES: usize = 24;

/// What the medium has of what nobody brought to it: nothing, all, of each folder the first so many
/// names, or any of them, as a disk that writes names in an order of its own.
fn stays(attempt: usize, random: &mut Random) -> impl FnMut(&Path, usize) -> bool {
    let mut drawn: BTreeMap<PathBuf, usize> = BTreeMap::new();
    move |folder, at| match attempt {
        0 => false,
        1 => true,
        2..8 => {
            let first = drawn.entry(folder.to_owned());
            at < *first.or_insert_with(|| random.below(8))
        }
        _ => random.below(2) == 0,
    }
}

fn settled(scene: &Scene) {
    scene.disk.cut_power(|_, _| true);
}

/// A document that names a file beside its job has it; each is old or new; what was told to be
/// written is written.
fn check(scene: &Scene, old: &Standing, told_done: bool) {
    let now = scene.standing();
    let done = scene.done(old);
    for at in 0..now.docs.len() {
        let is_new = now.docs[at] == done.docs[at];
        let empty = old.docs[at].is_none() && now.docs[at] == Some(Vec::new());
        assert!(is_new || now.docs[at] == old.docs[at] || empty, "{now:?}");
        assert!(is_new || !told_done, "{now:?}");
        if is_new {
            assert_eq!(now.beside, done.beside);
            assert_eq!(now.before[at], done.before[at]);
        }
    }
    if told_done {
        assert_eq!(now.beside, done.beside);
    }
}

#[test]
fn what_is_told_as_done_outlives_a_power_cut_and_no_document_names_what_is_lost() {
    let mut random = Random::new(26);
    each(|make, _| {
        let (well, mut at) = (make(), 0);
        let desk = shelf(&well.disk);
        let before = well.disk.steps();
        desk.commit(&well.commit).expect("committed");
        let steps = well.disk.steps() - before;
        while at <= steps {
            for attempt in 0..TRIES {
                let scene = make();
                settled(&scene);
                let desk = shelf(&scene.disk);
                settled(&scene);
                let old = scene.standing();
                scene.disk.break_at(at, Fault::Dead { short: 7 });
                let said = desk.commit(&scene.commit);
                scene.disk.mend();
                scene.disk.cut_power(stays(attempt, &mut random));
                println!("step {at}, {attempt}: {said:?}");
                check(&scene, &old, said.is_ok());
                assert!(said.is_ok() || at < steps, "{said:?}");
                scene.left_behind();
            }
            at += 1;
        }
    });
}

/// A program was killed at any step of putting a file beside a job; the next one finds it there, or
/// not, and writes the document that names it.
#[test]
fn a_file_that_was_there_already_is_on_the_medium_before_a_document_names_it() {
    for scene in [over_an_old_one, a_new_one] {
        finds_the_file(scene);
    }
}

fn finds_the_file(scene: fn(MemoryDisk) -> Scene) {
    let (mut at, mut found) = (0, 0);
    loop {
        let mut scene = scene(MemoryDisk::with_folder(Path::new(ROOT)));
        scene.commit.attachments = vec![beside(&key("26-0101"), "a.pdf", b"%PDF")];
        let old = scene.standing();
        let desk = shelf(&scene.disk);
        settled(&scene);
        let alone = Commit {
            attachments: scene.commit.attachments.clone(),
            documents: Vec::new(),
        };
        scene.disk.break_at(at, Fault::Dead { short: 0 });
        if desk.commit(&alone).is_ok() {
            break;
        }
        scene.disk.mend();
        found += usize::from(scene.standing().beside[0].is_some());
        desk.commit(&scene.commit).expect("committed");
        scene.disk.cut_power(|_, _| false);
        check(&scene, &old, true);
        at += 1;
    }
    assert!(found > 1 && at > found, "{at}, {found}");
}

#[test]
fn a_file_beside_a_job_alone_outlives_a_power_cut_too() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let desk = shelf(&disk);
    let commit = Commit {
        attachments: vec![beside(&key("26-0117"), "a.pdf", b"%PDF")],
        documents: Vec::new(),
    };
    desk.commit(&commit).expect("committed");
    disk.cut_power(|_, _| false);
    let there = disk.file(&Path::new(ROOT).join("26-0117.files/a.pdf"));
    assert_eq!(there, Some(b"%PDF".to_vec()));
}

/// Nothing that stands under a name of its own is left to the disk's own time.
#[test]
fn when_a_commit_is_done_the_medium_has_every_content() {
    each(|make, _| {
        let scene = make();
        shelf(&scene.disk).commit(&scene.commit).expect("committed");
        let locks = |path: &PathBuf| path.ends_with("saving.lock");
        let unsynced = scene.disk.unsynced();
        assert!(unsynced.iter().all(locks), "{unsynced:?}");
    });
}
