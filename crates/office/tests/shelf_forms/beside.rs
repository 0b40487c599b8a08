//! What lies beside a job: new files only, and none that no document came to name.

use quillbore_office::shelf::{Commit, CommitError, ShelfError, Version};

use crate::common::forms::{beside, content, each, name, start, write};

#[test]
fn what_lies_beside_a_job_is_read_and_listed_by_name() {
    each(|form| {
        let (job, doc) = (form.job(), &form.docs[0]);
        assert_eq!(form.desks[0].attachments(&job), Ok(vec![]));
        assert_eq!(form.desks[0].attachment(&job, &name("b.pdf")), Ok(None));
        let commit = Commit {
            attachments: vec![
                beside(&job, "b.pdf", b"b"),
                beside(&job, "a.jpg", &[0, 255]),
                beside(&job, "B.pdf.txt", b""),
            ],
            documents: vec![write(doc, b"names them", None)],
        };
        let committed = form.desks[0].commit(&commit).expect("committed");
        assert_eq!(committed.versions, [Version::of(b"names them")]);
        for desk in &form.desks {
            assert_eq!(content(desk, doc), Some(b"names them".to_vec()));
            let names = ["B.pdf.txt", "a.jpg", "b.pdf"].map(name);
            assert_eq!(desk.attachments(&job), Ok(names.to_vec()));
            for file in &commit.attachments {
                assert_eq!(
                    desk.attachment(&job, &file.name),
                    Ok(Some(file.bytes.clone()))
                );
                let place = desk.place_of(&job, &file.name);
                assert!(place.contains(job.as_str()), "{place}");
                assert!(place.ends_with(file.name.as_str()), "{place}");
            }
        }
    });
}

#[test]
fn a_file_beside_a_job_is_never_written_over() {
    each(|form| {
        let (job, doc) = (form.job(), &form.docs[0]);
        let old = start(&form.desks[0], doc, b"old");
        let only = |bytes| Commit {
            attachments: vec![beside(&job, "a.pdf", bytes)],
            documents: Vec::new(),
        };
        form.desks[0].commit(&only(b"a")).expect("beside a job");
        // The same again is fine: a confirmation may have got lost.
        form.desks[1].commit(&only(b"a")).expect("the same again");
        let other = Commit {
            attachments: vec![
                beside(&job, "new.pdf", b"new"),
                beside(&job, "a.pdf", b"other"),
                beside(&job, "z.pdf", b"z"),
            ],
            documents: vec![write(doc, b"names them", Some(old))],
        };
        let taken = form.desks[1].commit(&other);
        let named = CommitError::AttachmentTaken(job.clone(), name("a.pdf"));
        assert_eq!(taken, Err(named));
        assert_eq!(content(&form.desks[2], doc), Some(b"old".to_vec()));
        assert_eq!(form.desks[2].attachments(&job), Ok(vec![name("a.pdf")]));
        let there = form.desks[2].attachment(&job, &name("a.pdf"));
        assert_eq!(there, Ok(Some(b"a".to_vec())));
    });
}

#[test]
fn two_files_of_one_name_in_one_commit_must_be_the_same() {
    each(|form| {
        let (job, doc) = (form.job(), &form.docs[0]);
        let twice = |second| Commit {
            attachments: vec![beside(&job, "a.pdf", b"a"), beside(&job, "a.pdf", second)],
            documents: vec![write(doc, b"names it", None)],
        };
        let taken = form.desks[0].commit(&twice(b"b"));
        let named = CommitError::AttachmentTaken(job.clone(), name("a.pdf"));
        assert_eq!(taken, Err(named));
        assert_eq!(form.desks[1].attachments(&job), Ok(vec![]));
        assert_eq!(content(&form.desks[1], doc), None);
        form.desks[0].commit(&twice(b"a")).expect("committed");
        assert_eq!(form.desks[1].attachments(&job), Ok(vec![name("a.pdf")]));
    });
}

#[test]
fn no_file_comes_to_lie_beside_a_job_whose_document_is_not_written() {
    each(|form| {
        let (job, doc) = (form.job(), &form.docs[0]);
        let gone = Commit {
            attachments: vec![beside(&job, "a.pdf", b"a")],
            documents: vec![write(doc, b"new", Some(Version::of(b"old")))],
        };
        let refused = form.desks[0].commit(&gone);
        assert_eq!(refused, Err(CommitError::Gone(doc.clone())));
        start(&form.desks[0], doc, b"there");
        let taken = Commit {
            documents: vec![write(doc, b"new", None)],
            ..gone
        };
        let refused = form.desks[0].commit(&taken);
        assert_eq!(refused, Err(CommitError::Taken(doc.clone())));
        assert_eq!(form.desks[1].attachments(&job), Ok(vec![]));
        assert_eq!(form.desks[1].attachment(&job, &name("a.pdf")), Ok(None));
    });
}

#[test]
fn what_could_never_be_read_again_is_not_put_beside_a_job() {
    each(|form| {
        let commit = Commit {
            attachments: vec![beside(&form.job(), "a.pdf", &[]), {
                let mut large = beside(&form.job(), "large.pdf", &[]);
                large.bytes = vec![0; 256 * 1024 * 1024 + 1];
                large
            }],
            documents: vec![write(&form.docs[0], b"names them", None)],
        };
        let refused = form.desks[0].commit(&commit);
        assert!(
            matches!(
                refused,
                Err(CommitError::Shelf(ShelfError::TooLarge { .. }))
            ),
            "{refused:?}"
        );
        assert_eq!(form.desks[1].attachments(&form.job()), Ok(vec![]));
        assert_eq!(content(&form.desks[1], &form.docs[0]), None);
    });
}
