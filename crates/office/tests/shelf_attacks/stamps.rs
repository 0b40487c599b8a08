//! A save is seen by its stamp, whatever the clock of the disk says.

use std::fs::{self, File};
use std::time::Duration;

use quillbore_office::disk::{Disk as _, RealDisk};
use quillbore_office::shelf::Cursor;

use super::place::Place;
use crate::common::forms::{job, put, start};

#[test]
fn every_save_has_a_later_stamp_than_the_one_before() {
    let place = Place::new();
    let desk = place.desk();
    let (doc, path) = (job("26-0101"), place.root().join("26-0101.ron"));
    let stamp = || {
        RealDisk::default()
            .look(&path)
            .expect("a job")
            .stamp
            .changed_ns
    };
    let mut version = start(&desk, &doc, b"0000");
    let hour = Duration::from_secs(3_600);
    for at in 1..20 {
        // Now and then the clock of another desk, or of the disk, is ahead.
        if at % 3 == 0 {
            let file = File::options().write(true).open(&path).expect("the job");
            let now = file.metadata().and_then(|about| about.modified());
            file.set_modified(now.expect("a time") + hour * at)
                .expect("a time");
        }
        let (before, bytes) = (stamp(), format!("{at:04}"));
        version = put(&desk, &doc, bytes.as_bytes(), Some(version)).expect("saved");
        assert!(stamp() > before, "save {at}");
    }
}

/// A file that came by another program, with the very stamp of the one before: its length alone tells
/// it apart, and where that is the same too nobody can know. What the shelf itself writes is told.
#[test]
fn a_save_over_a_file_that_was_copied_with_its_time_is_seen() {
    let place = Place::new();
    let desk = place.desk();
    let (doc, path) = (job("26-0101"), place.root().join("26-0101.ron"));
    start(&desk, &doc, b"aaaa");
    let cursor = desk.changes(&Cursor::default()).expect("a list").cursor;
    let time = fs::metadata(&path).and_then(|about| about.modified());
    fs::write(&path, "bbbb").expect("another program writes");
    let file = File::options().write(true).open(&path).expect("the job");
    file.set_modified(time.expect("a time")).expect("a time");
    let theirs = desk.read(&doc).expect("it can be read").expect("a job");
    put(&desk, &doc, b"cccc", Some(theirs.version)).expect("saved");
    let told = desk.changes(&cursor).expect("a list");
    assert_eq!(told.there, [doc]);
}
