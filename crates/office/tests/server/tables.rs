//! The tables: made once, brought up, and left alone where they are a newer program's.

use quillbore_office::shelf::server::{NUMBER, Roles};
use quillbore_office::shelf::{Commit, CommitError, Cursor, Shelf, ShelfError};

use crate::common::forms::{job, mark};
use crate::common::postgres::{Cluster, shared};

#[test]
fn tables_are_made_once_and_by_two_at_once_too() {
    let address = shared().database();
    std::thread::scope(|threads| {
        for _ in 0..4 {
            threads.spawn(|| {
                let desk = Cluster::desk(&address);
                assert_eq!(desk.make(), Ok(Roles::Granted));
            });
        }
    });
    let desk = Cluster::desk(&address);
    assert_eq!(desk.mark(), Ok(None));
    desk.adopt(&mark(1)).expect("a mark");
    assert_eq!(Cluster::desk(&address).mark(), Ok(Some(mark(1))));
}

#[test]
fn an_older_program_refuses_newer_tables_with_a_sentence() {
    let address = shared().database();
    let database = address.database_name();
    let desk = Cluster::desk(&address);
    desk.adopt(&mark(1)).expect("a mark");
    let save = |text: &str| {
        let desk = Cluster::desk(&address);
        let now = desk
            .read(&job("26-0101"))
            .map(|found| found.map(|now| now.version));
        desk.commit(&Commit::one(
            job("26-0101"),
            text.as_bytes().to_vec(),
            now.ok().flatten(),
        ))
    };
    save("one").expect("saved");
    // Newer tables that an older program may still use.
    let newer = |number: i32, least: i32| {
        let set =
            format!("UPDATE quillbore.about SET schema_number = {number}, least_program = {least}");
        shared().sql(database, &set);
    };
    newer(NUMBER + 1, NUMBER);
    save("two").expect("saved");
    assert_eq!(Cluster::desk(&address).make(), Ok(Roles::Granted));
    // And such that it may not.
    newer(NUMBER + 1, NUMBER + 1);
    let desk = Cluster::desk(&address);
    let refused = [
        desk.read(&job("26-0101")).err(),
        desk.changes(&Cursor::default()).err(),
        desk.make().err(),
        desk.adopt(&mark(2)).err(),
        match save("three") {
            Err(CommitError::Shelf(error)) => Some(error),
            other => panic!("{other:?}"),
        },
    ];
    for refused in refused {
        let refused = refused.expect("refused");
        assert!(
            matches!(refused, ShelfError::NewerTables { .. }),
            "{refused:?}"
        );
        assert!(refused.to_string().contains("newer version"));
    }
    newer(NUMBER, 1);
    save("three").expect("saved");
}

#[test]
fn older_tables_are_brought_up_by_their_owner_and_nothing_is_lost() {
    let address = shared().database();
    let database = address.database_name();
    // The tables of the first number, with a job in them.
    let first = include_str!("../../src/shelf/server/schema/1.sql");
    shared().sql(database, first);
    shared().sql(
        database,
        "SELECT quillbore.adopt('01010101010101010101010101010101');
         SELECT came_to FROM quillbore.put('01010101010101010101010101010101', 'a commit', 'kim',
           ARRAY['26-0101'], ARRAY[NULL]::bytea[], ARRAY[sha256('a job')], ARRAY['a job'::bytea],
           '{}', '{}', '{}', '{}', '{}')",
    );
    let desk = Cluster::desk(&address);
    let refused = desk.read(&job("26-0101"));
    assert!(
        matches!(refused, Err(ShelfError::OlderTables { .. })),
        "{refused:?}"
    );
    let refused = desk.commit(&Commit::one(job("26-0102"), b"x".to_vec(), None));
    assert!(
        matches!(
            refused,
            Err(CommitError::Shelf(ShelfError::OlderTables { .. }))
        ),
        "{refused:?}"
    );
    assert_eq!(desk.make(), Ok(Roles::Granted));
    let desk = Cluster::desk(&address);
    let there = desk.read(&job("26-0101")).expect("read").expect("a job");
    assert_eq!(
        (there.bytes.as_slice(), desk.mark()),
        (&b"a job"[..], Ok(Some(mark(1))))
    );
    desk.commit(&Commit::one(
        job("26-0101"),
        b"again".to_vec(),
        Some(there.version),
    ))
    .expect("saved");
    assert_eq!(desk.make(), Ok(Roles::Granted));
}

/// Backed up, gone on with, restored: cursors from after the backup are none that count.
#[test]
fn a_cursor_from_before_a_restore_hides_nothing() {
    let address = shared().database();
    let database = address.database_name();
    let desk = Cluster::desk(&address);
    desk.adopt(&mark(1)).expect("a mark");
    let save = |number: &str| {
        desk.commit(&Commit::one(job(number), number.as_bytes().to_vec(), None))
            .expect("saved");
    };
    save("26-0101");
    shared().sql("postgres", &format!("CREATE DATABASE {database}_copy"));
    // A copy as a dump has it, by the server itself.
    let copy = shared().address(&format!("{database}_copy"), "shop");
    let restored = Cluster::desk(&copy);
    restored.adopt(&mark(1)).expect("a mark");
    restored
        .commit(&Commit::one(job("26-0101"), b"26-0101".to_vec(), None))
        .expect("saved");
    save("26-0102");
    let cursor = desk.changes(&Cursor::default()).expect("a list").cursor;
    // The restored one has no such change yet, then another one of that number.
    assert!(restored.changes(&cursor).is_ok_and(|told| told.all));
    restored
        .commit(&Commit::one(job("26-0103"), b"26-0103".to_vec(), None))
        .expect("saved");
    let told = restored.changes(&cursor).expect("a list");
    assert!(
        told.all && told.there == [job("26-0101"), job("26-0103")],
        "{told:?}"
    );
}
