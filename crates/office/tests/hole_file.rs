//! Customers' files as the office reads them: how far, stopped, known again, refused.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::cell::RefCell;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use chrono::NaiveDate;
use quillbore_job::{Job, RowsAt, Unit, apply, reorder};
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::hole_file::{
    HoleFile, Holes, NotRead, Readers, Since, may_have_holes, read, since,
};

fn corpus(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../tests")
        .join(path)
}

fn disk() -> Arc<dyn Disk> {
    Arc::new(RealDisk::default())
}

fn read_at(path: &Path) -> HoleFile {
    read(disk().as_ref(), path, &|_| false).expect("a file with holes")
}

fn with_rows_of(job: &Job, path: &Path) -> Job {
    let taken = read_at(path).take(job, RowsAt::Append, Unit::Mm);
    apply(job, &taken.expect("rows").edit).expect("an edit").0
}

#[test]
fn how_far_a_solid_is_rises_and_it_stops_when_told() {
    let path = corpus("step-corpus/manifold-a.step");
    let heard = RefCell::new(Vec::new());
    let watch = |done: f64| {
        heard.borrow_mut().push(done);
        false
    };
    let file = read(disk().as_ref(), &path, &watch).expect("a solid");
    assert!(matches!(file.holes, Holes::Drawn(_)));
    let heard = heard.into_inner();
    assert!(heard.len() > 3, "{heard:?}");
    assert!(heard.is_sorted(), "{heard:?}");
    assert!(heard.iter().all(|done| (0.0..=1.0).contains(done)));
    let stopped = read(disk().as_ref(), &path, &|_| true);
    assert_eq!(stopped, Err(NotRead::Stopped));
}

#[test]
fn a_file_is_known_by_name_and_content_and_a_reorder_knows_it_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("ring.csv");
    fs::write(&file, "mark;qty;size;depth\nA;36;0.8;14\n").expect("written");
    let empty = Job::default();
    let first = read_at(&file);
    assert_eq!(since(&empty, first.source()), Since::First);
    let job = with_rows_of(&empty, &file);
    assert_eq!(
        since(&job, first.source()),
        Since::Same("ring.csv".to_owned())
    );
    // The same content under another name.
    let copy = folder.path().join("ring rev B.csv");
    fs::copy(&file, &copy).expect("copied");
    assert_eq!(
        since(&job, read_at(&copy).source()),
        Since::Same("ring.csv".to_owned())
    );
    // Another content under the same name, told by what it was.
    let was = first
        .source()
        .file()
        .and_then(|file| file.stamp)
        .expect("a stamp");
    assert_eq!(was.bytes, 32);
    fs::write(&file, "mark;qty;size;depth\nA;34;0.8;14\n").expect("written");
    assert_eq!(since(&job, read_at(&file).source()), Since::Changed(was));
    let other = folder.path().join("plate.csv");
    fs::write(&other, "mark;qty;size;depth\nA;1;3;4\n").expect("written");
    assert_eq!(
        since(&job, read_at(&other).source()),
        Since::Another("ring.csv".to_owned())
    );
    // The job is done again a year later.
    let day = NaiveDate::from_ymd_opt(2027, 11, 25).expect("a day");
    let again = reorder::again(&job, day);
    assert_eq!(since(&again, read_at(&file).source()), Since::Changed(was));
}

#[test]
fn a_reader_on_a_thread_tells_what_it_read_and_wakes() {
    let (wake, woken) = std::sync::mpsc::channel();
    let readers = Readers::on_threads(disk(), move || {
        // Nobody listens any more once the test is over.
        let _ = wake.send(());
    });
    let reading = readers.read(corpus("workbook-corpus/plain.xlsx"));
    let found = loop {
        woken
            .recv_timeout(Duration::from_secs(60))
            .expect("it wakes");
        if let Some(found) = reading.take() {
            break found;
        }
    };
    assert!(matches!(found.expect("a table").holes, Holes::Table(_)));
    let missing = readers.read(corpus("workbook-corpus/none.xlsx"));
    woken
        .recv_timeout(Duration::from_secs(60))
        .expect("it wakes");
    match missing.take() {
        Some(Err(NotRead::Failed(failure))) => assert!(failure.to_string().contains("none.xlsx")),
        other => panic!("{other:?}"),
    }
    let painting = readers.paint(corpus("pdf-corpus/lab-metric.pdf"), 0, 100_000);
    let page = loop {
        woken
            .recv_timeout(Duration::from_secs(60))
            .expect("it wakes");
        if let Some(page) = painting.take() {
            break page.expect("a page");
        }
    };
    assert!(page.width * page.height <= 100_000 && page.width > page.height);
    let no_page = readers.paint(corpus("pdf-corpus/lab-metric.pdf"), 7, 100_000);
    woken
        .recv_timeout(Duration::from_secs(60))
        .expect("it wakes");
    assert!(matches!(no_page.take(), Some(Err(Some(_)))));
}

#[test]
fn endings_tell_which_files_may_have_holes() {
    for name in [
        "a.csv", "A.XLSX", "b.ods", "c.DXF", "d.stp", "e.step", "f.pdf",
    ] {
        assert!(may_have_holes(Path::new(name)), "{name}");
    }
    for name in ["mail.eml", "photo.jpg", "step", "26-0101.ron"] {
        assert!(!may_have_holes(Path::new(name)), "{name}");
    }
}

#[test]
fn a_file_larger_than_any_is_refused_before_it_is_read() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("huge.step");
    let file = fs::File::create(&path).expect("created");
    file.set_len(100_000_000).expect("as large");
    match read(disk().as_ref(), &path, &|_| false) {
        Err(NotRead::Failed(failure)) => {
            let said = failure.to_string();
            assert!(
                said.contains("larger than 64 MB") && said.contains("huge.step"),
                "{said}"
            );
        }
        other => panic!("{other:?}"),
    }
}
