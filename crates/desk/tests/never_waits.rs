//! The window's thread never asks the shelf: open, save, issue, reprint, the job before, drafts and
//! list, all of it goes through others.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Arc, Mutex};
use std::thread::{self, ThreadId};
use std::time::Duration;

use chrono::NaiveDate;
use quillbore_desk::desk::{Desk, Errand, Then};
use quillbore_desk::grid::GridAt;
use quillbore_job::{Column, Edit, Field, Paper, Shop, Unit};
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::FixedClock;
use quillbore_office::disk::RealDisk;
use quillbore_office::listing::Listing;
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::{
    Changes, Commit, CommitError, Committed, Cursor, Doc, Held, Mark, Memory, Shelf, ShelfError,
    Stored,
};
use quillbore_office::worker::Worker;
use quillbore_office::{Office, places};
use quillbore_paper::Sheet;

/// A shelf that knows which thread is the window's, and counts what is asked of it there.
#[derive(Debug)]
struct Watched {
    inner: Memory,
    window: ThreadId,
    by_window: AtomicUsize,
    by_others: AtomicUsize,
    asked: Mutex<Vec<&'static str>>,
}

impl Watched {
    fn note(&self, what: &'static str) -> &Memory {
        if thread::current().id() == self.window {
            self.by_window.fetch_add(1, Ordering::SeqCst);
            self.asked.lock().expect("a list").push(what);
        } else {
            self.by_others.fetch_add(1, Ordering::SeqCst);
        }
        &self.inner
    }
}

impl Shelf for Watched {
    fn place(&self) -> String {
        self.inner.place()
    }
    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        self.inner.place_of(job, name)
    }
    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        self.note("mark").mark()
    }
    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError> {
        self.note("adopt").adopt(mark)
    }
    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.note("read").read(doc)
    }
    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.note("previous").previous(doc)
    }
    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        self.note("changes").changes(since)
    }
    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        self.note("commit").commit(commit)
    }
    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        self.note("highest_number").highest_number(year)
    }
    fn hold(&self, job: &JobKey, by: &str) -> Held {
        self.note("hold").hold(job, by)
    }
    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        self.note("attachment").attachment(job, name)
    }
    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        self.note("attachments").attachments(job)
    }
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        self.note("jobs_with_files").jobs_with_files()
    }
}

fn type_in(desk: &mut Desk, field: Field, text: &str) {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    desk.edit(&edit, GridAt::default(), GridAt::default());
}

fn wait(desk: &mut Desk, woken: &Receiver<()>) {
    while desk.is_busy() {
        let news = woken.recv_timeout(Duration::from_secs(120));
        news.expect("the clerk goes on");
        desk.poll();
    }
}

#[test]
fn nothing_that_a_desk_wants_is_asked_of_the_shelf_on_its_own_thread() {
    let shelf = Arc::new(Watched {
        inner: Memory::marked(places::new_mark().expect("a mark")),
        window: thread::current().id(),
        by_window: AtomicUsize::new(0),
        by_others: AtomicUsize::new(0),
        asked: Mutex::default(),
    });
    let office = Arc::new(Office::new(
        shelf.clone(),
        None,
        Arc::new(RealDisk::default()),
        Arc::new(Shop::embedded().expect("the shop").clone()),
    ));
    let (wake, woken) = channel();
    let listed = wake.clone();
    let clerk = Clerk::on_thread(Arc::clone(&office), move || {
        let _ = wake.send(());
    });
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let clock = Arc::new(FixedClock(day));
    let cache = tempfile::tempdir().expect("a folder");
    let mut list = Listing::on_thread(
        shelf.clone(),
        clock.clone(),
        cache.path().join("list.cache"),
        move || {
            let _ = listed.send(());
        },
    );
    let worker = Worker::at_once();
    let mut desk = Desk::new(office, clock, clerk, worker);
    for (field, text) in [
        (Field::Customer, "Grove Pump Works"),
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
        (Field::Again, "25-0388"),
    ] {
        type_in(&mut desk, field, text);
    }
    let cells = ["A", "6", "0.8 +-0.05", "12"].map(|text| Some(text.to_owned()));
    let holes = Edit::SetCells {
        at: quillbore_job::CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![cells.to_vec()],
        unit: Unit::Mm,
    };
    desk.edit(&holes, GridAt::default(), GridAt::default());
    desk.save();
    wait(&mut desk, &woken);
    assert_eq!(desk.job().number, "26-0101", "{}", desk.notice);
    desk.wants(Errand::Issue {
        paper: Paper::Quotation,
        sheet: Sheet::A4,
        others: Vec::new(),
    });
    wait(&mut desk, &woken);
    assert_eq!(desk.job().issued.len(), 1, "{}", desk.notice);
    assert!(!desk.history.is_dirty() && desk.history.undo_label().is_none());
    desk.wants(Errand::Reprint("26-0101-Q1".to_owned(), Then::Tell));
    wait(&mut desk, &woken);
    assert!(desk.notice.contains("As it was issued"), "{}", desk.notice);
    type_in(&mut desk, Field::Notes, "typed");
    desk.wants(Errand::Merge);
    wait(&mut desk, &woken);
    assert!(!desk.history.is_dirty(), "{}", desk.notice);
    list.took(&JobKey::new("26-0101").expect("a name"), desk.job());
    list.look_again();
    while list.busy {
        woken
            .recv_timeout(Duration::from_secs(120))
            .expect("the list goes on");
        list.poll();
    }
    assert_eq!(list.found().len(), 1);
    let asked = shelf.asked.lock().expect("a list").clone();
    assert_eq!(asked, Vec::<&str>::new(), "asked on the window's thread");
    assert!(shelf.by_others.load(Ordering::SeqCst) > 8);
    assert_eq!(shelf.by_window.load(Ordering::SeqCst), 0);
}
