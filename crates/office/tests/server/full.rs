//! The server's disk is full: what was saved stays, what can't be saved is told, and it goes on once
//! there is room.

use std::time::{Duration, Instant};

use quillbore_office::shelf::{Commit, CommitError, Shelf, ShelfError, Version};

use crate::common::forms::{beside, job, key, mark, name};
use crate::common::postgres::Cluster;

/// Larger than what the server's own keeping together makes of it.
fn file(at: usize) -> Vec<u8> {
    let mut random = crate::common::random::Random::new(at as u64 + 1);
    (0..3_000_000)
        .map(|_| u8::try_from(random.below(256)).expect("a byte"))
        .collect()
}

fn commit(at: usize, over: Option<Version>) -> Commit {
    let text = format!("save {at}");
    Commit {
        attachments: vec![beside(&key("26-0101"), &format!("{at}.jpg"), &file(at))],
        ..Commit::one(job("26-0101"), text.into_bytes(), over)
    }
}

#[test]
fn a_full_disk_loses_nothing_that_was_saved_and_saves_nothing_by_halves() {
    let cluster = Cluster::on_a_small_disk(140);
    let address = cluster.database();
    let desk = Cluster::desk(&address);
    desk.adopt(&mark(1)).expect("a mark");
    let mut over = None;
    let mut refused = 0;
    let mut saved = 0;
    for at in 0..40 {
        match desk.commit(&commit(at, over)) {
            Ok(committed) => {
                over = Some(committed.versions[0]);
                saved = at + 1;
            }
            Err(CommitError::Shelf(error @ ShelfError::Step { kind, .. })) => {
                assert_eq!(kind, std::io::ErrorKind::StorageFull, "{error}");
                assert!(error.hint().contains("free space"), "{error}");
                refused += 1;
                break;
            }
            // A server that can't write its own log ends, and doesn't come up again without room.
            Err(CommitError::NotKnown(ShelfError::NoServer { .. })) => {
                refused += 1;
                break;
            }
            Err(other) => panic!("{at}: {other:?}"),
        }
    }
    println!("{saved} saved before it was full");
    assert!(
        refused == 1 && saved > 3,
        "{saved} saved, {refused} refused"
    );
    // Somebody makes room.
    let grown = std::process::Command::new("mount")
        .args(["-o", "remount,size=400m"])
        .arg(cluster.socket().join("data"))
        .status();
    assert!(grown.is_ok_and(|grown| grown.success()));
    cluster.wait();
    let begun = Instant::now();
    let now = loop {
        match desk.read(&job("26-0101")) {
            Ok(now) => break now.expect("a job"),
            Err(error) => assert!(begun.elapsed() < Duration::from_secs(60), "{error}"),
        }
    };
    // The refused one may have been done before the server ended; then all of it is.
    let text = |at: usize| format!("save {at}").into_bytes();
    let is_more = now.bytes == text(saved);
    assert!(is_more || now.bytes == text(saved - 1));
    let there = if is_more { saved + 1 } else { saved };
    let names = desk.attachments(&key("26-0101")).expect("names");
    assert_eq!(names.len(), there);
    for at in 0..there {
        let found = desk.attachment(&key("26-0101"), &name(&format!("{at}.jpg")));
        assert!(found.expect("read").as_ref() == Some(&file(at)), "{at}");
    }
    let version = desk
        .commit(&commit(there, Some(now.version)))
        .expect("there is room");
    assert_eq!(version.versions, [Version::of(&text(there))]);
}
