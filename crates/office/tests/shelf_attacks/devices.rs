//! Devices, and what never ends.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;
use std::process::Command;

use quillbore_office::disk::{Disk as _, Kind, RealDisk};
use quillbore_office::shelf::{CommitError, Cursor, ShelfError, Version, Why};

use super::place::{Place, in_time};
use crate::common::forms::{job, key, put};

#[test]
fn a_device_is_neither_read_nor_held_nor_written() {
    let disk = RealDisk::default();
    for device in ["/dev/zero", "/dev/full", "/dev/null", "/dev/tty"] {
        let path = Path::new(device);
        if fs::symlink_metadata(path).is_err() {
            continue;
        }
        in_time(|| {
            assert_eq!(
                disk.look(path).map(|look| look.kind).ok(),
                Some(Kind::Other)
            );
            assert!(disk.read(path, 1_000).is_err(), "{device}");
            assert!(disk.hold_now(path).is_err(), "{device}");
            let taken = disk.write_new(path, b"x").expect_err("it is there");
            assert_eq!(taken.kind(), ErrorKind::AlreadyExists, "{device}");
        });
    }
    // What is longer than it says it is, as files of the system are, is read no further either.
    let endless = Path::new("/proc/self/maps");
    if endless.exists() {
        let large = disk.read(endless, 10).expect_err("it is longer");
        assert_eq!(large.kind(), ErrorKind::FileTooLarge);
    }
}

/// Only some users may make a device; where this one may, it is tried as a job.
#[test]
fn a_device_as_a_job_is_listed_and_refused() {
    let place = Place::new();
    let path = place.root().join("26-0104.ron");
    let made = Command::new("mknod")
        .arg(&path)
        .args(["c", "1", "5"])
        .output();
    if !made.is_ok_and(|made| made.status.success()) {
        return;
    }
    let desk = place.desk();
    in_time(|| {
        let told = desk.changes(&Cursor::default()).expect("a list");
        assert_eq!(told.unusable[0].why, Why::NoFile);
        let read = desk.read(&job("26-0104"));
        assert!(matches!(read, Err(ShelfError::NoFile { .. })), "{read:?}");
        let over = put(&desk, &job("26-0104"), b"x", Some(Version::of(b"")));
        let refused = matches!(over, Err(CommitError::Shelf(ShelfError::NoFile { .. })));
        assert!(refused, "{over:?}");
        drop(desk.hold(&key("26-0104"), "front office"));
    });
    assert!(fs::symlink_metadata(&path).is_ok_and(|about| !about.is_file()));
}
