//! Following a shelf: what is read, what is listed, what a cache keeps.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use quillbore_job::file::{FORMAT, write_job};
use quillbore_job::{Field, Line, SlipKind};
use quillbore_office::digest::{Follower, Index, OpenMatter, ShelfLine};
use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::folder::MARK_FILE;
use quillbore_office::shelf::memory::Fault;
use quillbore_office::shelf::{Doc, Folder, Mark, Shelf, ShelfError};

use crate::jobs::{find, job, key, look, names, put, put_bytes, shelf, with_quotation, with_slip};

fn folder(root: &Path) -> Folder {
    Folder::new(Arc::new(RealDisk::default()), root, None)
}

fn write(root: &Path, number: &str, customer: &str) {
    let job = job(number, &[(Field::Customer, customer)]);
    fs::write(root.join(format!("{number}.ron")), write_job(&job)).expect("a job's file");
}

fn again(follower: &mut Follower) -> Follower {
    Follower::from_cache(&follower.to_cache()).expect("a cache of this version")
}

fn customer(follower: &Follower, number: &str) -> String {
    let lines = follower.lines();
    let line = lines.iter().find(|line| line.name == number);
    let says = &line.expect("a line").says;
    says.as_ref().expect("a job").summary.customer.clone()
}

fn sentence(follower: &Follower, name: &str) -> String {
    let lines = follower.lines();
    let line = lines.iter().find(|line| line.name == name).expect("a line");
    line.says.clone().expect_err("nothing that can be read")
}

#[test]
fn only_what_changed_is_read_again_and_what_cannot_be_read_stays_listed() {
    let dir = tempfile::tempdir().expect("a folder");
    let root = dir.path();
    write(root, "26-0101", "Alder");
    write(root, "26-0102", "Finch");
    fs::write(root.join("26-0103.ron"), "no job").expect("written");
    fs::write(root.join("letter.txt"), "not ours").expect("written");
    fs::create_dir(root.join("26-0104.ron")).expect("a folder with a job's name");
    let shelf = folder(root);
    let mut follower = Follower::default();
    let looked = look(&mut follower, &shelf);
    assert_eq!((follower.len(), looked.read, looked.done), (4, 3, true));
    let broken = sentence(&follower, "26-0103");
    assert!(
        broken.contains("format number") && broken.contains("Choose"),
        "{broken}"
    );
    assert!(sentence(&follower, "26-0104.ron").contains("remove it"));
    let unusable = follower
        .lines()
        .into_iter()
        .find(|line| line.name == "26-0104.ron");
    assert_eq!(unusable.expect("a line").job, None);

    let mut kept = again(&mut follower);
    assert_eq!(kept.lines(), follower.lines());
    write(root, "26-0102", "Finch & Daughters");
    assert_eq!(look(&mut kept, &shelf).read, 1);
    assert_eq!((kept.len(), look(&mut kept, &shelf).read), (4, 0));
    assert_eq!(find(&Index::new(kept.lines()), "daughters").len(), 1);
    fs::remove_file(root.join("26-0101.ron")).expect("taken away");
    fs::remove_dir(root.join("26-0104.ron")).expect("taken away");
    assert_eq!(look(&mut kept, &shelf).read, 0);
    assert_eq!(names(&kept.lines()), ["26-0103", "26-0102"]);
    drop(dir);
    assert!(kept.look(&shelf, &mut |_| true).is_err());
    assert_eq!(kept.len(), 2);
}

#[test]
fn a_cache_of_another_version_or_a_damaged_one_is_none() {
    let shelf = shelf(1);
    put(&shelf, &job("26-0101", &[]));
    put_bytes(&shelf, "26-0102", b"no job");
    let mut follower = Follower::default();
    look(&mut follower, &shelf);
    assert!(follower.has_news());
    let bytes = follower.to_cache();
    assert!(!follower.has_news());
    assert!(Follower::from_cache(&bytes).is_some());
    for end in 0..bytes.len() {
        assert!(Follower::from_cache(&bytes[..end]).is_none(), "{end} bytes");
    }
    // What a program of another format couldn't read, this one perhaps can.
    for (this, other) in [
        (format!("\"format\":{FORMAT}"), "\"format\":1"),
        ("\"version\":9".to_owned(), "\"version\":8"),
        ("26-0101".to_owned(), "26/0101"),
    ] {
        let text = String::from_utf8_lossy(&bytes).replacen(&this, other, 1);
        assert!(Follower::from_cache(text.as_bytes()).is_none(), "{this}");
    }
    assert!(Follower::from_cache(b"{\"version\":1").is_none());
}

#[test]
fn a_look_that_is_stopped_goes_on_where_it_was_also_after_a_new_start() {
    const JOBS: usize = 1_200;
    let shelf = shelf(1);
    for number in 0..JOBS {
        put(&shelf, &job(&format!("26-{number:04}"), &[]));
    }
    let mut follower = Follower::default();
    let looked = follower.look(&shelf, &mut |_| false).expect("a shelf");
    assert_eq!((looked.read, looked.done, follower.len()), (0, false, 0));
    let mut heard = Vec::new();
    let looked = follower.look(&shelf, &mut |so_far| {
        heard.push(so_far.len());
        heard.len() < 2
    });
    let looked = looked.expect("a shelf");
    assert_eq!((looked.read, looked.done), (500, false));
    assert_eq!(heard, [0, 500]);
    // The newest are read first.
    assert_eq!(follower.lines()[0].name, "26-1199");
    let mut follower = again(&mut follower);
    let looked = look(&mut follower, &shelf);
    assert_eq!(
        (looked.read, looked.done, follower.len()),
        (700, true, JOBS)
    );
}

#[test]
fn what_could_not_be_read_is_tried_again_and_what_is_no_job_is_not() {
    let shelf = shelf(1);
    put(&shelf, &job("26-0101", &[(Field::Customer, "Alder")]));
    put_bytes(&shelf, "26-0100", b"no job");
    let mut follower = Follower::default();
    for _ in 0..2 {
        // A look asks for the mark and for what changed; then the newest job is read.
        shelf.break_at(shelf.calls() + 2, Fault::Refused);
        look(&mut follower, &shelf);
        let said = sentence(&follower, "26-0101");
        assert!(
            said.contains("fails here") && said.contains("tried again"),
            "{said}"
        );
        assert!(sentence(&follower, "26-0100").contains("format number"));
        follower = again(&mut follower);
    }
    assert_eq!(look(&mut follower, &shelf).read, 1);
    assert_eq!(customer(&follower, "26-0101"), "Alder");
    assert_eq!(look(&mut follower, &shelf).read, 0);
    assert!(sentence(&follower, "26-0100").contains("format number"));
    put(&shelf, &job("26-0100", &[(Field::Customer, "Moss")]));
    look(&mut follower, &shelf);
    assert_eq!(customer(&follower, "26-0100"), "Moss");
    // Of what was taken away nothing is left to be tried.
    put(&shelf, &job("26-0101", &[(Field::Customer, "Finch")]));
    shelf.break_at(shelf.calls() + 2, Fault::Refused);
    look(&mut follower, &shelf);
    shelf.take_away(&Doc::Job(key("26-0101")));
    assert_eq!(look(&mut follower, &shelf).read, 0);
}

#[test]
fn a_shelf_that_goes_away_during_a_look_leaves_the_list_as_it_was() {
    let shelf = shelf(1);
    for number in ["26-0101", "26-0102", "26-0103"] {
        put(&shelf, &job(number, &[(Field::Customer, "before")]));
    }
    let mut follower = Follower::default();
    look(&mut follower, &shelf);
    for number in ["26-0101", "26-0102", "26-0103"] {
        put(&shelf, &job(number, &[(Field::Customer, "after")]));
    }
    shelf.break_at(shelf.calls() + 3, Fault::Gone);
    let gone = follower.look(&shelf, &mut |_| true);
    assert!(matches!(gone, Err(ShelfError::Vanished { .. })), "{gone:?}");
    let now = ["26-0103", "26-0102", "26-0101"].map(|number| customer(&follower, number));
    assert_eq!(now, ["after", "before", "before"]);
    shelf.mend();
    assert_eq!(look(&mut follower, &shelf).read, 2);
    assert_eq!(customer(&follower, "26-0101"), "after");
}

/// A share whose mount point is empty all of a sudden answers every call, with nothing in it.
#[test]
fn an_empty_mount_point_takes_no_job_off_the_list() {
    let dir = tempfile::tempdir().expect("a folder");
    let root = dir.path();
    let shelf = folder(root);
    shelf.adopt(&Mark::of([7; 16])).expect("a mark");
    write(root, "26-0101", "Alder");
    write(root, "26-0102", "Finch");
    let mut follower = Follower::default();
    look(&mut follower, &shelf);
    write(root, "26-0102", "Finch & Daughters");
    let away = |root: &Path| {
        for name in ["26-0101.ron", "26-0102.ron", MARK_FILE] {
            fs::remove_file(root.join(name)).expect("taken away");
        }
        true
    };
    // In the middle of a look, between what changed and the reading of it.
    let gone = follower.look(&shelf, &mut |_| away(root));
    assert!(matches!(gone, Err(ShelfError::Vanished { .. })), "{gone:?}");
    assert_eq!(names(&follower.lines()), ["26-0102", "26-0101"]);
    // At the beginning of one; a program that was just started doesn't know the mark by itself.
    let mut follower = again(&mut follower);
    let gone = follower.look(&folder(root), &mut |_| true);
    assert!(matches!(gone, Err(ShelfError::Vanished { .. })), "{gone:?}");
    assert_eq!(names(&follower.lines()), ["26-0102", "26-0101"]);
}

#[test]
fn a_job_that_was_away_for_a_moment_comes_back_though_nothing_tells_it_from_before() {
    let dir = tempfile::tempdir().expect("a folder");
    let (root, elsewhere) = (dir.path(), tempfile::tempdir().expect("a folder"));
    write(root, "26-0101", "Alder");
    let shelf = folder(root);
    let (here, there) = (
        root.join("26-0101.ron"),
        elsewhere.path().join("26-0101.ron"),
    );
    let mut follower = Follower::default();
    let looked = follower.look(&shelf, &mut |_| fs::rename(&here, &there).is_ok());
    assert_eq!((looked.expect("a shelf").read, follower.len()), (1, 0));
    fs::rename(&there, &here).expect("put back");
    look(&mut follower, &shelf);
    assert_eq!(names(&follower.lines()), ["26-0101"]);
}

#[test]
fn a_saved_job_is_listed_without_reading_and_what_another_desk_saved_since_is_read() {
    let shelf = shelf(1);
    let of = |customer| job("26-0101", &[(Field::Customer, customer)]);
    put(&shelf, &of("first"));
    let mut follower = Follower::default();
    look(&mut follower, &shelf);
    put(&shelf, &of("ours"));
    let calls = shelf.calls();
    let line = follower.took(&key("26-0101"), &of("ours"));
    assert_eq!(*line, ShelfLine::of(&key("26-0101"), &of("ours")));
    assert_eq!(
        (customer(&follower, "26-0101").as_str(), shelf.calls()),
        ("ours", calls)
    );
    assert_eq!(look(&mut follower, &shelf).read, 1);
    assert_eq!(look(&mut follower, &shelf).read, 0);
    // Another desk's save is read before this one hears of its own, older one.
    put(&shelf, &of("ours again"));
    put(&shelf, &of("theirs"));
    look(&mut follower, &shelf);
    follower.took(&key("26-0101"), &of("ours again"));
    let mut follower = again(&mut follower);
    look(&mut follower, &shelf);
    assert_eq!(customer(&follower, "26-0101"), "theirs");
    // A job that was taken away before anybody looked.
    put(&shelf, &job("26-0102", &[]));
    follower.took(&key("26-0102"), &job("26-0102", &[]));
    shelf.take_away(&Doc::Job(key("26-0102")));
    look(&mut follower, &shelf);
    assert_eq!(names(&follower.lines()), ["26-0101"]);
}

#[test]
fn nothing_of_another_shelf_stays_known() {
    let (first, second) = (shelf(1), shelf(2));
    for number in ["26-0101", "26-0102"] {
        put(&first, &job(number, &[(Field::Customer, "first")]));
    }
    for number in ["26-0102", "26-0103"] {
        put(&second, &job(number, &[(Field::Customer, "second")]));
    }
    let mut follower = Follower::default();
    look(&mut follower, &first);
    let mut follower = again(&mut follower);
    assert_eq!(look(&mut follower, &second).read, 2);
    assert_eq!(names(&follower.lines()), ["26-0103", "26-0102"]);
    assert_eq!(customer(&follower, "26-0102"), "second");
}

#[test]
fn a_folder_that_is_made_a_shelf_stays_listed_while_it_is_read_anew() {
    let dir = tempfile::tempdir().expect("a folder");
    let root = dir.path();
    write(root, "26-0101", "Alder");
    write(root, "26-0102", "Finch");
    let shelf = folder(root);
    let mut follower = Follower::default();
    look(&mut follower, &shelf);
    shelf.adopt(&Mark::of([7; 16])).expect("a mark");
    fs::remove_file(root.join("26-0101.ron")).expect("taken away");
    let mut heard = Vec::new();
    let looked = follower.look(&shelf, &mut |so_far| {
        heard.push(so_far.len());
        true
    });
    assert_eq!((looked.expect("a shelf").read, heard), (1, vec![1]));
    assert_eq!(names(&follower.lines()), ["26-0102"]);
}

/// What differs in an order is kept as what it is, and is worded when somebody looks at it.
#[test]
fn a_cache_keeps_every_kind_of_difference() {
    let shelf = shelf(1);
    for (number, line, text) in [
        ("26-0101", Line::Each, "1250.5"),
        ("26-0102", Line::Due, "2026-12-01"),
        ("26-0103", Line::Terms, "90 days net"),
        ("26-0104", Line::Revision, "D"),
        ("26-0105", Line::Quantity, "7"),
        ("26-0106", Line::Paper, "26-9999-Q1"),
    ] {
        let fields = [(Field::Quantity, "25"), (Field::Due, "2026-12-18")];
        let issued = format!("{number}-Q1");
        let quoted = with_quotation(&job(number, &fields), &issued, None, &[number]);
        let order = [(Line::Date, "2026-11-24"), (line, text)];
        put(&shelf, &with_slip(&quoted, SlipKind::Order, &order));
    }
    let mut follower = Follower::default();
    look(&mut follower, &shelf);
    let lines = follower.lines();
    let differs = |line: &Arc<ShelfLine>| {
        let says = line.says.as_ref().expect("a job");
        let mut open = says.open.iter();
        open.any(|open| matches!(open, OpenMatter::OrderDiffers { .. }))
    };
    assert!(lines.iter().filter(|line| differs(line)).count() >= 5);
    assert_eq!(again(&mut follower).lines(), lines);
}
