//! Holds as leases.

use std::time::{Duration, Instant};

use quillbore_office::shelf::server::{Address, Brings, Server};
use quillbore_office::shelf::{Held, Shelf};

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
    let begun = Instant::now();
    let taken = loop {
        let taken = near.hold(&job, "the near desk");
        if is_here(&taken) {
            break taken;
        }
        assert!(begun.elapsed() < Duration::from_secs(10), "{taken:?}");
        std::thread::sleep(Duration::from_millis(50));
    };
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
