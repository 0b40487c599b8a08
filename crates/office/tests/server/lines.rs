//! A line that breaks: at every message of a save and of a commit with files.

use std::sync::Arc;
use std::sync::mpsc::channel;
use std::time::{Duration, Instant};

use quillbore_office::numbers::save_as_next;
use quillbore_office::shelf::server::{Address, Server};
use quillbore_office::shelf::{Commit, CommitError, Shelf, ShelfError, Version};

use crate::common::forms::{beside, job, key, mark, name, write};
use crate::common::postgres::{Cluster, shared};
use crate::common::proxy::Proxy;

/// The address of a database over a line of its own.
pub(crate) fn over(proxy: &Proxy, database: &str) -> Address {
    let text = format!("postgresql://shop@127.0.0.1:{}/{database}", proxy.port());
    Address::read(&text).expect("an address")
}

/// A shelf, its database, and a desk whose line can be cut.
fn scene() -> (Server, Proxy, Server) {
    let address = shared().database();
    let near = Cluster::desk(&address);
    near.adopt(&mark(1)).expect("a mark");
    let proxy = Proxy::to(shared().socket());
    let far = Cluster::desk(&over(&proxy, address.database_name()));
    (near, proxy, far)
}

/// A save with a small file beside it, and one with a file that is sent in parts.
fn commits(at: u64, expected: Option<Version>) -> [Commit; 2] {
    let doc = job("26-0101");
    [200, 2_500_000].map(|size| {
        let bytes = format!("content {at} {size}");
        let mut file = format!("file {at} {size}").into_bytes();
        file.resize(size, b'x');
        Commit {
            attachments: vec![beside(&key("26-0101"), &format!("{at}-{size}.pdf"), &file)],
            documents: vec![write(&doc, bytes.as_bytes(), expected)],
        }
    })
}

/// The database of a desk's shelf.
fn database(desk: &Server) -> String {
    let place = desk.place();
    let name = place.rsplit_once('/').expect("a database").1;
    name.split('?').next().expect("its name").to_owned()
}

/// How many versions there are of anything.
fn versions(near: &Server) -> usize {
    let mut client = shared().client(&database(near), "shop").expect("a line");
    let counted = client.query_one("SELECT count(*) FROM quillbore.revision", &[]);
    usize::try_from(counted.expect("a count").get::<_, i64>(0)).expect("a count")
}

#[test]
fn a_line_that_is_cut_at_any_message_loses_nothing_and_saves_nothing_twice() {
    for large in [false, true] {
        let (near, proxy, far) = scene();
        let doc = job("26-0101");
        let mut expected = None;
        let mut cuts = 0;
        for at in 0.. {
            let [small, big] = commits(at, expected);
            let commit = if large { big } else { small };
            proxy.cut_at(at);
            let committed = far.commit(&commit);
            let was_cut = proxy.was_cut();
            let version = committed.expect("sent again on another line").versions[0];
            assert_eq!(version, Version::of(&commit.documents[0].bytes));
            // Whoever looks by another line sees it, once.
            let there = near.read(&doc).expect("read").expect("a job");
            assert_eq!(there.bytes, commit.documents[0].bytes);
            let file = &commit.attachments[0];
            let beside = near.attachment(&file.job, &file.name).expect("read");
            assert_eq!(beside.as_ref(), Some(&file.bytes));
            assert_eq!(versions(&near), usize::try_from(at).expect("few") + 1);
            expected = Some(version);
            if !was_cut {
                break;
            }
            cuts += 1;
        }
        println!("large {large}: cut at {cuts} messages");
        assert!(cuts > if large { 25 } else { 8 }, "{cuts}");
    }
}

#[test]
fn a_line_that_stays_away_is_told_and_what_was_done_is_done_once() {
    let (near, proxy, far) = scene();
    let doc = job("26-0101");
    let mut expected = None;
    let mut came_to = [0; 2];
    // Each waits in vain for the line to come back, so these are few.
    for at in [1, 5, 7, 8, 9] {
        let [commit, _] = commits(at, expected);
        far.read(&doc).expect("a line");
        proxy.cut_at(at);
        std::thread::scope(|threads| {
            let saving = threads.spawn(|| far.commit(&commit));
            while !proxy.was_cut() && !saving.is_finished() {
                std::thread::sleep(Duration::from_micros(50));
            }
            proxy.shut(true);
            match saving.join().expect("an answer") {
                Ok(_) => {}
                Err(CommitError::NotKnown(ShelfError::NoServer { says, .. })) => {
                    assert!(!says.is_empty());
                }
                other => panic!("{at}: {other:?}"),
            }
        });
        proxy.shut(false);
        let there = near.read(&doc).expect("read").map(|stored| stored.version);
        let new = Version::of(&commit.documents[0].bytes);
        assert!(there == expected || there == Some(new), "{at}");
        came_to[usize::from(there == Some(new))] += 1;
        // The same again, as the window asks for it.
        let again = match far.commit(&commit) {
            // A new job that is there is told as taken; what is in it tells whose it is.
            Err(CommitError::Taken(_)) if expected.is_none() => new,
            again => again.expect("saved").versions[0],
        };
        assert_eq!(again, new);
        expected = Some(new);
    }
    assert_eq!(versions(&near), 5);
    assert!(came_to[0] > 0, "{came_to:?}");
}

#[test]
fn reading_goes_on_where_a_line_was_cut() {
    let (near, proxy, far) = scene();
    near.commit(&commits(0, None)[0]).expect("saved");
    let doc = job("26-0101");
    let reads: [&dyn Fn() -> bool; 6] = [
        &|| far.read(&doc).is_ok_and(|found| found.is_some()),
        &|| {
            far.changes(&Default::default())
                .is_ok_and(|told| told.there.len() == 1)
        },
        &|| far.highest_number(26) == Ok(Some(101)),
        &|| {
            far.attachments(&key("26-0101"))
                .is_ok_and(|names| names.len() == 1)
        },
        &|| {
            let found = far.attachment(&key("26-0101"), &name("0-200.pdf"));
            found.is_ok_and(|found| found.is_some_and(|bytes| bytes.len() == 200))
        },
        &|| far.mark() == Ok(Some(mark(1))),
    ];
    for (which, read) in reads.iter().enumerate() {
        for at in 0.. {
            proxy.cut_at(at);
            assert!(read(), "{which} cut at {at}");
            if !proxy.was_cut() {
                break;
            }
        }
    }
}

/// Another desk's save is heard of within a second, also after the line was away.
#[test]
fn another_desks_save_wakes_whoever_watches() {
    let (near, proxy, far) = scene();
    let (woken, wakes) = channel();
    let woken = std::sync::Mutex::new(woken);
    let watch = far.watch(Arc::new(move || {
        let _ = woken.lock().expect("a sender").send(Instant::now());
    }));
    let second = Duration::from_secs(1);
    let quiet = Duration::from_millis(300);
    wakes
        .recv_timeout(second * 5)
        .expect("woken once it listens");
    while wakes.recv_timeout(quiet).is_ok() {}
    let mut expected = None;
    let save = |at, expected: &mut Option<Version>| {
        let [commit, _] = commits(at, *expected);
        let committed = near.commit(&commit).expect("saved");
        *expected = Some(committed.versions[0]);
    };
    for at in 0..5 {
        save(at, &mut expected);
        wakes.recv_timeout(second).expect("woken by the save");
        while wakes.recv_timeout(quiet).is_ok() {}
    }
    proxy.shut(true);
    wakes
        .recv_timeout(second * 3)
        .expect("woken since the line is gone");
    save(5, &mut expected);
    proxy.shut(false);
    wakes
        .recv_timeout(second * 5)
        .expect("woken since the line is back");
    while wakes.recv_timeout(quiet).is_ok() {}
    save(6, &mut expected);
    wakes.recv_timeout(second).expect("woken by the save");
    drop(watch);
}

/// A new job whose confirmation was lost is not saved under a second number when it is saved again.
#[test]
fn a_new_job_gets_one_number_also_where_the_first_answer_was_lost() {
    let day = chrono::NaiveDate::from_ymd_opt(2026, 11, 30).expect("a day");
    let mut were_there = 0;
    for at in (7..24).step_by(3) {
        let (near, proxy, far) = scene();
        let far: Arc<dyn Shelf> = Arc::new(far);
        let new = quillbore_job::Job::default();
        far.mark().expect("a line");
        proxy.cut_at(at);
        let saved = std::thread::scope(|threads| {
            let saving = threads.spawn(|| save_as_next(&far, &new, day));
            while !proxy.was_cut() && !saving.is_finished() {
                std::thread::sleep(Duration::from_micros(50));
            }
            if !saving.is_finished() {
                proxy.shut(true);
            }
            saving.join().expect("an answer")
        });
        proxy.shut(false);
        let there = near
            .changes(&Default::default())
            .expect("a list")
            .there
            .len();
        let lost = saved.is_err();
        were_there += usize::from(lost && there == 1);
        let saved = saved
            .or_else(|_| save_as_next(&far, &new, day))
            .expect("saved");
        assert_eq!(saved.key, key("26-0101"), "cut at {at}");
        let there = near.changes(&Default::default()).expect("a list").there;
        assert_eq!(there, [job("26-0101")], "cut at {at}");
        // Another one is another one.
        let other = save_as_next(&far, &new, day).expect("saved");
        assert_eq!(other.key, key("26-0102"), "cut at {at}");
        if !lost {
            break;
        }
    }
    println!("{were_there} were there though nobody was told");
}

/// Locks a table, and until the end has the server stop whoever waits for it, so many times at most.
fn in_the_way<T>(database: &str, times: usize, asked: impl FnOnce() -> T + Send) -> T
where
    T: Send,
{
    let mut other = shared().client(database, "shop").expect("a line");
    let mut locked = other.transaction().expect("a transaction");
    locked
        .batch_execute("LOCK TABLE quillbore.document IN ACCESS EXCLUSIVE MODE")
        .expect("a lock");
    let mut hand = shared().client(database, "shop").expect("a line");
    let stop = "SELECT pg_cancel_backend(pid) FROM pg_stat_activity \
                WHERE wait_event_type = 'Lock' AND datname = current_database()";
    std::thread::scope(|threads| {
        let asked = threads.spawn(asked);
        let mut stopped = 0;
        while !asked.is_finished() && stopped < times {
            stopped += hand.query(stop, &[]).expect("a hand").len();
            std::thread::sleep(Duration::from_millis(10));
        }
        assert!(stopped > 0);
        locked.rollback().expect("the lock goes");
        asked.join().expect("what was asked")
    })
}

#[test]
fn what_a_server_stops_at_once_is_asked_again_and_told_where_that_does_not_help() {
    let (near, _proxy, far) = scene();
    let database = &database(&near);
    let [small, large] = commits(1, None);
    let first = in_the_way(database, 1, || far.commit(&small)).expect("saved");
    let again = Commit {
        documents: vec![write(&job("26-0101"), b"again", Some(first.versions[0]))],
        ..large
    };
    in_the_way(database, 3, || far.commit(&again)).expect("saved");
    assert_eq!(versions(&near), 2);
    match in_the_way(database, usize::MAX, || far.read(&job("26-0101"))) {
        Err(ShelfError::Step { says, .. }) => assert!(says.contains("stopped"), "{says}"),
        other => panic!("{other:?}"),
    }
}
