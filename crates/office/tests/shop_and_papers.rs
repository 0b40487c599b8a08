//! No paper rests on a shop that is not the shelf's: another desk changes the shop before a paper is
//! issued, while it is looked at, and at the very moment it is written.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::path::Path;
use std::sync::{Arc, Mutex};

use common::{Clerk, day, inquiry, key, office, office_in_memory, shop, with_a_name};
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopList as List, ShopRowAt as At, apply_shop,
};
use quillbore_job::{Paper, Unit};
use quillbore_office::Office;
use quillbore_office::disk::RealDisk;
use quillbore_office::issue::NotIssued;
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::{
    Changes, Commit, CommitError, Committed, Cursor, Doc, Folder, Held, Mark, Shelf, ShelfError,
    Stored,
};
use quillbore_office::words::issue::not_issued;

/// Another desk puts a rate card of its own on the shelf, in force later than those before.
fn set_labor(office: &Office, per_hour: &str) {
    let base = office.look_at_shop().expect("the sheet");
    let month = base.sheet.own(List::Rates).len() + 1;
    let edit = ShopEdit::SetCells {
        list: List::Rates,
        rows: vec![(
            At::New,
            vec![
                (Column::ValidFrom, format!("2026-{month:02}-01")),
                (Column::LaborHour, per_hour.to_owned()),
            ],
        )],
        unit: Unit::Mm,
    };
    let sheet = apply_shop(&base.sheet, &edit).expect("an edit");
    office
        .save_shop(&base, &with_a_name(&sheet))
        .expect("it is saved");
}

/// The rate of labor that the only issued paper of a job rests on.
fn labor_of(clerk: &Clerk) -> f64 {
    assert_eq!(clerk.job.issued.len(), 1);
    let mut rows = clerk.job.issued[0].rests_on.iter();
    let labor = rows.find(|(row, _)| row == "labor per hour");
    labor.expect("a rate of labor").1
}

fn no_paper(clerk: &Clerk) {
    let names = clerk.office.shelf.attachments(&key(clerk.number()));
    assert_eq!(names.expect("the names"), []);
    let stored = Clerk::opening(&clerk.office, clerk.number());
    assert!(stored.job.issued.is_empty());
}

/// One desk's window knows the shop as it was; another one changes it; the first issues.
fn refused_then_right(ours: &Arc<Office>, theirs: &Office) {
    let mut clerk = inquiry(ours);
    clerk.save().expect("saved");
    ours.look_at_shop().expect("the sheet");
    set_labor(theirs, "133");
    let not = clerk.try_issue(Paper::Quotation).expect_err("another shop");
    assert!(
        matches!(not, NotIssued::ShopChanged { numbered: None }),
        "{not:?}"
    );
    assert!(not_issued(&not).contains("another desk changed the shop"));
    no_paper(&clerk);
    // The office goes by what stands there now, and so does the paper.
    assert_eq!(ours.shop_on(day()).tables.rates.labor_per_hour, 133.0);
    clerk.issue(Paper::Quotation);
    assert_eq!(labor_of(&clerk), 133.0);
}

#[test]
fn a_paper_is_refused_once_after_another_desk_changed_the_shop_and_then_goes_by_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let ours = office(folder.path());
    refused_then_right(&ours, &again(folder.path()));
    // Also where there was a sheet before.
    let folder = tempfile::tempdir().expect("a folder");
    let ours = office(folder.path());
    set_labor(&ours, "99");
    refused_then_right(&ours, &again(folder.path()));
}

/// Another desk at the same folder.
fn again(root: &Path) -> Office {
    let disk = Arc::new(RealDisk::default());
    let shelf = Arc::new(Folder::new(disk.clone(), root, None));
    Office::over(shelf, disk, Arc::new(shop()))
}

#[test]
fn figures_that_somebody_saw_by_an_older_shop_are_not_issued_by_a_newer_one() {
    let (office, _) = office_in_memory();
    let mut clerk = inquiry(&office);
    clerk.save().expect("saved");
    let seen = clerk.to_issue(Paper::Quotation);
    // The program looked meanwhile, the eyes did not.
    set_labor(&office, "133");
    let not = office.issue(&seen).expect_err("seen by the older one");
    assert!(matches!(not, NotIssued::ShopChanged { .. }), "{not:?}");
    no_paper(&clerk);
    clerk.issue(Paper::Quotation);
    assert_eq!(labor_of(&clerk), 133.0);
}

#[test]
fn a_named_shop_is_issued_by_whatever_the_shelf_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let named = Arc::new(again(folder.path()).with_named_shop());
    let other = office(folder.path());
    let mut clerk = inquiry(&named);
    clerk.save().expect("saved");
    set_labor(&other, "133");
    clerk.issue(Paper::Quotation);
    assert_eq!(labor_of(&clerk), shop().tables.rates.labor_per_hour);
}

type Deed = Box<dyn FnOnce() + Send>;

/// A shelf at which another desk does something once, just before something is written.
struct Interrupted {
    inner: Arc<dyn Shelf>,
    before: Mutex<Option<Deed>>,
}

impl std::fmt::Debug for Interrupted {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.inner.fmt(f)
    }
}

impl Shelf for Interrupted {
    fn place(&self) -> String {
        self.inner.place()
    }
    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        self.inner.place_of(job, name)
    }
    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        self.inner.mark()
    }
    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError> {
        self.inner.adopt(mark)
    }
    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.inner.read(doc)
    }
    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.inner.previous(doc)
    }
    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        self.inner.changes(since)
    }
    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        let before = self.before.lock().expect("nobody panics here").take();
        if let Some(deed) = before {
            deed();
        }
        self.inner.commit(commit)
    }
    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        self.inner.highest_number(year)
    }
    fn hold(&self, job: &JobKey, by: &str) -> Held {
        self.inner.hold(job, by)
    }
    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        self.inner.attachment(job, name)
    }
    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        self.inner.attachments(job)
    }
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        self.inner.jobs_with_files()
    }
}

/// The shop is changed between the look at it and the writing of the paper.
fn changed_at_the_last_moment(inner: Arc<dyn Shelf>) {
    let disk = Arc::new(RealDisk::default());
    let other = Arc::new(Office::new(
        Arc::clone(&inner),
        None,
        disk.clone(),
        Arc::new(shop()),
    ));
    set_labor(&other, "99");
    let shelf = Arc::new(Interrupted {
        inner,
        before: Mutex::new(None),
    });
    let ours = Arc::new(Office::new(shelf.clone(), None, disk, Arc::new(shop())));
    ours.look_at_shop().expect("the sheet");
    let mut clerk = inquiry(&ours);
    clerk.save().expect("saved");
    let deed: Deed = Box::new(move || set_labor(&other, "133"));
    *shelf.before.lock().expect("nobody panics here") = Some(deed);
    let not = clerk.try_issue(Paper::Quotation).expect_err("another shop");
    assert!(
        matches!(not, NotIssued::ShopChanged { numbered: None }),
        "{not:?}"
    );
    no_paper(&clerk);
    clerk.issue(Paper::Quotation);
    assert_eq!(labor_of(&clerk), 133.0);
}

#[test]
fn the_shop_is_compared_where_the_paper_is_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let on_disk = Arc::clone(&office(folder.path()).shelf);
    changed_at_the_last_moment(on_disk);
    changed_at_the_last_moment(Arc::clone(&office_in_memory().0.shelf));
}

#[test]
fn issuing_leaves_the_shop_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let ours = office(folder.path());
    set_labor(&ours, "99");
    let path = folder.path().join("shop.ron");
    // Somebody's own notes in it stay, and so does its time.
    let mut text = std::fs::read_to_string(&path).expect("the sheet");
    text.push_str("// by hand\n");
    std::fs::write(&path, &text).expect("written");
    ours.look_at_shop().expect("the sheet");
    let changed = |path: &Path| {
        std::fs::metadata(path)
            .expect("a file")
            .modified()
            .expect("a time")
    };
    let before = changed(&path);
    inquiry(&ours).issue(Paper::Quotation);
    assert_eq!(changed(&path), before);
    assert_eq!(std::fs::read_to_string(&path).expect("the sheet"), text);
}
