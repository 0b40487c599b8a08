//! Three desks at a server that is killed again and again, over lines that break: what was said to be
//! saved is there, once and whole, and no number is given twice.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use quillbore_office::shelf::server::Server;
use quillbore_office::shelf::{
    Commit, CommitError, Cursor, Doc, Shelf, ShelfError, Stored, Version,
};

use super::lines::over;
use crate::common::forms::{beside, job, key, mark};
use crate::common::postgres::Cluster;
use crate::common::proxy::Proxy;
use crate::common::random::Random;

/// Rounds of the three desks together.
const ROUNDS: usize = 5_000;

/// How long somebody may get no answer from a server that is killed every second or two.
const PATIENCE: Duration = Duration::from_secs(120);

/// Jobs that all desks write to.
const SHARED: [&str; 4] = ["25-0001", "25-0002", "25-0003", "25-0004"];

/// What a desk was told is saved.
#[derive(Default)]
struct Told {
    /// Lines that were added to shared jobs.
    lines: Vec<(Doc, String)>,
    /// New jobs under numbers of their own.
    numbers: Vec<(Doc, String)>,
    /// Files beside jobs.
    files: Vec<(String, Vec<u8>)>,
    changed: usize,
    not_known: usize,
}

/// Tells everybody when the desks are done, also where one of them gave up: whoever goes on until then
/// would go on for ever.
struct Ends<'a> {
    ended: &'a AtomicBool,
    cluster: &'a Cluster,
}

impl Drop for Ends<'_> {
    fn drop(&mut self) {
        if std::thread::panicking() {
            println!("the server said last:\n{}", self.cluster.said_last());
        }
        self.ended.store(true, Ordering::SeqCst);
    }
}

struct Desk {
    name: usize,
    shelf: Server,
    proxy: Proxy,
    random: Random,
    told: Told,
    next: usize,
}

impl Desk {
    fn token(&mut self) -> String {
        self.next += 1;
        format!("<{}.{}>\n", self.name, self.next)
    }

    /// Asks until the server answers.
    fn asked<T>(&self, ask: impl Fn(&Server) -> Result<T, ShelfError>) -> T {
        let begun = Instant::now();
        loop {
            match ask(&self.shelf) {
                Ok(answer) => return answer,
                Err(ShelfError::NoServer { .. }) if begun.elapsed() < PATIENCE => {}
                Err(error) => panic!("{error:?}"),
            }
        }
    }

    /// Saves until it is known whether it is saved; `is_ours` looks whether it is, where the first
    /// answer got lost.
    fn saved(&mut self, commit: &Commit, is_ours: impl Fn(&Stored) -> bool) -> bool {
        let mut was_lost = false;
        let begun = Instant::now();
        loop {
            match self.shelf.commit(commit) {
                Ok(committed) => {
                    let bytes = commit
                        .documents
                        .iter()
                        .map(|write| Version::of(&write.bytes));
                    assert!(committed.versions.into_iter().eq(bytes));
                    return true;
                }
                Err(CommitError::NotKnown(_)) if begun.elapsed() < PATIENCE => {
                    was_lost = true;
                    self.told.not_known += 1;
                }
                Err(CommitError::Changed(_) | CommitError::Taken(_)) => {
                    self.told.changed += 1;
                    let doc = &commit.documents[0].doc;
                    return was_lost
                        && self
                            .asked(|shelf| shelf.read(doc))
                            .is_some_and(|there| is_ours(&there));
                }
                Err(other) => panic!("{other:?}"),
            }
        }
    }

    fn act(&mut self) {
        match self.random.below(10) {
            0..5 => self.add_line(),
            5..7 => self.take_number(),
            7..9 => self.put_file(),
            _ => {
                let at = self.random.below(40) as u64;
                self.proxy.cut_at(at);
            }
        }
    }

    fn add_line(&mut self) {
        let doc = job(SHARED[self.random.below(SHARED.len())]);
        let token = self.token();
        let now = self.asked(|shelf| shelf.read(&doc));
        let mut bytes = now.as_ref().map_or_else(Vec::new, |now| now.bytes.clone());
        bytes.extend(token.as_bytes());
        let commit = Commit::one(doc.clone(), bytes, now.map(|now| now.version));
        let text = token.clone();
        if self.saved(&commit, |there| has(there, &text)) {
            self.told.lines.push((doc, token));
        }
    }

    fn take_number(&mut self) {
        let token = self.token();
        loop {
            let highest = self.asked(|shelf| shelf.highest_number(26)).unwrap_or(100);
            let doc = job(&format!("26-{:04}", highest + 1));
            let commit = Commit::one(doc.clone(), token.clone().into_bytes(), None);
            let text = token.clone();
            if self.saved(&commit, |there| there.bytes == text.as_bytes()) {
                self.told.numbers.push((doc, token));
                return;
            }
        }
    }

    fn put_file(&mut self) {
        let doc = job(SHARED[self.random.below(SHARED.len())]);
        let token = self.token();
        let called = format!("{}-{}.pdf", self.name, self.next);
        // Now and then one that is sent in parts.
        let times = if self.random.one_in(10) { 200_000 } else { 20 };
        let file = token.repeat(times).into_bytes();
        let now = self.asked(|shelf| shelf.read(&doc));
        let mut bytes = now.as_ref().map_or_else(Vec::new, |now| now.bytes.clone());
        bytes.extend(token.as_bytes());
        let mut commit = Commit::one(doc.clone(), bytes, now.map(|now| now.version));
        commit
            .attachments
            .push(beside(&key("24-0001"), &called, &file));
        let text = token.clone();
        if self.saved(&commit, |there| has(there, &text)) {
            self.told.lines.push((doc, token));
            self.told.files.push((called, file));
        }
    }
}

fn has(there: &Stored, token: &str) -> bool {
    String::from_utf8_lossy(&there.bytes).contains(token)
}

/// Follows the shelf by cursors alone; what it knows at the end must be what is there.
fn follow(shelf: &Server, ended: &AtomicBool) -> BTreeMap<Doc, Version> {
    let mut known: BTreeMap<Doc, Version> = BTreeMap::new();
    let mut cursor = Cursor::default();
    let mut heard = Instant::now();
    loop {
        assert!(heard.elapsed() < PATIENCE, "the shelf tells no changes");
        let is_last = ended.load(Ordering::SeqCst);
        if let Ok(told) = shelf.changes(&cursor) {
            let read: Result<Vec<_>, _> = told.there.iter().map(|doc| shelf.read(doc)).collect();
            // What could not be read is owed, so the cursor stays.
            if let Ok(read) = read {
                for (doc, stored) in told.there.into_iter().zip(read) {
                    known.extend(stored.map(|stored| (doc, stored.version)));
                }
                cursor = told.cursor;
                heard = Instant::now();
                if is_last {
                    return known;
                }
            }
        }
    }
}

#[test]
fn nothing_is_lost_torn_or_numbered_twice_in_five_thousand_rounds() {
    // This one keeps what it says when it is killed, and its clock jumps.
    let cluster = Cluster::with_a_clock();
    let address = cluster.database();
    let plain = Cluster::desk(&address);
    plain.adopt(&mark(1)).expect("a mark");
    let (left, ended, kills) = (
        AtomicUsize::new(ROUNDS),
        AtomicBool::new(false),
        AtomicUsize::new(0),
    );
    let begun = Instant::now();
    let (all, known) = std::thread::scope(|threads| {
        let ends = Ends {
            ended: &ended,
            cluster: &cluster,
        };
        let desks = (0..3).map(|name| {
            let proxy = Proxy::to(cluster.socket());
            let shelf = Cluster::desk(&over(&proxy, address.database_name()));
            let mut desk = Desk {
                name,
                shelf,
                proxy,
                random: Random::new(20_261_130 + name as u64),
                told: Told::default(),
                next: 0,
            };
            let left = &left;
            threads.spawn(move || {
                let take = |left: usize| left.checked_sub(1);
                while left
                    .fetch_update(Ordering::SeqCst, Ordering::SeqCst, take)
                    .is_ok()
                {
                    desk.act();
                }
                desk.told
            })
        });
        let desks: Vec<_> = desks.collect();
        let follower = threads.spawn(|| follow(&Cluster::desk(&address), &ended));
        threads.spawn(|| {
            let mut random = Random::new(7);
            while !ended.load(Ordering::SeqCst) {
                std::thread::sleep(Duration::from_millis(300 + random.below(1_500) as u64));
                cluster.kill();
                cluster.set_clock(random.below(400_000) as i64 - 200_000);
                kills.fetch_add(1, Ordering::SeqCst);
                cluster.wait();
            }
        });
        let all: Vec<Told> = desks
            .into_iter()
            .map(|desk| desk.join().expect("a desk"))
            .collect();
        drop(ends);
        (all, follower.join().expect("a follower"))
    });
    let count = |of: fn(&Told) -> usize| all.iter().map(of).sum::<usize>();
    println!(
        "{:.0} s, {} kills: {} lines, {} numbers, {} files; {} met another's save, {} not known at first",
        begun.elapsed().as_secs_f64(),
        kills.load(Ordering::SeqCst),
        count(|told| told.lines.len()),
        count(|told| told.numbers.len()),
        count(|told| told.files.len()),
        count(|told| told.changed),
        count(|told| told.not_known),
    );
    assert!(kills.load(Ordering::SeqCst) > 3);
    cluster.wait();
    holds(&plain, &all);
    is_whole(&cluster, address.database_name());
    let there = plain.changes(&Cursor::default()).expect("a list").there;
    let there = there.into_iter().map(|doc| {
        let stored = plain.read(&doc).expect("read").expect("a document");
        (doc, stored.version)
    });
    assert_eq!(there.collect::<BTreeMap<_, _>>(), known);
}

/// What desks were told is saved, is there once.
fn holds(shelf: &Server, all: &[Told]) {
    let mut numbered: BTreeMap<&Doc, &str> = BTreeMap::new();
    for told in all {
        for (doc, token) in &told.lines {
            let there = shelf.read(doc).expect("read").expect("a job");
            let text = String::from_utf8(there.bytes).expect("text");
            assert_eq!(
                text.matches(token.as_str()).count(),
                1,
                "{token} in {doc:?}"
            );
        }
        for (doc, token) in &told.numbers {
            assert!(numbered.insert(doc, token).is_none(), "{doc:?} twice");
            let there = shelf.read(doc).expect("read").expect("a job");
            assert_eq!(there.bytes, token.as_bytes());
        }
        for (called, file) in &told.files {
            let name = crate::common::forms::name(called);
            let there = shelf.attachment(&key("24-0001"), &name).expect("read");
            assert!(there.as_ref() == Some(file), "{called}");
        }
    }
    // Nothing is there that nobody was told of.
    let there = shelf.changes(&Cursor::default()).expect("a list").there;
    let numbers = there
        .iter()
        .filter(|doc| matches!(doc, Doc::Job(key) if key.as_str().starts_with("26-")));
    assert_eq!(numbers.count(), numbered.len());
    let files = shelf.attachments(&key("24-0001")).expect("a list").len();
    assert_eq!(
        files,
        all.iter().map(|told| told.files.len()).sum::<usize>()
    );
}

/// Every version is the one before with a line more, and changes are numbered without a gap.
fn is_whole(cluster: &Cluster, database: &str) {
    let mut client = cluster.client(database, "shop").expect("a line");
    let rows = client
        .query(
            "SELECT change, doc, content FROM quillbore.revision ORDER BY change",
            &[],
        )
        .expect("versions");
    let mut before: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    for (number, row) in (1_i64..).zip(&rows) {
        assert_eq!(row.get::<_, i64>(0), number);
        let (doc, content): (String, Vec<u8>) = (row.get(1), row.get(2));
        let was = before
            .insert(doc.clone(), content.clone())
            .unwrap_or_default();
        assert!(
            content.starts_with(&was) && content.ends_with(b">\n"),
            "{doc}"
        );
        assert_eq!(
            content[was.len()..]
                .iter()
                .filter(|byte| **byte == b'<')
                .count(),
            1,
            "{doc}"
        );
    }
}
