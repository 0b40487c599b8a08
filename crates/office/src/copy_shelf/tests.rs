//! Copies between shelves in memory, with faults.

use super::*;
use crate::shelf::memory::Fault;
use crate::shelf::{Mark, Memory};

fn job(name: &str) -> Doc {
    Doc::Job(JobKey::new(name).unwrap())
}

fn write(shelf: &dyn Shelf, doc: &Doc, text: &str) {
    let over = shelf.read(doc).unwrap().map(|stored| stored.version);
    let commit = Commit::one(doc.clone(), text.as_bytes().to_vec(), over);
    shelf.commit(&commit).unwrap();
}

fn first() -> Memory {
    let shelf = Memory::marked(Mark::of([1; 16]));
    for (name, texts) in [("26-0101", &["a", "b", "c"][..]), ("26-0102", &["d"])] {
        texts
            .iter()
            .for_each(|text| write(&shelf, &job(name), text));
    }
    write(&shelf, &Doc::Shop, "the shop");
    let file = Attachment {
        job: JobKey::new("26-0102").unwrap(),
        name: AttachmentName::new("26-0102-Q1.pdf").unwrap(),
        bytes: b"%PDF".to_vec(),
    };
    let commit = Commit {
        attachments: vec![file],
        documents: Vec::new(),
    };
    shelf.commit(&commit).unwrap();
    shelf
}

fn text(stored: Option<Stored>) -> Option<String> {
    stored.map(|stored| String::from_utf8(stored.bytes).unwrap())
}

fn is_all_there(from: &Memory, to: &Memory) {
    assert_eq!(to.mark(), from.mark());
    for doc in from.changes(&Cursor::default()).unwrap().there {
        assert_eq!(to.read(&doc), from.read(&doc));
        assert_eq!(to.previous(&doc), from.previous(&doc));
        if let Doc::Job(job) = &doc {
            let names = from.attachments(job).unwrap();
            assert_eq!(to.attachments(job).as_ref(), Ok(&names));
            for name in &names {
                assert_eq!(to.attachment(job, name), from.attachment(job, name));
            }
        }
    }
}

fn counted(copied: &Copied) -> (usize, usize, usize) {
    let (documents, there) = (&copied.documents, &copied.there);
    (documents.len(), copied.files, there.len())
}

#[test]
fn all_of_a_shelf_is_copied_and_a_second_time_nothing() {
    let (from, to) = (first(), Memory::default());
    let mut told = Vec::new();
    let copied = copy(&from, &to, &mut |so_far| {
        told.push(so_far.done);
        true
    });
    let copied = copied.unwrap();
    assert_eq!(counted(&copied), (3, 1, 0));
    assert_eq!(told, [0, 1, 2, 3]);
    is_all_there(&from, &to);
    let again = copy(&from, &to, &mut |_| true).unwrap();
    assert_eq!(counted(&again), (0, 0, 3));
    // One save later at the first: it follows.
    write(&from, &job("26-0101"), "d");
    let again = copy(&from, &to, &mut |_| true).unwrap();
    assert_eq!(counted(&again), (1, 0, 2));
    assert_eq!(
        text(to.read(&job("26-0101")).unwrap()).as_deref(),
        Some("d")
    );
}

#[test]
fn files_of_a_job_that_is_gone_come_along_with_their_number() {
    let (from, to) = (first(), Memory::default());
    from.take_away(&job("26-0102"));
    let copied = copy(&from, &to, &mut |_| true).unwrap();
    assert_eq!(counted(&copied), (2, 1, 0));
    assert_eq!(to.highest_number(26), Ok(Some(102)));
}

#[test]
fn what_was_saved_at_the_second_is_told_and_stays() {
    let (from, to) = (first(), Memory::default());
    copy(&from, &to, &mut |_| true).unwrap();
    write(&to, &job("26-0101"), "ours");
    write(&from, &job("26-0101"), "theirs");
    let copied = copy(&from, &to, &mut |_| true).unwrap();
    assert_eq!(copied.others, [job("26-0101")].into());
    assert_eq!(
        text(to.read(&job("26-0101")).unwrap()).as_deref(),
        Some("ours")
    );
}

#[test]
fn what_is_another_at_the_second_is_left_with_what_lies_beside_it_and_the_rest_goes_on() {
    let (from, to) = (first(), Memory::default());
    copy(&from, &to, &mut |_| true).unwrap();
    let put = |shelf: &Memory, job: &str, name: &str, bytes: &[u8]| {
        let file = Attachment {
            job: JobKey::new(job).unwrap(),
            name: AttachmentName::new(name).unwrap(),
            bytes: bytes.to_vec(),
        };
        let commit = Commit {
            attachments: vec![file],
            documents: Vec::new(),
        };
        shelf.commit(&commit).unwrap();
    };
    // Both went on with one job, each with a paper of the same number.
    for (shelf, text) in [(&from, "theirs"), (&to, "ours")] {
        write(shelf, &job("26-0101"), text);
        put(shelf, "26-0101", "26-0101-Q2.pdf", text.as_bytes());
    }
    put(&from, "26-0101", "26-0101-Q3.pdf", b"%PDF");
    // Of another they have two photographs of one name.
    put(&from, "26-0102", "photo.jpg", b"two");
    put(&to, "26-0102", "photo.jpg", b"one");
    write(&from, &job("26-0103"), "new");
    let copied = copy(&from, &to, &mut |_| true).unwrap();
    assert_eq!(copied.others, [job("26-0101")].into());
    let names = to.attachments(&JobKey::new("26-0101").unwrap()).unwrap();
    // No paper without its entry.
    assert_eq!(
        names.iter().map(AttachmentName::as_str).collect::<Vec<_>>(),
        ["26-0101-Q2.pdf"]
    );
    let photo = |(job, name): &(JobKey, AttachmentName)| format!("{job}/{name}");
    assert_eq!(
        copied.other_files.iter().map(photo).collect::<Vec<_>>(),
        ["26-0102/photo.jpg"]
    );
    assert_eq!(
        text(to.read(&job("26-0103")).unwrap()).as_deref(),
        Some("new")
    );
    assert!(!copied.is_all());
}

#[test]
fn the_shop_comes_first_and_then_the_newest_jobs() {
    let (from, to) = (first(), Memory::default());
    let copied = copy(&from, &to, &mut |so_far| so_far.done < 2).unwrap();
    assert_eq!(copied.documents, [Doc::Shop, job("26-0102")].into());
}

#[test]
fn another_shelf_and_what_is_none_are_refused() {
    let (from, other) = (first(), Memory::marked(Mark::of([2; 16])));
    let refused = copy(&from, &other, &mut |_| true);
    assert!(matches!(refused, Err(NotCopied::AnotherShelf { .. })));
    let refused = copy(&Memory::default(), &other, &mut |_| true);
    assert!(matches!(refused, Err(NotCopied::NoShelf { .. })));
}

#[test]
fn wherever_it_stops_it_goes_on_from_there() {
    let calls = {
        let (from, to) = (first(), Memory::default());
        copy(&from, &to, &mut |_| true).unwrap();
        to.calls()
    };
    for at in 0..calls {
        for fault in [Fault::Refused, Fault::NotConfirmed, Fault::Gone] {
            let (from, to) = (first(), Memory::default());
            to.break_at(at, fault);
            // A call that a fault doesn't concern goes well.
            let _ = copy(&from, &to, &mut |_| true);
            to.mend();
            let copied = copy(&from, &to, &mut |_| true).unwrap();
            assert!(copied.is_all(), "{at} {fault:?}: {copied:?}");
            is_all_there(&from, &to);
        }
    }
    let (from, to) = (first(), Memory::default());
    let copied = copy(&from, &to, &mut |so_far| so_far.done < 1).unwrap();
    assert_eq!((counted(&copied), copied.is_done), ((1, 0, 0), false));
    assert!(to.read(&job("26-0101")).unwrap().is_none());
}
