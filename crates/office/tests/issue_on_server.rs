//! Papers issued from a shelf on a server over a line that breaks: no number twice, no paper without its
//! entry. Without a server's programs these tests fail with a sentence that says what to install.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]
#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses another part of what they have in common"
)]

mod common;
#[path = "common/postgres.rs"]
mod postgres;
#[path = "common/proxy.rs"]
mod proxy;

use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

use common::{Clerk, inquiry, key, shop};
use quillbore_job::Paper;
use quillbore_job::file::{hash, read_job};
use quillbore_office::Office;
use quillbore_office::disk::RealDisk;
use quillbore_office::names::AttachmentName;
use quillbore_office::shelf::server::{Address, Brings, Server};
use quillbore_office::shelf::{Doc, Mark, Shelf};

use postgres::{Cluster, shared};
use proxy::Proxy;

/// A desk that looks at the server itself, a line, and an office at its far end with a job on the shelf.
fn scene() -> (Server, Proxy, Arc<Office>, Clerk) {
    let address = shared().database();
    let near = Cluster::desk(&address);
    near.adopt(&Mark::of([1; 16])).expect("a mark");
    let proxy = Proxy::to(shared().socket());
    let (port, database) = (proxy.port(), address.database_name());
    let far = format!("postgresql://shop@127.0.0.1:{port}/{database}");
    let far = Address::read(&far).expect("an address");
    let far = Arc::new(Server::new(far, Brings::default()));
    let disk = Arc::new(RealDisk::default());
    let office = Arc::new(Office::new(far, None, disk, Arc::new(shop())));
    let mut clerk = inquiry(&office);
    clerk.save().expect("saved");
    (near, proxy, office, clerk)
}

/// Each paper has its entry, and each entry its paper.
fn agrees(near: &Server, job: &str) -> Vec<String> {
    let stored = near
        .read(&Doc::Job(key(job)))
        .expect("read")
        .expect("a job");
    let read = read_job(&stored.bytes).expect("a job");
    let numbers: Vec<String> = read
        .issued
        .iter()
        .map(|paper| paper.number.clone())
        .collect();
    let once: BTreeSet<&String> = numbers.iter().collect();
    assert_eq!(once.len(), numbers.len(), "{numbers:?}");
    let files: Vec<&str> = read
        .issued
        .iter()
        .map(|paper| paper.file.as_str())
        .collect();
    let there = near.attachments(&key(job)).expect("names");
    let there: Vec<&str> = there.iter().map(AttachmentName::as_str).collect();
    assert_eq!(
        there.iter().collect::<BTreeSet<_>>(),
        files.iter().collect::<BTreeSet<_>>()
    );
    for paper in &read.issued {
        let name = AttachmentName::new(&paper.file).expect("a name");
        let bytes = near.attachment(&key(job), &name).expect("read");
        assert_eq!(hash(&bytes.expect("a paper")), paper.hash);
    }
    numbers
}

#[test]
fn a_line_that_is_cut_at_any_message_of_an_issue_gives_one_paper_with_its_entry() {
    let (near, proxy, office, _) = scene();
    let mut cuts = 0;
    // A job of its own each time: what is asked grows with the papers of a job.
    for at in 0..300 {
        let mut clerk = inquiry(&office);
        clerk.save().expect("saved");
        proxy.cut_at(at);
        let issued = clerk.issue(Paper::Quotation);
        assert_eq!(issued.number, format!("{}-Q1", clerk.number()));
        assert_eq!(agrees(&near, clerk.number()), [issued.number]);
        if !proxy.was_cut() {
            break;
        }
        cuts += 1;
    }
    println!("cut at {cuts} messages");
    assert!((20..300).contains(&cuts), "{cuts}");
}

#[test]
fn an_issue_whose_line_stays_away_is_done_whole_or_not_at_all() {
    let (near, proxy, office, _) = scene();
    let (mut refused, mut lost) = (0, 0);
    // Early, late, and around the commit, which is what comes last.
    for at in [3, 30, 52, 56, 58, 60, 61, 62] {
        let mut clerk = Clerk::opening(&office, "26-0101");
        let before = agrees(&near, "26-0101");
        proxy.cut_at(at);
        let issued = std::thread::scope(|threads| {
            let issuing = threads.spawn(|| clerk.try_issue(Paper::Quotation).is_ok());
            while !proxy.was_cut() && !issuing.is_finished() {
                std::thread::sleep(Duration::from_micros(50));
            }
            if !issuing.is_finished() {
                proxy.shut(true);
            }
            issuing.join().expect("an answer")
        });
        proxy.shut(false);
        let after = agrees(&near, "26-0101");
        assert!(after.starts_with(&before));
        assert!(after.len() <= before.len() + 1);
        let is_there = after.len() > before.len();
        assert!(is_there || !issued, "{at}: told as issued, and not there");
        refused += usize::from(!issued);
        lost += usize::from(!issued && is_there);
    }
    println!("{refused} refused, {lost} of them there all the same");
    assert!(refused > 2, "{refused}");
    // The next number is the next one, whatever nobody was told of.
    let mut clerk = Clerk::opening(&office, "26-0101");
    let count = agrees(&near, "26-0101").len();
    let next = clerk.issue(Paper::Quotation).number;
    assert_eq!(next, format!("26-0101-Q{}", count + 1));
    agrees(&near, "26-0101");
}
