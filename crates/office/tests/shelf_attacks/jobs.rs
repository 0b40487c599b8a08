//! Where a job should be, there is something else.

use std::ffi::OsStr;
use std::fs;
use std::os::unix::ffi::OsStrExt as _;

use quillbore_office::shelf::{CommitError, Cursor, Held, ShelfError, Unusable, Version, Why};

use super::place::{Place, Trap, in_time};
use crate::common::forms::{job, key, put, start};

#[test]
fn a_job_that_is_no_plain_file_is_listed_with_its_reason_and_neither_read_nor_written() {
    for trap in Trap::ALL {
        let place = Place::new();
        let path = place.root().join("26-0104.ron");
        trap.set(&place, &path);
        let before = place.snapshot();
        in_time(|| {
            let (desk, doc) = (place.desk(), job("26-0104"));
            let told = desk.changes(&Cursor::default()).expect("a list");
            let why = match trap {
                Trap::Folder => Why::Folder,
                Trap::Pipe | Trap::Socket => Why::NoFile,
                _ => Why::Link,
            };
            let name = "26-0104.ron".to_owned();
            assert_eq!((told.there, told.gone), (vec![], vec![]));
            assert_eq!(told.unusable, [Unusable { name, why }]);
            let refused = |error: &ShelfError| {
                let link = matches!(error, ShelfError::Link { .. });
                let no_file = matches!(error, ShelfError::NoFile { .. });
                assert_eq!(
                    (link, no_file),
                    (trap.is_link(), !trap.is_link()),
                    "{error:?}"
                );
            };
            refused(&desk.read(&doc).expect_err("it is none"));
            for content in ["private", "", "new"] {
                let over = put(&desk, &doc, b"new", Some(Version::of(content.as_bytes())));
                let Err(CommitError::Shelf(error)) = over else {
                    panic!("{trap:?}: {over:?}");
                };
                refused(&error);
            }
            let new = put(&desk, &doc, b"new", None);
            assert_eq!(new, Err(CommitError::Taken(doc.clone())));
            // Its number is not given out again.
            assert_eq!(desk.highest_number(26), Ok(Some(104)));
            let held = desk.hold(&key("26-0104"), "front office");
            assert!(matches!(held, Held::Here(_)));
        });
        assert!(trap.stands(&path), "{trap:?}");
        assert_eq!(place.snapshot(), before, "{trap:?}");
        trap.take(&path);
        start(&place.desk(), &job("26-0104"), b"a job");
    }
}

#[test]
fn a_name_that_no_job_can_have_is_listed_with_its_reason() {
    let place = Place::new();
    let latin = OsStr::from_bytes(b"S\xf6hne.ron");
    for name in [
        OsStr::new("26-0101.RON"),
        OsStr::new("26-0102.Ron"),
        OsStr::new("con.ron"),
        OsStr::new("Shop.ron"),
        OsStr::new("26-0103 .ron"),
        OsStr::new("what?.ron"),
        latin,
        OsStr::new("letter.txt"),
        OsStr::new(".hidden.ron"),
    ] {
        fs::write(place.root().join(name), "a file").expect("a file");
    }
    start(&place.desk(), &job("26-0104"), b"a job");
    let told = place.desk().changes(&Cursor::default()).expect("a list");
    assert_eq!(told.there, [job("26-0104")]);
    let unusable = |name: &str, why| Unusable {
        name: name.to_owned(),
        why,
    };
    let mut must = vec![
        unusable("26-0101.RON", Why::Ending),
        unusable("26-0102.Ron", Why::Ending),
        unusable("26-0103 .ron", Why::Name),
        unusable("S\u{fffd}hne.ron", Why::NoText),
        unusable("Shop.ron", Why::Name),
        unusable("con.ron", Why::Name),
        unusable("what?.ron", Why::Name),
    ];
    must.sort();
    assert_eq!(told.unusable, must);
    // All of it each time, since nothing else keeps it listed.
    let again = place.desk().changes(&told.cursor).expect("a list");
    assert_eq!((again.there, again.unusable), (vec![], must));
}

/// A file that has a second name outside: the name on the shelf gets another file, the file outside
/// stays what it is.
#[test]
fn a_file_with_a_second_name_outside_is_not_written_through() {
    let place = Place::new();
    let desk = place.desk();
    for at in ["26-0101.ron", "26-0101.files/previous.ron"] {
        let path = place.root().join(at);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::hard_link(place.outside().join("letter.txt"), &path).expect("a second name");
    }
    for lock in ["saving.lock", "open.lock", "open-at.txt"] {
        let path = place.root().join("26-0101.files").join(lock);
        fs::hard_link(place.outside().join("empty.txt"), &path).expect("a second name");
    }
    let before = place.snapshot();
    let doc = job("26-0101");
    put(&desk, &doc, b"new", Some(Version::of(b"private"))).expect("saved");
    let held = desk.hold(&key("26-0101"), "front office");
    assert!(matches!(held, Held::Here(_)), "{held:?}");
    drop(held);
    assert_eq!(place.snapshot(), before);
}
