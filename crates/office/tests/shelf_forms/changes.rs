//! What is other since somebody looked last.

use std::sync::Arc;

use quillbore_office::disk::Stamp;
use quillbore_office::shelf::{Changes, Cursor, Doc, Shelf, Version};

use crate::common::forms::{Form, content, each, file_of, job, put, start};
use crate::common::memory_disk::Node;

fn changes(desk: &Arc<dyn Shelf>, since: &Cursor) -> Changes {
    let changes = desk.changes(since).expect("a list");
    assert_eq!(changes.unusable, []);
    changes
}

fn first(desk: &Arc<dyn Shelf>) -> Changes {
    changes(desk, &Cursor::default())
}

#[test]
fn the_first_cursor_names_every_document_and_a_later_one_what_is_other_since() {
    each(|form| {
        let nothing = first(&form.desks[0]);
        assert_eq!(
            (nothing.there, nothing.gone, nothing.all),
            (vec![], vec![], true)
        );
        let mut cursor = nothing.cursor;
        let mut docs = form.docs.clone();
        docs.sort();
        for (at, doc) in docs.iter().enumerate() {
            let version = start(&form.desks[0], doc, b"1");
            let told = changes(&form.desks[1], &cursor);
            assert_eq!((told.there, told.gone), (vec![doc.clone()], vec![]));
            // The cursor of one desk is as good for another.
            put(&form.desks[0], doc, b"2", Some(version)).expect("saved");
            let told = changes(&form.desks[2], &told.cursor);
            assert_eq!(
                (told.there, told.gone, told.all),
                (vec![doc.clone()], vec![], false)
            );
            cursor = told.cursor;
            let all = first(&form.desks[2]);
            assert_eq!(
                (all.there, all.gone, all.all),
                (docs[..=at].to_vec(), vec![], true)
            );
        }
        let quiet = changes(&form.desks[0], &cursor);
        assert_eq!((quiet.there, quiet.gone), (vec![], vec![]));
        for doc in &docs {
            (form.take_away)(doc);
            let told = changes(&form.desks[1], &cursor);
            assert_eq!(
                (told.there, told.gone, told.all),
                (vec![], vec![doc.clone()], told.all)
            );
            cursor = told.cursor;
        }
        let nothing = first(&form.desks[0]);
        assert_eq!((nothing.there, nothing.gone), (vec![], vec![]));
    });
}

/// Two saves of the same length, one right after the other, with a look between them.
#[test]
fn no_save_is_missed_however_fast_it_follows() {
    each(|form| {
        let doc = &form.docs[0];
        let mut version = start(&form.desks[0], doc, b"0000");
        let mut cursor = first(&form.desks[1]).cursor;
        for at in 1..if form.slow { 40 } else { 200 } {
            let bytes = format!("{at:04}");
            version = put(&form.desks[0], doc, bytes.as_bytes(), Some(version)).expect("saved");
            let told = changes(&form.desks[1], &cursor);
            assert_eq!(told.there, std::slice::from_ref(&doc), "save {at}");
            cursor = told.cursor;
        }
    });
}

#[test]
fn a_cursor_that_was_damaged_never_hides_anything() {
    each(|form| {
        let versions: Vec<Version> = form
            .docs
            .iter()
            .map(|doc| start(&form.desks[0], doc, b"1"))
            .collect();
        let cursor = first(&form.desks[1]).cursor;
        // One is gone, one is changed; with a single document it is changed alone.
        let (changed, gone) = (form.docs.first(), form.docs.get(1));
        let changed = changed.expect("a document");
        put(&form.desks[0], changed, b"2", Some(versions[0])).expect("saved");
        gone.into_iter().for_each(|doc| (form.take_away)(doc));
        let covers = |told: &Changes| {
            assert!(told.there.contains(changed));
            assert!(told.all || gone.is_none_or(|gone| told.gone.contains(gone)));
            assert!(told.gone.iter().all(|gone| !told.there.contains(gone)));
        };
        covers(&changes(&form.desks[2], &cursor));
        for short in 0..cursor.0.len() {
            covers(&changes(
                &form.desks[2],
                &Cursor(cursor.0[..short].to_vec()),
            ));
        }
        for at in 0..cursor.0.len() {
            for bit in 0..8 {
                let mut damaged = cursor.clone();
                damaged.0[at] ^= 1 << bit;
                let told = changes(&form.desks[2], &damaged);
                covers(&told);
                assert!(told.all, "byte {at}");
            }
        }
        let longer = Cursor([cursor.0.as_slice(), b"xyz"].concat());
        covers(&changes(&form.desks[2], &longer));
        let of_another_kind = Cursor(b"26-0101,26-0102".to_vec());
        covers(&changes(&form.desks[2], &of_another_kind));
        assert_eq!(content(&form.desks[2], changed), Some(b"2".to_vec()));
    });
}

/// A folder on a disk in memory, to put strange things there.
fn folders(test: impl Fn(&Form)) {
    each(|form| {
        if form.disk.is_some() && !form.is_one_file() {
            test(form);
        }
    });
}

#[test]
fn what_a_listing_misses_while_another_desk_saves_is_not_gone() {
    folders(|form| {
        let (disk, root) = (form.disk.as_ref().expect("a disk"), form.root());
        let doc = &form.docs[0];
        let one = start(&form.desks[0], doc, b"1");
        let cursor = first(&form.desks[1]).cursor;
        // Some disks tell of a name that is given to another file neither before nor after.
        let path = file_of(&root.expect("a folder"), doc);
        disk.miss(&path);
        let told = changes(&form.desks[1], &cursor);
        assert_eq!((told.there, told.gone), (vec![], vec![]));
        put(&form.desks[0], doc, b"2", Some(one)).expect("saved");
        disk.miss(&path);
        let told = changes(&form.desks[1], &told.cursor);
        assert_eq!((told.there, told.gone), (vec![doc.clone()], vec![]));
        let quiet = changes(&form.desks[1], &told.cursor);
        assert_eq!(quiet.there, []);
    });
}

/// Where big and small letters are one, the old spelling is found though it is not listed any more.
#[test]
fn a_job_whose_name_is_spelled_anew_is_not_kept_twice() {
    folders(|form| {
        let disk = form.disk.as_ref().expect("a disk");
        let root = form.root().expect("a folder");
        let (old, new) = (job("26-0101-ours"), job("26-0101-Ours"));
        start(&form.desks[0], &old, b"1");
        let cursor = first(&form.desks[1]).cursor;
        disk.put_file(&file_of(&root, &new), b"1");
        disk.miss(&file_of(&root, &old));
        let told = changes(&form.desks[1], &cursor);
        assert_eq!((told.there, told.gone), (vec![new], vec![old]));
    });
}

#[test]
fn a_job_in_whose_place_something_else_stands_is_gone_and_listed_as_that() {
    folders(|form| {
        let disk = form.disk.as_ref().expect("a disk");
        let root = form.root().expect("a folder");
        let doc = &form.docs[0];
        start(&form.desks[0], doc, b"1");
        let cursor = first(&form.desks[1]).cursor;
        for node in [Node::Folder, Node::Link, Node::Other] {
            disk.put(&file_of(&root, doc), node);
            let told = form.desks[1].changes(&cursor).expect("a list");
            assert_eq!((told.there, told.gone), (vec![], vec![doc.clone()]));
            assert_eq!(told.unusable.len(), 1);
        }
    });
}

#[test]
fn a_listing_that_fails_is_told_and_makes_no_job_seem_gone() {
    folders(|form| {
        let disk = form.disk.as_ref().expect("a disk");
        start(&form.desks[0], &form.docs[0], b"1");
        let cursor = first(&form.desks[1]).cursor;
        let well = disk.steps();
        changes(&form.desks[1], &cursor);
        let steps = disk.steps() - well;
        for at in 0..steps {
            let kind = std::io::ErrorKind::PermissionDenied;
            let fault = crate::common::memory_disk::Fault::Once { short: 0, kind };
            disk.break_at(at, fault);
            assert!(form.desks[1].changes(&cursor).is_err(), "step {at}");
            assert!(disk.mend());
        }
        // The same where the name was missed and a second look fails.
        let root = form.root().expect("a folder");
        disk.miss(&file_of(&root, &form.docs[0]));
        let kind = std::io::ErrorKind::PermissionDenied;
        let fault = crate::common::memory_disk::Fault::Once { short: 0, kind };
        disk.break_at(steps, fault);
        assert!(form.desks[1].changes(&cursor).is_err());
        assert!(disk.mend());
    });
}

#[test]
fn a_stamp_that_goes_back_is_another_stamp() {
    folders(|form| {
        let disk = form.disk.as_ref().expect("a disk");
        let root = form.root().expect("a folder");
        let doc: &Doc = &form.docs[0];
        start(&form.desks[0], doc, b"1");
        let cursor = first(&form.desks[1]).cursor;
        // Somebody brings back an older file of the same length.
        let node = Node::File {
            bytes: (*b"2").into(),
            stamp: Stamp {
                changed_ns: -5,
                bytes: 1,
            },
        };
        disk.put(&file_of(&root, doc), node);
        assert_eq!(
            changes(&form.desks[1], &cursor).there,
            std::slice::from_ref(&doc)
        );
    });
}
