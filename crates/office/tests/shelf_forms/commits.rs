//! Documents: written against the version that somebody rests on, and read as they were written.

use quillbore_job::file::LARGEST_FILE;
use quillbore_office::shelf::{Commit, CommitError, Doc, ShelfError, Version};

use crate::common::forms::{before, beside, content, each, job, put, start, write};

#[test]
fn what_was_committed_is_read_by_every_desk_and_its_version_is_its_hash() {
    each(|form| {
        for (at, doc) in form.docs.iter().enumerate() {
            assert_eq!(content(&form.desks[0], doc), None);
            // Any bytes: the shelf does not look into them.
            let bytes = [&[0, 255, b'\n', b'\r'][..], &vec![7; at * 1000]].concat();
            start(&form.desks[at % 3], doc, &bytes);
            for desk in &form.desks {
                assert_eq!(content(desk, doc).as_deref(), Some(bytes.as_slice()));
            }
        }
        let empty = &form.docs[0];
        let version = Version::of(&content(&form.desks[0], empty).expect("a document"));
        put(&form.desks[1], empty, b"", Some(version)).expect("an empty one");
        assert_eq!(content(&form.desks[2], empty), Some(Vec::new()));
    });
}

#[test]
fn a_document_that_should_be_new_is_refused_where_one_is_also_with_the_same_bytes() {
    each(|form| {
        for doc in &form.docs {
            start(&form.desks[0], doc, b"first");
            for bytes in [&b"second"[..], b"first"] {
                let taken = put(&form.desks[1], doc, bytes, None);
                assert_eq!(taken, Err(CommitError::Taken(doc.clone())));
            }
            assert_eq!(content(&form.desks[2], doc).as_deref(), Some(&b"first"[..]));
            assert_eq!(before(&form.desks[2], doc), None);
        }
    });
}

#[test]
fn over_another_version_nothing_is_written_and_all_that_changed_are_named() {
    each(|form| {
        let job = form.job();
        let old: Vec<Version> = form
            .docs
            .iter()
            .map(|doc| start(&form.desks[0], doc, b"old"))
            .collect();
        // All but the second are changed by another desk.
        let others = |at: &usize| *at != 1;
        let changed: Vec<usize> = (0..form.docs.len()).filter(others).collect();
        for at in &changed {
            put(&form.desks[1], &form.docs[*at], b"theirs", Some(old[*at])).expect("saved");
        }
        let cursor = form.desks[2].changes(&Default::default());
        let cursor = cursor.expect("a list").cursor;
        let documents = form.docs.iter().zip(&old);
        let ours = Commit {
            attachments: vec![beside(&job, "ours.pdf", b"ours")],
            documents: documents
                .map(|(doc, old)| write(doc, b"ours", Some(*old)))
                .collect(),
        };
        let named: Vec<Doc> = changed.iter().map(|at| form.docs[*at].clone()).collect();
        assert_eq!(
            form.desks[0].commit(&ours),
            Err(CommitError::Changed(named))
        );
        for (at, doc) in form.docs.iter().enumerate() {
            let (now, replaced) = if at == 1 {
                (b"old".to_vec(), None)
            } else {
                (b"theirs".to_vec(), Some(b"old".to_vec()))
            };
            assert_eq!(content(&form.desks[2], doc), Some(now));
            assert_eq!(before(&form.desks[2], doc), replaced);
        }
        assert_eq!(form.desks[2].attachments(&job), Ok(vec![]));
        let told = form.desks[2].changes(&cursor).expect("a list");
        assert_eq!((told.there, told.gone), (vec![], vec![]));
    });
}

#[test]
fn a_document_that_is_gone_is_told_and_does_not_come_back() {
    each(|form| {
        for doc in &form.docs {
            let version = start(&form.desks[0], doc, b"old");
            (form.take_away)(doc);
            assert_eq!(content(&form.desks[1], doc), None);
            for bytes in [&b"new"[..], b"old"] {
                let gone = put(&form.desks[0], doc, bytes, Some(version));
                assert_eq!(gone, Err(CommitError::Gone(doc.clone())));
            }
            assert_eq!(content(&form.desks[1], doc), None);
            start(&form.desks[2], doc, b"again");
        }
    });
}

#[test]
fn the_same_content_again_is_fine_whatever_it_rests_on_and_changes_nothing() {
    each(|form| {
        for doc in &form.docs {
            let one = start(&form.desks[0], doc, b"1");
            let two = put(&form.desks[0], doc, b"2", Some(one)).expect("saved");
            let cursor = form.desks[2].changes(&Default::default());
            let cursor = cursor.expect("a list").cursor;
            // A confirmation that got lost; another desk that had the same idea; a stale version.
            for rests_on in [one, two, Version::of(b"never was")] {
                assert_eq!(put(&form.desks[1], doc, b"2", Some(rests_on)), Ok(two));
            }
            assert_eq!(before(&form.desks[2], doc), Some(b"1".to_vec()));
            let told = form.desks[2].changes(&cursor).expect("a list");
            assert_eq!((told.there, told.gone), (vec![], vec![]));
        }
    });
}

#[test]
fn the_version_that_was_replaced_last_stays_even_where_the_document_goes() {
    each(|form| {
        for doc in &form.docs {
            assert_eq!(before(&form.desks[0], doc), None);
            let one = start(&form.desks[0], doc, b"1");
            assert_eq!(before(&form.desks[1], doc), None);
            let two = put(&form.desks[1], doc, b"2", Some(one)).expect("saved");
            assert_eq!(before(&form.desks[2], doc), Some(b"1".to_vec()));
            put(&form.desks[2], doc, b"3", Some(two)).expect("saved");
            assert_eq!(before(&form.desks[0], doc), Some(b"2".to_vec()));
            (form.take_away)(doc);
            assert_eq!(before(&form.desks[0], doc), Some(b"2".to_vec()));
            let again = start(&form.desks[0], doc, b"4");
            assert_eq!(before(&form.desks[1], doc), Some(b"2".to_vec()));
            put(&form.desks[0], doc, b"5", Some(again)).expect("saved");
            assert_eq!(before(&form.desks[1], doc), Some(b"4".to_vec()));
        }
    });
}

#[test]
fn several_documents_are_written_at_once_in_their_order() {
    each(|form| {
        let (last, others) = form.docs.split_last().expect("a document");
        let old: Vec<Version> = others
            .iter()
            .map(|doc| start(&form.desks[0], doc, b"old"))
            .collect();
        // The last first, and new; the others over what is there.
        let mut documents = vec![write(last, b"new 0", None)];
        for (at, (doc, old)) in others.iter().zip(old).enumerate() {
            let bytes = format!("new {}", at + 1);
            documents.push(write(doc, bytes.as_bytes(), Some(old)));
        }
        let versions = documents.iter().map(|write| Version::of(&write.bytes));
        let versions: Vec<Version> = versions.collect();
        let commit = Commit {
            attachments: Vec::new(),
            documents,
        };
        let committed = form.desks[1].commit(&commit).expect("committed");
        assert_eq!(committed.versions, versions);
        assert!(committed.locked);
        for write in &commit.documents {
            assert_eq!(
                content(&form.desks[2], &write.doc),
                Some(write.bytes.clone())
            );
        }
    });
}

#[test]
fn nothing_to_write_is_nothing_written() {
    each(|form| {
        let committed = form.desks[0].commit(&Commit::default()).expect("nothing");
        assert_eq!(committed.versions, []);
    });
}

/// Each rests on what stands there when its turn comes.
#[test]
fn a_document_that_is_named_twice_is_refused() {
    each(|form| {
        let doc = &form.docs[0];
        let twice = |first, second, expected| Commit {
            attachments: vec![beside(&form.job(), "a.pdf", b"a")],
            documents: vec![write(doc, first, expected), write(doc, second, expected)],
        };
        let taken = form.desks[0].commit(&twice(b"1", b"1", None));
        assert_eq!(taken, Err(CommitError::Taken(doc.clone())));
        assert_eq!(content(&form.desks[1], doc), None);
        let old = start(&form.desks[0], doc, b"old");
        let changed = form.desks[0].commit(&twice(b"1", b"2", Some(old)));
        assert_eq!(changed, Err(CommitError::Changed(vec![doc.clone()])));
        assert_eq!(content(&form.desks[1], doc), Some(b"old".to_vec()));
        assert_eq!(before(&form.desks[1], doc), None);
        assert_eq!(form.desks[1].attachments(&form.job()), Ok(vec![]));
    });
}

#[test]
fn what_could_never_be_read_again_is_not_written() {
    each(|form| {
        let doc = &form.docs[0];
        let old = start(&form.desks[0], doc, b"old");
        let large = usize::try_from(LARGEST_FILE).expect("a size") + 1;
        let commit = Commit::one(doc.clone(), vec![0; large], Some(old));
        let refused = form.desks[0].commit(&commit);
        assert!(
            matches!(
                refused,
                Err(CommitError::Shelf(ShelfError::TooLarge { .. }))
            ),
            "{refused:?}"
        );
        assert_eq!(content(&form.desks[1], doc), Some(b"old".to_vec()));
        assert_eq!(before(&form.desks[1], doc), None);
    });
}

#[test]
fn a_name_that_the_shelf_cannot_keep_is_refused() {
    each(|form| {
        if !form.is_one_file() {
            return;
        }
        let (other, here) = (job("26-0102"), &form.docs[0]);
        let refused = |commit: &Commit| {
            let refused = form.desks[0].commit(commit);
            assert!(
                matches!(refused, Err(CommitError::Shelf(ShelfError::OneFile { .. }))),
                "{refused:?}"
            );
            assert_eq!(content(&form.desks[1], here), None);
        };
        for doc in [&other, &Doc::Shop] {
            refused(&Commit::one(doc.clone(), b"x".to_vec(), None));
            refused(&Commit {
                attachments: Vec::new(),
                documents: vec![write(here, b"x", None), write(doc, b"x", None)],
            });
            assert_eq!(content(&form.desks[0], doc), None);
            assert_eq!(before(&form.desks[0], doc), None);
        }
        let Doc::Job(key) = &other else { return };
        refused(&Commit {
            attachments: vec![beside(key, "a.pdf", b"x")],
            documents: vec![write(here, b"x", None)],
        });
        assert_eq!(form.desks[0].attachments(key), Ok(vec![]));
        assert_eq!(form.desks[0].highest_number(26), Ok(Some(101)));
    });
}
