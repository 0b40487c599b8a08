//! Holds as leases.

use std::time::{Duration, Instant};

use quillbore_office::names::JobKey;
use quillbore_office::shelf::server::{Address, Brings, Server};
use quillbore_office::shelf::{Commit, CommitError, Doc, Held, Shelf, Version};

use super::lines::over;
use crate::common::forms::{key, mark};
use crate::common::postgres::{Cluster, shared};
use crate::common::proxy::Proxy;

fn desk(address: &Address, lease: Duration) -> Server {
    Server::new(
        address.clone(),
        Brings {
            lease: Some(lease),
            ..Brings::default()
        },
    )
}

fn is_here(held: &Held) -> bool {
    matches!(held, Held::Here(_))
}

/// The hold of a job that another desk lets go of by and by.
fn taken_within(near: &Server, job: &JobKey, most: Duration) -> Held {
    let begun = Instant::now();
    loop {
        let taken = near.hold(job, "the near desk");
        if is_here(&taken) {
            return taken;
        }
        assert!(begun.elapsed() < most, "{taken:?}");
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_desk_that_is_heard_of_keeps_its_job_and_a_dead_ones_lease_ends() {
    let address = shared().database();
    let near = desk(&address, Duration::from_millis(900));
    near.adopt(&mark(1)).expect("a mark");
    let proxy = Proxy::to(shared().socket());
    let far = desk(
        &over(&proxy, address.database_name()),
        Duration::from_millis(900),
    );
    let job = key("26-0101");
    let held = far.hold(&job, "the far desk");
    assert!(is_here(&held));
    // Alive: three leases long it is kept.
    let begun = Instant::now();
    while begun.elapsed() < Duration::from_millis(2_700) {
        let others = near.hold(&job, "the near desk");
        assert!(
            matches!(&others, Held::Elsewhere(by) if by == "the far desk"),
            "{others:?}"
        );
        std::thread::sleep(Duration::from_millis(150));
    }
    // Its line is gone, and nobody hears of it any more.
    proxy.shut(true);
    let taken = taken_within(&near, &job, Duration::from_secs(10));
    // It comes back: the job is another's now, and stays so.
    proxy.shut(false);
    std::thread::sleep(Duration::from_millis(700));
    let again = far.hold(&job, "the far desk");
    assert!(
        matches!(&again, Held::Elsewhere(by) if by == "the near desk"),
        "{again:?}"
    );
    // What it lets go of was its own lease, not the other's.
    drop(held);
    far.settle();
    let again = far.hold(&job, "the far desk");
    assert!(matches!(again, Held::Elsewhere(_)), "{again:?}");
    drop(taken);
    near.settle();
    assert!(is_here(&far.hold(&job, "the far desk")));
}

/// A lease counts by the server's clock: what a desk's own clock says is nowhere asked.
#[test]
fn of_many_desks_that_ask_at_once_one_holds() {
    let address = shared().database();
    Cluster::desk(&address).adopt(&mark(1)).expect("a mark");
    for round in 0..20 {
        let job = key(&format!("26-01{round:02}"));
        let held: Vec<Held> = std::thread::scope(|threads| {
            let desks = (0..6).map(|at| {
                let (address, job) = (&address, &job);
                threads.spawn(move || Cluster::desk(address).hold(job, &format!("desk {at}")))
            });
            let desks: Vec<_> = desks.collect();
            desks
                .into_iter()
                .map(|desk| desk.join().expect("an answer"))
                .collect()
        });
        let here = held.iter().filter(|held| is_here(held)).count();
        assert_eq!(here, 1, "round {round}: {held:?}");
    }
}

/// The server's clock alone counts; where somebody sets that, no hold lasts for ever and nothing is lost.
#[test]
fn a_servers_clock_that_is_set_wrong_lets_holds_go_and_keeps_saves_apart() {
    const DAY: i64 = 86_400;
    let cluster = Cluster::with_a_clock();
    let address = cluster.database();
    let lease = Duration::from_millis(1_500);
    let near = desk(&address, lease);
    near.adopt(&mark(1)).expect("a mark");
    let proxy = Proxy::to(cluster.socket());
    let far = desk(&over(&proxy, address.database_name()), lease);
    let job = key("26-0101");
    let doc = Doc::Job(job.clone());
    let first = Commit::one(doc.clone(), b"first".to_vec(), None);
    near.commit(&first).expect("saved");
    let held = far.hold(&job, "the far desk");
    assert!(is_here(&held));
    // A day back: whoever is heard of keeps it, and a dead desk's hold ends a lease after somebody asks.
    cluster.set_clock(-DAY);
    let begun = Instant::now();
    while begun.elapsed() < lease * 2 {
        let others = near.hold(&job, "the near desk");
        assert!(
            matches!(&others, Held::Elsewhere(by) if by == "the far desk"),
            "{others:?}"
        );
        std::thread::sleep(Duration::from_millis(100));
    }
    proxy.shut(true);
    // The lines that it has are dead by then; it renewed for the last time as the clock stood there.
    cluster.set_clock(-2 * DAY);
    let begun = Instant::now();
    let taken = taken_within(&near, &job, Duration::from_secs(15));
    assert!(
        begun.elapsed() > lease / 2,
        "a living desk had no time to be heard of"
    );
    proxy.shut(false);
    // A day ahead: a hold may end early, and then the versions keep two saves apart.
    cluster.set_clock(DAY);
    let other = Cluster::desk(&address);
    let both = other.hold(&job, "a third desk");
    assert!(!matches!(both, Held::Unknown), "{both:?}");
    let over = Version::of(b"first");
    let theirs = Commit::one(doc.clone(), b"theirs".to_vec(), Some(over));
    other.commit(&theirs).expect("saved");
    let ours = Commit::one(doc.clone(), b"ours".to_vec(), Some(over));
    assert_eq!(
        near.commit(&ours),
        Err(CommitError::Changed(vec![doc.clone()]))
    );
    assert_eq!(
        near.read(&doc).map(|there| there.map(|there| there.bytes)),
        Ok(Some(b"theirs".to_vec()))
    );
    drop((held, taken));
}
