//! Who may do what: readers look, desks write and change nothing that is there, owners look after it.

use quillbore_office::shelf::server::{Brings, Digested, Digester, ROLE_NAMES, Server};
use quillbore_office::shelf::{Commit, CommitError, Cursor, Held, Shelf, ShelfError};

use crate::common::forms::{beside, job, key, mark};
use crate::common::postgres::{Cluster, shared};

#[test]
fn a_reader_looks_and_a_desk_writes_and_neither_changes_what_is_there() {
    let cluster = shared();
    let address = cluster.database();
    let database = address.database_name();
    let owner = Cluster::desk(&address);
    owner.adopt(&mark(1)).expect("a mark");
    let save = |shelf: &dyn Shelf, number: &str| {
        shelf.commit(&Commit {
            attachments: vec![beside(&key(number), "a.pdf", b"%PDF")],
            ..Commit::one(job(number), b"a job".to_vec(), None)
        })
    };
    save(&owner, "26-0101").expect("saved");
    let made = |user: &str, role: &str| {
        let user = format!("{user}_{database}");
        cluster.sql(
            database,
            &format!("CREATE ROLE {user} LOGIN IN ROLE {role}"),
        );
        Cluster::desk(&cluster.address(database, &user))
    };
    let [reader, desk] = [("jo", ROLE_NAMES[0]), ("kim", ROLE_NAMES[1])].map(|(u, r)| made(u, r));
    for shelf in [&reader, &desk] {
        assert_eq!(shelf.mark(), Ok(Some(mark(1))));
        assert!(
            shelf
                .read(&job("26-0101"))
                .is_ok_and(|found| found.is_some())
        );
        assert_eq!(shelf.highest_number(26), Ok(Some(101)));
        assert_eq!(
            shelf
                .changes(&Cursor::default())
                .map(|told| told.there.len()),
            Ok(1)
        );
        assert_eq!(
            shelf.attachments(&key("26-0101")).map(|names| names.len()),
            Ok(1)
        );
        assert!(shelf.digests("any").is_ok());
    }
    // Who only reads gets what a job is about all the same, and leaves nothing there.
    let digester = Digester {
        kind: "of this test".to_owned(),
        of: |content| {
            let text = String::from_utf8(content.to_vec()).ok()?;
            Some(Digested {
                text,
                ..Digested::default()
            })
        },
    };
    for (user, kept) in [("jo", 0), ("kim", 1)] {
        let address = cluster.address(database, &format!("{user}_{database}"));
        let digester = Some(digester.clone());
        let brings = Brings {
            digester,
            ..Brings::default()
        };
        let shelf = Server::new(address, brings);
        let made = shelf.make_digests(&[key("26-0101"), key("26-0199")]);
        assert_eq!(
            made,
            Ok(vec![(key("26-0101"), "a job".to_owned())]),
            "{user}"
        );
        let there = shelf.digests("of this test").expect("digests");
        assert_eq!(there.len(), kept, "{user}");
    }
    let refused = save(&reader, "26-0102");
    assert!(
        matches!(&refused, Err(CommitError::Shelf(ShelfError::MayNot { .. }))),
        "{refused:?}"
    );
    assert!(matches!(reader.hold(&key("26-0101"), "jo"), Held::Unknown));
    save(&desk, "26-0102").expect("saved");
    assert!(matches!(desk.hold(&key("26-0101"), "kim"), Held::Here(_)));
    // By hand, past the program, a desk can't either.
    let client = cluster.client(database, &format!("kim_{database}"));
    let mut client = client.expect("a line");
    for statement in [
        "DELETE FROM quillbore.revision",
        "UPDATE quillbore.revision SET content = 'x'",
        "DELETE FROM quillbore.document",
        "UPDATE quillbore.about SET last_change = 0",
        "DELETE FROM quillbore.content_part",
        "INSERT INTO quillbore.attachment VALUES ('a', 'b', 'c', 'd')",
        "TRUNCATE quillbore.hold",
        "DROP TABLE quillbore.hold",
        "SELECT quillbore.take_away('26-0101')",
        "SELECT quillbore.adopt('00000000000000000000000000000000')",
        "SELECT quillbore.lock_count()",
        "SELECT quillbore.set_version(9, 'a', 'b', 'c', 'd', 'e')",
    ] {
        let done = client.batch_execute(statement);
        let code = done.expect_err(statement).code().cloned();
        let denied = postgres::error::SqlState::INSUFFICIENT_PRIVILEGE;
        assert_eq!(code, Some(denied), "{statement}");
    }
    // Somebody with no role at all sees nothing.
    let stranger = format!("eve_{database}");
    cluster.sql(database, &format!("CREATE ROLE {stranger} LOGIN"));
    let stranger = Cluster::desk(&cluster.address(database, &stranger));
    let refused = stranger.read(&job("26-0101"));
    assert!(
        matches!(refused, Err(ShelfError::MayNot { .. })),
        "{refused:?}"
    );
}
