//! What is said where a server can't be used as it stands.

use std::os::unix::net::UnixListener;
use std::sync::Arc;

use quillbore_office::shelf::server::{Address, Brings, Server};
use quillbore_office::shelf::{Commit, Cursor, Doc, Shelf, ShelfError};
use quillbore_office::start::{Standing, open_on_server};

use crate::common::forms::{job, mark};
use crate::common::postgres::{Cluster, shared};

fn said<T: std::fmt::Debug>(asked: Result<T, ShelfError>) -> String {
    asked.expect_err("refused").to_string()
}

#[test]
fn a_server_that_cant_be_used_is_told_as_what_it_is() {
    let cluster = shared();
    let none = Cluster::desk(&cluster.address("no_such_shelf", "shop"));
    assert!(said(none.mark()).contains("there is no such database"));
    let stranger = Cluster::desk(&cluster.address("postgres", "stranger"));
    let why = said(stranger.mark());
    assert!(
        why.starts_with("The shelf's server does not let this user in"),
        "{why}"
    );

    let address = cluster.database();
    let database = address.database_name();
    cluster.sql("postgres", &format!("CREATE ROLE guest_{database} LOGIN"));
    let guest = Cluster::desk(&cluster.address(database, &format!("guest_{database}")));
    let why = said(guest.make());
    assert!(why.contains("who makes a shelf owns its database"), "{why}");

    let owner = Cluster::desk(&address);
    owner.adopt(&mark(1)).expect("a mark");
    cluster.sql(database, "ALTER FUNCTION quillbore.changes RENAME TO other");
    let why = said(owner.changes(&Cursor::default()));
    assert!(why.contains("not as this program makes them"), "{why}");
    cluster.sql(database, "ALTER FUNCTION quillbore.other RENAME TO changes");
    assert!(owner.changes(&Cursor::default()).is_ok());

    // Somebody looks after the tables with a statement that takes them away from all others.
    let mut client = cluster.client(database, "shop").expect("a line");
    let mut locked = client.transaction().expect("a transaction");
    let lock = "LOCK TABLE quillbore.document IN ACCESS EXCLUSIVE MODE";
    locked.batch_execute(lock).expect("locked");
    let desk = Server::new(address.clone(), Brings::default());
    let doc: Doc = job("26-0101");
    let why = said(desk.read(&doc));
    assert!(why.contains("has its tables locked"), "{why}");
    locked.rollback().expect("free again");
    assert_eq!(desk.read(&doc), Ok(None));
    let first = Commit::one(doc, b"a job".to_vec(), None);
    desk.commit(&first).expect("saved");
}

#[test]
fn a_window_opens_though_a_server_that_was_known_says_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    // Whoever knocks is let in, and then nobody speaks.
    let _silent = UnixListener::bind(folder.path().join(".s.PGSQL.5432")).expect("a socket");
    let host = folder.path().to_string_lossy().replace('/', "%2F");
    let address = Address::read(&format!("postgresql://kim@/shelf?host={host}"));
    let server = Server::new(address.expect("an address"), Brings::default());
    let shelf: Arc<dyn Shelf> = Arc::new(server);
    let standing = open_on_server(&shelf, true).expect("it opens");
    assert!(
        matches!(&standing, Standing::Away(why) if why.contains("it is asked on")),
        "{standing:?}"
    );
}
