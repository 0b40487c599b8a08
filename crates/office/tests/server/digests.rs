//! What jobs are about, kept beside them.

use std::sync::Arc;

use quillbore_job::file::write_job;
use quillbore_job::{Edit, Field, Job, Unit, apply};
use quillbore_office::digest::{Follower, Index, digester};
use quillbore_office::shelf::server::{Brings, Server};
use quillbore_office::shelf::{Commit, Shelf, Write};

use crate::common::forms::{job, key, mark};
use crate::common::postgres::shared;

fn content(customer: &str) -> Vec<u8> {
    let edit = Edit::SetField {
        field: Field::Customer,
        text: customer.to_owned(),
        unit: Unit::Mm,
    };
    let (job, _) = apply(&Job::default(), &edit).expect("an edit");
    write_job(&job).into_bytes()
}

#[test]
fn a_desk_that_starts_lists_by_digests_what_it_would_read_of_the_jobs() {
    let address = shared().database();
    let brings = Brings {
        digester: Some(digester()),
        ..Brings::default()
    };
    let desk = Server::new(address.clone(), brings);
    desk.adopt(&mark(1)).expect("a mark");
    let mut writes = Vec::new();
    for at in 0..60 {
        writes.push(Write {
            doc: job(&format!("26-0{at:03}")),
            bytes: match at {
                7 => b"no job".to_vec(),
                _ => content(&format!("Customer {at}")),
            },
            expected: None,
        });
    }
    desk.commit(&Commit {
        attachments: Vec::new(),
        documents: writes,
    })
    .expect("saved");
    // One that a program without digests saved since: its digest is of another version.
    let plain = Server::new(address.clone(), Brings::default());
    let old = plain.read(&job("26-0009")).expect("read").expect("a job");
    plain
        .commit(&Commit::one(
            job("26-0009"),
            content("Another"),
            Some(old.version),
        ))
        .expect("saved");
    let kept = desk.digests(&digester().kind).expect("digests");
    assert_eq!(kept.len(), 58);
    assert_eq!(desk.digests("of another program"), Ok(Vec::new()));
    // What may have records is read; the digests say that none has, but of one nothing is known.
    let keys: Vec<_> = (0..60).map(|at| key(&format!("26-0{at:03}"))).collect();
    let read = desk.read_records(&keys).expect("read");
    let read: Vec<_> = read.into_iter().map(|(job, _)| job).collect();
    assert_eq!(read, [key("26-0007"), key("26-0009")]);
    assert_eq!(plain.read_records(&keys).map(|all| all.len()), Ok(60));
    let followed = |shelf: &dyn Shelf| {
        let mut follower = Follower::default();
        let looked = follower.look(shelf, &mut |_| true).expect("a look");
        (looked.read, follower.lines())
    };
    let (read, by_digests) = followed(&desk);
    // Only what has no digest is read.
    assert_eq!(read, 2);
    // An older program's digests, or none: what is read for the list is kept for the next desk.
    let database = address.database_name();
    shared().sql(
        database,
        "UPDATE quillbore.digest SET kind = 'of an older program'",
    );
    assert_eq!(followed(&desk), (60, by_digests.clone()));
    let kept = desk.digests(&digester().kind).expect("digests");
    assert_eq!(kept.len(), 59);
    assert_eq!(followed(&desk), (1, by_digests.clone()));
    let read = desk.read_records(&keys).expect("read");
    let read: Vec<_> = read.into_iter().map(|(job, _)| job).collect();
    assert_eq!(read, [key("26-0007")]);
    let folder = tempfile::tempdir().expect("a folder");
    let disk = Arc::new(quillbore_office::disk::RealDisk::default());
    let copy = quillbore_office::shelf::Folder::new(disk, folder.path(), None);
    quillbore_office::copy_shelf::copy(&desk, &copy, &mut |_| true).expect("copied");
    let (read, by_jobs) = followed(&copy);
    assert_eq!((read, by_jobs), (60, by_digests.clone()));
    let mut index = Index::default();
    index.follow(by_digests);
    assert!(index.by_number("26-0009").is_some());
}
