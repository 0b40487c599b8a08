//! The window's list: what it shows while the shelf is looked at, gone, hanging, written to.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use chrono::NaiveDate;
use quillbore_job::Job;
use quillbore_job::file::write_job;
use quillbore_office::clock::FixedClock;
use quillbore_office::disk::RealDisk;
use quillbore_office::listing::Listing;
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::memory::Fault;
use quillbore_office::shelf::{
    Changes, Commit, CommitError, Committed, Cursor, Doc, Folder, Held, Mark, Memory, Shelf,
    ShelfError, Stored,
};

use crate::jobs::{day, key, names, put, shelf};

fn today() -> NaiveDate {
    day("2026-11-25")
}

fn opened(number: &str, opened: NaiveDate) -> Job {
    Job {
        number: number.to_owned(),
        opened: Some(opened),
        ..Job::default()
    }
}

fn folder(root: &Path) -> Arc<dyn Shelf> {
    Arc::new(Folder::new(Arc::new(RealDisk::default()), root, None))
}

fn write(root: &Path, number: &str) {
    let job = opened(number, today());
    fs::write(root.join(format!("{number}.ron")), write_job(&job)).expect("a job");
}

fn at_once(shelf: Arc<dyn Shelf>, today: NaiveDate) -> Listing {
    Listing::at_once(shelf, Arc::new(FixedClock(today)))
}

/// A list on a thread, and what hears when it wakes the window.
fn on_thread(shelf: Arc<dyn Shelf>, cache: PathBuf) -> (Listing, Receiver<()>) {
    let (wake, woken) = channel();
    let clock = Arc::new(FixedClock(today()));
    let listing = Listing::on_thread(shelf, clock, cache, move || {
        let _ = wake.send(());
    });
    (listing, woken)
}

/// Waits for news as a window does, until a look is done.
fn until_done(listing: &mut Listing, woken: &Receiver<()>) {
    while listing.busy {
        woken.recv().expect("news");
        listing.poll();
    }
}

/// Waits until the thread has ended.
fn until_ended(listing: Listing, woken: &Receiver<()>) {
    drop(listing);
    while woken.recv().is_ok() {}
}

/// A shelf that hangs in its calls as long as somebody holds its gates.
#[derive(Debug, Default)]
struct Gated {
    shelf: Memory,
    marks: Mutex<()>,
    /// What changed is known by then, but not told yet.
    changes: Mutex<()>,
    reads: Mutex<()>,
    reads_begun: AtomicUsize,
}

impl Gated {
    fn new() -> Arc<Self> {
        Arc::new(Self {
            shelf: shelf(1),
            ..Self::default()
        })
    }
}

fn closed(gate: &Mutex<()>) -> MutexGuard<'_, ()> {
    gate.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Shelf for Gated {
    fn place(&self) -> String {
        self.shelf.place()
    }
    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        self.shelf.place_of(job, name)
    }
    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        drop(closed(&self.marks));
        self.shelf.mark()
    }
    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError> {
        self.shelf.adopt(mark)
    }
    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.reads_begun.fetch_add(1, Ordering::SeqCst);
        drop(closed(&self.reads));
        self.shelf.read(doc)
    }
    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.shelf.previous(doc)
    }
    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        let changes = self.shelf.changes(since);
        drop(closed(&self.changes));
        changes
    }
    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        self.shelf.commit(commit)
    }
    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        self.shelf.highest_number(year)
    }
    fn hold(&self, job: &JobKey, by: &str) -> Held {
        self.shelf.hold(job, by)
    }
    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        self.shelf.attachment(job, name)
    }
    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        self.shelf.attachments(job)
    }
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        self.shelf.jobs_with_files()
    }
}

#[test]
fn a_shelf_that_vanished_keeps_its_list_and_says_so() {
    let dir = tempfile::tempdir().expect("a folder");
    write(dir.path(), "26-0107");
    let mut listing = at_once(folder(dir.path()), today());
    assert_eq!((listing.found().len(), listing.notice.as_str()), (1, ""));
    let place = dir.path().display().to_string();
    drop(dir);
    listing.look_again();
    assert_eq!(listing.found().len(), 1);
    let said = &listing.notice;
    assert!(
        said.contains("can't be read") && said.ends_with(&place),
        "{said}"
    );
}

#[test]
fn a_shelf_that_comes_back_is_followed_again() {
    let memory = Arc::new(shelf(1));
    put(memory.as_ref(), &opened("26-0107", today()));
    let mut listing = at_once(Arc::clone(&memory) as Arc<dyn Shelf>, today());
    memory.break_at(memory.calls(), Fault::Gone);
    listing.look_again();
    assert!(
        listing.notice.contains("can't be read"),
        "{}",
        listing.notice
    );
    memory.mend();
    put(memory.as_ref(), &opened("26-0108", today()));
    listing.look_again();
    assert_eq!((listing.found().len(), listing.notice.as_str()), (2, ""));
}

#[test]
fn a_clock_set_back_is_noticed() {
    let memory = Arc::new(shelf(1));
    put(memory.as_ref(), &opened("26-0107", today()));
    let before = today().pred_opt().expect("a day");
    let listing = at_once(Arc::clone(&memory) as Arc<dyn Shelf>, before);
    assert!(listing.notice.contains("clock"), "{}", listing.notice);
    // A job that was saved from here tells it too.
    let mut listing = at_once(memory, today());
    assert_eq!(listing.notice, "");
    let tomorrow = today().succ_opt().expect("a day");
    listing.took(&key("26-0108"), &opened("26-0108", tomorrow));
    assert!(listing.notice.contains("26 Nov 2026"), "{}", listing.notice);
}

#[test]
fn a_scanned_code_a_number_and_a_part_of_a_name_find_the_job() {
    let dir = tempfile::tempdir().expect("a folder");
    write(dir.path(), "26-0107");
    write(dir.path(), "26-0108");
    fs::create_dir(dir.path().join("26-0109.ron")).expect("a folder with a job's name");
    let mut listing = at_once(folder(dir.path()), today());
    for typed in ["26-0107-T1/2", "26-0107-t1/2", "26-0107", "0107"] {
        listing.find = typed.to_owned();
        assert_eq!(listing.meant(), Some(key("26-0107")), "{typed}");
    }
    // A job whose number ends like a paper's is looked up whole first.
    write(dir.path(), "RING");
    write(dir.path(), "RING-B1");
    listing.look_again();
    for (typed, meant) in [("RING-B1", "RING-B1"), ("RING-B2", "RING")] {
        listing.find = typed.to_owned();
        assert_eq!(listing.meant(), Some(key(meant)));
    }
    // What can't be a job is found but never meant.
    listing.find = "26".to_owned();
    assert_eq!(
        (listing.found().len(), listing.meant()),
        (3, Some(key("26-0108")))
    );
    for typed in ["26-0109.ron", "26-0109", "nothing of the kind"] {
        listing.find = typed.to_owned();
        assert_eq!(listing.meant(), None, "{typed}");
    }
}

#[test]
fn a_thread_tells_the_cache_first_and_then_what_is_there() {
    let dir = tempfile::tempdir().expect("a folder");
    write(dir.path(), "26-0107");
    let cache = dir.path().join("cache/shelf.cache");
    for jobs in [1, 2] {
        let (mut listing, woken) = on_thread(folder(dir.path()), cache.clone());
        until_done(&mut listing, &woken);
        assert_eq!(listing.found().len(), jobs);
        write(dir.path(), "26-0108");
        // The thread ends when nobody listens; the cache is whole whenever it is there.
        until_ended(listing, &woken);
    }
    // What was known is listed though the shelf doesn't answer at all.
    let unreachable = folder(&dir.path().join("gone"));
    let (mut listing, woken) = on_thread(unreachable, cache.clone());
    until_done(&mut listing, &woken);
    assert_eq!(names(&listing.index.lines), ["26-0108", "26-0107"]);
    assert!(listing.notice.contains("from before"), "{}", listing.notice);
    until_ended(listing, &woken);
    let beside = fs::read_dir(dir.path().join("cache")).expect("a folder");
    assert_eq!(beside.count(), 1, "nothing is left beside the cache");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = fs::metadata(&cache).expect("a cache").permissions().mode();
        assert_eq!(mode & 0o077, 0, "{mode:o}");
    }
}

#[test]
fn a_cache_of_another_shelf_is_never_listed() {
    let dir = tempfile::tempdir().expect("a folder");
    let cache = dir.path().join("shelf.cache");
    let first = Arc::new(shelf(2));
    put(first.as_ref(), &opened("26-0107", today()));
    let (mut listing, woken) = on_thread(first, cache.clone());
    until_done(&mut listing, &woken);
    until_ended(listing, &woken);
    let second = Gated::new();
    put(second.as_ref(), &opened("26-0108", today()));
    let hangs = closed(&second.changes);
    let (mut listing, woken) = on_thread(Arc::clone(&second) as Arc<dyn Shelf>, cache);
    // By now the shelf was asked twice which one it is, and then what changed.
    while second.shelf.calls() < 5 {
        std::thread::yield_now();
    }
    assert!(woken.try_recv().is_err(), "nothing is told yet");
    drop(hangs);
    until_done(&mut listing, &woken);
    assert_eq!(names(&listing.index.lines), ["26-0108"]);
    until_ended(listing, &woken);
}

/// What was known of a shelf is listed though it hangs from the start.
#[test]
fn a_cache_is_listed_while_its_shelf_hangs() {
    let dir = tempfile::tempdir().expect("a folder");
    let cache = dir.path().join("shelf.cache");
    let gated = Gated::new();
    put(gated.as_ref(), &opened("26-0107", today()));
    for hangs in [false, true] {
        let gate = hangs.then(|| (closed(&gated.marks), closed(&gated.changes)));
        let (mut listing, woken) = on_thread(Arc::clone(&gated) as Arc<dyn Shelf>, cache.clone());
        if hangs {
            woken.recv().expect("news");
            listing.poll();
            assert!(listing.busy);
        } else {
            until_done(&mut listing, &woken);
        }
        assert_eq!(names(&listing.index.lines), ["26-0107"]);
        drop(gate);
        until_ended(listing, &woken);
    }
}

#[test]
fn a_shelf_that_hangs_holds_neither_the_list_nor_the_window() {
    let dir = tempfile::tempdir().expect("a folder");
    let gated = Gated::new();
    put(gated.as_ref(), &opened("26-0107", today()));
    let hangs = closed(&gated.changes);
    let shelf = Arc::clone(&gated) as Arc<dyn Shelf>;
    let (mut listing, woken) = on_thread(shelf, dir.path().join("shelf.cache"));
    listing.took(&key("26-0108"), &opened("26-0108", today()));
    assert_eq!(names(&listing.index.lines), ["26-0108"]);
    listing.poll();
    assert!(listing.busy && listing.found().len() == 1);
    drop(listing);
    // The thread still hangs, and nobody waited for it.
    let none = woken.recv_timeout(Duration::from_millis(20));
    assert_eq!(none, Err(std::sync::mpsc::RecvTimeoutError::Timeout));
    drop(hangs);
    while woken.recv().is_ok() {}
}

#[test]
fn a_look_that_began_before_a_save_does_not_undo_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let gated = Gated::new();
    put(gated.as_ref(), &opened("26-0107", today()));
    let shelf = Arc::clone(&gated) as Arc<dyn Shelf>;
    let (mut listing, woken) = on_thread(shelf, dir.path().join("shelf.cache"));
    until_done(&mut listing, &woken);
    let hangs = closed(&gated.changes);
    let calls = gated.shelf.calls();
    listing.look_again();
    while gated.shelf.calls() < calls + 2 {
        std::thread::yield_now();
    }
    // By now it is found out that nothing changed.
    put(gated.as_ref(), &opened("26-0108", today()));
    let version = listing.version;
    listing.took(&key("26-0108"), &opened("26-0108", today()));
    assert!(listing.version > version);
    assert_eq!(listing.found().len(), 2);
    drop(hangs);
    until_done(&mut listing, &woken);
    assert_eq!(names(&listing.index.lines), ["26-0108", "26-0107"]);
    // The next look starts from what the thread knows.
    listing.look_again();
    until_done(&mut listing, &woken);
    assert_eq!(names(&listing.index.lines), ["26-0108", "26-0107"]);
    until_ended(listing, &woken);
}

#[test]
fn a_window_that_closes_ends_the_reading_and_what_was_read_is_kept() {
    const JOBS: usize = 1_200;
    let dir = tempfile::tempdir().expect("a folder");
    let cache = dir.path().join("shelf.cache");
    let gated = Gated::new();
    for number in 0..JOBS {
        put(&gated.shelf, &opened(&format!("26-{number:04}"), today()));
    }
    let hangs = closed(&gated.reads);
    let shelf = Arc::clone(&gated) as Arc<dyn Shelf>;
    let (listing, woken) = on_thread(Arc::clone(&shelf), cache.clone());
    while gated.reads_begun.load(Ordering::SeqCst) == 0 {
        std::thread::yield_now();
    }
    drop(listing);
    drop(hangs);
    while woken.recv().is_ok() {}
    let read = gated.reads_begun.load(Ordering::SeqCst);
    assert!(read < JOBS, "{read}");
    let (mut listing, woken) = on_thread(shelf, cache);
    until_done(&mut listing, &woken);
    assert_eq!(listing.found().len(), JOBS);
    assert_eq!(gated.reads_begun.load(Ordering::SeqCst), JOBS);
    until_ended(listing, &woken);
}

#[test]
fn many_saves_while_nobody_looks_stay_found() {
    const JOBS: usize = 900;
    let dir = tempfile::tempdir().expect("a folder");
    let gated = Gated::new();
    let shelf = Arc::clone(&gated) as Arc<dyn Shelf>;
    let (mut listing, woken) = on_thread(shelf, dir.path().join("shelf.cache"));
    until_done(&mut listing, &woken);
    for number in 0..JOBS {
        let job = opened(&format!("26-{number:04}"), today());
        listing.took(&key(&job.number), &job);
        listing.poll();
        assert_eq!(listing.index.lines.len(), number + 1);
    }
    // The thread made a new base meanwhile and told it.
    woken.recv_timeout(Duration::from_secs(60)).expect("news");
    listing.poll();
    listing.find = "26-0042".to_owned();
    assert_eq!(listing.found().len(), 1);
    assert_eq!(listing.index.lines.len(), JOBS);
    until_ended(listing, &woken);
}
