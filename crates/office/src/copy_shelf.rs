//! Moving house: all of one shelf copied onto another, compared as it goes, and gone on with where it
//! stopped.
//!
//! The copy has the mark of the first: it is the same shelf, with the same drafts and numbers, at
//! another place. What is there already with the same content is passed over; what is there with
//! another one is told and left alone, unless it is the version that the first shelf replaced last.

use std::collections::BTreeSet;

use crate::names::{AttachmentName, JobKey};
use crate::shelf::{
    Attachment, Changes, Commit, CommitError, Cursor, Doc, Shelf, ShelfError, Stored, Unusable,
};

/// How far it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SoFar {
    /// Documents that were looked at.
    pub done: usize,
    /// Documents in all.
    pub of: usize,
}

/// What it came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Copied {
    /// Documents that were written.
    pub documents: usize,
    /// Documents that were there already.
    pub there: usize,
    /// Files beside jobs that were written.
    pub files: usize,
    /// Documents that are others at the second shelf.
    pub others: Vec<Doc>,
    /// What lies among the jobs of the first and can't be one.
    pub unusable: Vec<Unusable>,
    /// Files that the first names and doesn't have.
    pub lost: Vec<(JobKey, AttachmentName)>,
    /// What lies at the first and is none of its own.
    pub strays: Vec<String>,
}

/// Why it stopped.
#[derive(Debug, PartialEq, Eq)]
pub enum NotCopied {
    /// Nobody said that the first is a shelf.
    NoShelf {
        /// The first.
        place: String,
    },
    /// The second is another shelf.
    AnotherShelf {
        /// The second.
        place: String,
    },
    /// What was read back is not what was written.
    NotTheSame {
        /// Of what.
        doc: Doc,
        /// The second.
        place: String,
    },
    /// One of them can't be read.
    Shelf(ShelfError),
    /// The second can't be written to.
    Commit(CommitError),
}

impl From<ShelfError> for NotCopied {
    fn from(error: ShelfError) -> Self {
        Self::Shelf(error)
    }
}

impl From<CommitError> for NotCopied {
    fn from(error: CommitError) -> Self {
        Self::Commit(error)
    }
}

/// How often what changed meanwhile is copied after all else.
const ROUNDS: usize = 4;

/// Copies all of a shelf onto another; `tell` hears how far it is, and stops it by saying false: what
/// is copied by then is whole.
///
/// # Errors
/// Where the second is another shelf, or a step fails; what is copied by then is whole.
pub fn copy(
    from: &dyn Shelf,
    to: &dyn Shelf,
    tell: &mut dyn FnMut(SoFar) -> bool,
) -> Result<Copied, NotCopied> {
    let place = || from.place();
    let mark = from
        .mark()?
        .ok_or_else(|| NotCopied::NoShelf { place: place() })?;
    match to.mark()? {
        Some(there) if there != mark && !to.take_mark(&mark)? => {
            return Err(NotCopied::AnotherShelf { place: to.place() });
        }
        Some(_) => {}
        None => to.adopt(&mark)?,
    }
    let mut copied = Copied {
        strays: from.strays()?,
        ..Copied::default()
    };
    let mut cursor = Cursor::default();
    for round in 0..ROUNDS {
        let changes = from.changes(&cursor)?;
        let Changes {
            there,
            unusable,
            cursor: next,
            ..
        } = changes;
        if round > 0 && there.is_empty() {
            break;
        }
        if round == 0 {
            let named: BTreeSet<&Doc> = there.iter().collect();
            for job in from.jobs_with_files()? {
                if !named.contains(&Doc::Job(job.clone())) {
                    files(from, to, &job, &mut copied)?;
                }
            }
        }
        (copied.unusable, cursor) = (unusable, next);
        let of = there.len();
        for (done, doc) in there.iter().enumerate() {
            if !tell(SoFar { done, of }) {
                return Ok(copied);
            }
            one(from, to, doc, &mut copied)?;
        }
        tell(SoFar { done: of, of });
    }
    Ok(copied)
}

/// Copies a document with what lies beside it.
fn one(from: &dyn Shelf, to: &dyn Shelf, doc: &Doc, copied: &mut Copied) -> Result<(), NotCopied> {
    if let Doc::Job(job) = doc {
        files(from, to, job, copied)?;
    }
    // Taken away since it was named.
    let Some(now) = from.read(doc)? else {
        return Ok(());
    };
    let before = from.previous(doc)?.filter(|before| *before != now);
    match to.read(doc)? {
        Some(there) if there == now => {
            copied.there += 1;
            return Ok(());
        }
        Some(there) if before.as_ref() == Some(&there) => {
            put(to, doc, &now, Some(&there))?;
        }
        Some(_) => {
            copied.others.push(doc.clone());
            return Ok(());
        }
        None => {
            // What was replaced last comes along, so that it can be looked at there too.
            if let Some(before) = &before {
                put(to, doc, before, None)?;
            }
            put(to, doc, &now, before.as_ref())?;
        }
    }
    if to.read(doc)?.as_ref() != Some(&now) {
        return Err(not_the_same(to, doc));
    }
    copied.documents += 1;
    Ok(())
}

/// Copies what lies beside a job, also where that is not there: its papers keep their numbers.
fn files(
    from: &dyn Shelf,
    to: &dyn Shelf,
    job: &JobKey,
    copied: &mut Copied,
) -> Result<(), NotCopied> {
    for name in from.attachments(job)? {
        let Some(bytes) = from.attachment(job, &name)? else {
            copied.lost.push((job.clone(), name));
            continue;
        };
        if to.attachment(job, &name)?.as_ref() == Some(&bytes) {
            continue;
        }
        let file = Attachment {
            job: job.clone(),
            name: name.clone(),
            bytes,
        };
        let commit = Commit {
            attachments: vec![file.clone()],
            documents: Vec::new(),
        };
        to.commit(&commit)?;
        if to.attachment(job, &name)?.as_ref() != Some(&file.bytes) {
            return Err(not_the_same(to, &Doc::Job(job.clone())));
        }
        copied.files += 1;
    }
    Ok(())
}

fn put(
    to: &dyn Shelf,
    doc: &Doc,
    stored: &Stored,
    over: Option<&Stored>,
) -> Result<(), CommitError> {
    let over = over.map(|over| over.version);
    let commit = Commit::one(doc.clone(), stored.bytes.clone(), over);
    to.commit(&commit).map(drop)
}

fn not_the_same(to: &dyn Shelf, doc: &Doc) -> NotCopied {
    NotCopied::NotTheSame {
        doc: doc.clone(),
        place: to.place(),
    }
}

#[cfg(test)]
mod tests {
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

    #[test]
    fn all_of_a_shelf_is_copied_and_a_second_time_nothing() {
        let (from, to) = (first(), Memory::default());
        let mut told = Vec::new();
        let copied = copy(&from, &to, &mut |so_far| {
            told.push(so_far.done);
            true
        });
        let copied = copied.unwrap();
        assert_eq!((copied.documents, copied.files, copied.there), (3, 1, 0));
        assert_eq!(told, [0, 1, 2, 3]);
        is_all_there(&from, &to);
        let again = copy(&from, &to, &mut |_| true).unwrap();
        assert_eq!((again.documents, again.files, again.there), (0, 0, 3));
        // One save later at the first: it follows.
        write(&from, &job("26-0101"), "d");
        let again = copy(&from, &to, &mut |_| true).unwrap();
        assert_eq!((again.documents, again.there), (1, 2));
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
        assert_eq!((copied.documents, copied.files), (2, 1));
        assert_eq!(to.highest_number(26), Ok(Some(102)));
    }

    #[test]
    fn what_was_saved_at_the_second_is_told_and_stays() {
        let (from, to) = (first(), Memory::default());
        copy(&from, &to, &mut |_| true).unwrap();
        write(&to, &job("26-0101"), "ours");
        write(&from, &job("26-0101"), "theirs");
        let copied = copy(&from, &to, &mut |_| true).unwrap();
        assert_eq!(copied.others, [job("26-0101")]);
        assert_eq!(
            text(to.read(&job("26-0101")).unwrap()).as_deref(),
            Some("ours")
        );
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
                assert_eq!(copied.others, [], "{at} {fault:?}");
                is_all_there(&from, &to);
            }
        }
        let (from, to) = (first(), Memory::default());
        let copied = copy(&from, &to, &mut |so_far| so_far.done < 1).unwrap();
        assert_eq!(copied.documents, 1);
        assert!(to.read(&Doc::Shop).unwrap().is_none());
    }
}
