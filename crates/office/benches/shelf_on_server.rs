//! A shelf of 50,000 jobs on a server of the bench's own: the first list of a desk that starts, a key of
//! a search in it, a save beside what the server's own commit of the same bytes takes, and a look after
//! another desk's save. Where it is only tried, as `cargo test --benches` does, it takes 200 jobs.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a bench fails by panic"
)]
#![allow(
    dead_code,
    unreachable_pub,
    reason = "the server of the tests has more"
)]

mod many;
#[path = "../tests/common/postgres.rs"]
mod postgres;
#[path = "many/searched.rs"]
mod searched;

use std::cell::Cell;

use ::postgres::types::Type;
use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_job::file::write_job;
use quillbore_office::digest::{Follower, Index, digester};
use quillbore_office::shelf::server::{Address, Brings, Server};
use quillbore_office::shelf::{Commit, Cursor, Doc, Mark, Shelf, Write};

use many::jobs;
use postgres::Cluster;
use searched::{find, job, key};

fn desk(address: &Address) -> Server {
    Server::new(
        address.clone(),
        Brings {
            digester: Some(digester()),
            ..Brings::default()
        },
    )
}

fn filled(address: &Address) -> Server {
    let server = desk(address);
    server.adopt(&Mark::of([7; 16])).unwrap();
    let all: Vec<u32> = (0..jobs()).collect();
    for some in all.chunks(500) {
        let documents = some.iter().map(|at| {
            let job = job(*at);
            Write {
                doc: Doc::Job(key(&job)),
                bytes: write_job(&job).into_bytes(),
                expected: None,
            }
        });
        server
            .commit(&Commit {
                attachments: Vec::new(),
                documents: documents.collect(),
            })
            .unwrap();
    }
    server
}

fn on_server(criterion: &mut Criterion) {
    // Each commit outlives a power cut, as on a server that somebody relies on.
    let cluster = Cluster::start("");
    let address = cluster.database();
    let server = filled(&address);
    criterion.bench_function("first list of 50000 jobs on a server", |bench| {
        bench.iter(|| {
            let mut follower = Follower::default();
            let looked = follower.look(&desk(&address), &mut |_| true).unwrap();
            assert_eq!(looked.read, 0);
            let mut index = Index::default();
            index.follow(follower.lines());
            index
        });
    });
    let mut follower = Follower::default();
    follower.look(&server, &mut |_| true).unwrap();
    let mut index = Index::default();
    index.follow(follower.lines());
    criterion.bench_function("find \"alder 4-1\" in 50000 of a server", |bench| {
        bench.iter(|| find(&index, "alder 4-1"));
    });
    let doc = Doc::Job(key(&job(3)));
    let contents = [3, 4].map(|at| write_job(&job(at)).into_bytes());
    let version = Cell::new(server.read(&doc).unwrap().unwrap().version);
    let times = Cell::new(0_usize);
    let next = || {
        times.set(times.get() + 1);
        // Always another content, as a save has.
        let mut bytes = contents[times.get() % 2].clone();
        bytes.extend(format!("// {}\n", times.get()).into_bytes());
        bytes
    };
    let save = || {
        let commit = Commit::one(doc.clone(), next(), Some(version.get()));
        version.set(server.commit(&commit).unwrap().versions[0]);
    };
    criterion.bench_function("a save on a server", |bench| bench.iter(save));
    let mut client = cluster.client(address.database_name(), "shop").unwrap();
    client
        .batch_execute("CREATE TABLE plain (number bigserial PRIMARY KEY, bytes bytea)")
        .unwrap();
    criterion.bench_function("the server's own commit of the same bytes", |bench| {
        bench.iter(|| {
            let insert = "INSERT INTO plain (bytes) VALUES ($1)";
            client
                .query_typed(insert, &[(&next(), Type::BYTEA)])
                .unwrap()
        });
    });
    let mut cursor = server.changes(&Cursor::default()).unwrap().cursor;
    criterion.bench_function(
        "a save on a server and another desk's look at it",
        |bench| {
            let other = desk(&address);
            bench.iter(|| {
                save();
                let told = other.changes(&cursor).unwrap();
                cursor = told.cursor;
                other.read(&told.there[0]).unwrap()
            });
        },
    );
    criterion.bench_function("the next number of a year on a server", |bench| {
        bench.iter(|| server.highest_number(26).unwrap());
    });
}

criterion_group!(benches, on_server);
criterion_main!(benches);
