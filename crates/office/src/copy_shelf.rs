//! Moving house: all of one shelf copied onto another, compared as it goes, and gone on with where it
//! stopped.
//!
//! The copy has the mark of the first: it is the same shelf, with the same drafts and numbers, at
//! another place. Until it is whole nobody works in it. What is there already with the same content is
//! passed over; what is there with another one is told and left alone, unless it is a version that the
//! first shelf had before. What can't be read at the first is told, and the rest goes on.

mod outcome;
#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use crate::names::{AttachmentName, JobKey};
use crate::shelf::{
    Attachment, Changes, Commit, CommitError, CopyPlace, Cursor, Doc, Shelf, ShelfError, Stored,
};

pub use outcome::{Copied, NotCopied, SoFar};

/// How often what changed meanwhile is copied after all else.
const ROUNDS: usize = 4;

/// How often a document is looked at again that somebody else wrote at the second place meanwhile.
const LOOKS: usize = 3;

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
    let begun = to.begin_copy(&mark)?;
    if begun == CopyPlace::Another {
        return Err(NotCopied::AnotherShelf { place: to.place() });
    }
    let mut mover = Mover {
        from,
        to,
        copied: Copied {
            strays: from.strays()?,
            is_new: begun == CopyPlace::Unfinished,
            ..Copied::default()
        },
    };
    mover.copied.is_done = mover.all(tell)?;
    if mover.copied.is_done {
        to.end_copy()?;
    }
    Ok(mover.copied)
}

/// Why something was not copied.
enum Stop {
    /// It can't be read at the first shelf; all else can.
    OfOne(ShelfError),
    /// Nothing goes on.
    Whole(NotCopied),
}

impl<E: Into<NotCopied>> From<E> for Stop {
    fn from(error: E) -> Self {
        Self::Whole(error.into())
    }
}

/// What was read at the first shelf.
fn read<T>(read: Result<T, ShelfError>) -> Result<T, Stop> {
    read.map_err(|error| match error.is_of_one() {
        true => Stop::OfOne(error),
        false => Stop::Whole(error.into()),
    })
}

/// Carries from one to the other.
struct Mover<'a> {
    from: &'a dyn Shelf,
    to: &'a dyn Shelf,
    copied: Copied,
}

impl Mover<'_> {
    /// Copies everything, and then what changed meanwhile; whether nobody stopped it.
    fn all(&mut self, tell: &mut dyn FnMut(SoFar) -> bool) -> Result<bool, NotCopied> {
        let mut cursor = Cursor::default();
        for round in 0..ROUNDS {
            let changes = self.from.changes(&cursor)?;
            let Changes {
                there: mut docs,
                unusable,
                cursor: next,
                ..
            } = changes;
            if round > 0 && docs.is_empty() {
                break;
            }
            if round == 0 {
                self.files_of_gone(&docs)?;
            }
            // The shop first, by which papers leave, and then the newest: they have the highest numbers.
            docs.sort_by(|a, b| b.cmp(a));
            (self.copied.unusable, cursor) = (unusable, next);
            let of = docs.len();
            for (done, doc) in docs.iter().enumerate() {
                if !tell(SoFar { done, of }) {
                    return Ok(false);
                }
                let brought = self.one(doc);
                self.or_told(brought, doc, None)?;
            }
            tell(SoFar { done: of, of });
        }
        Ok(true)
    }

    /// Notes what can't be read at the first shelf, and goes on.
    fn or_told(
        &mut self,
        brought: Result<(), Stop>,
        doc: &Doc,
        name: Option<&AttachmentName>,
    ) -> Result<(), NotCopied> {
        let of = (doc.clone(), name.cloned());
        match brought {
            Ok(()) => drop(self.copied.not_read.remove(&of)),
            Err(Stop::OfOne(why)) => drop(self.copied.not_read.insert(of, why)),
            Err(Stop::Whole(why)) => return Err(why),
        }
        Ok(())
    }

    /// Copies what lies beside jobs that are gone: their papers keep their numbers.
    fn files_of_gone(&mut self, there: &[Doc]) -> Result<(), NotCopied> {
        let named: BTreeSet<&Doc> = there.iter().collect();
        for job in self.from.jobs_with_files()? {
            let doc = Doc::Job(job.clone());
            if !named.contains(&doc) {
                let brought = self.files(&job);
                self.or_told(brought, &doc, None)?;
            }
        }
        Ok(())
    }

    /// Copies a document with what lies beside it, unless it is another one at the second shelf.
    fn one(&mut self, doc: &Doc) -> Result<(), Stop> {
        for _ in 0..LOOKS {
            // Taken away since it was named.
            let Some(now) = read(self.from.read(doc))? else {
                return Ok(());
            };
            let before = read(self.from.previous(doc))?.filter(|before| *before != now);
            let there = self.to.read(doc)?;
            if let Some(there) = &there
                && *there != now
                && before.as_ref() != Some(there)
                && !read(self.from.has_had(doc, there.version))?
            {
                self.copied.others.insert(doc.clone());
                return Ok(());
            }
            // A paper is there before the entry that names it.
            if let Doc::Job(job) = doc {
                self.files(job)?;
            }
            match self.put(doc, there.as_ref(), before.as_ref(), &now) {
                // Somebody else wrote it meanwhile, perhaps another copy of the same shelf.
                Err(NotCopied::Commit(CommitError::Taken(_) | CommitError::Changed(_))) => {}
                put => return put.map_err(Stop::Whole),
            }
        }
        self.copied.others.insert(doc.clone());
        Ok(())
    }

    fn put(
        &mut self,
        doc: &Doc,
        there: Option<&Stored>,
        before: Option<&Stored>,
        now: &Stored,
    ) -> Result<(), NotCopied> {
        let commit = |stored: &Stored, over: Option<&Stored>| {
            let over = over.map(|over| over.version);
            self.to
                .commit(&Commit::one(doc.clone(), stored.bytes.clone(), over))
        };
        match there {
            Some(there) if there == now => {
                self.copied.there.insert(doc.clone());
                return Ok(());
            }
            Some(there) => drop(commit(now, Some(there))?),
            None => {
                // What was replaced last comes along, so that it can be looked at there too.
                if let Some(before) = before {
                    commit(before, None)?;
                }
                commit(now, before)?;
            }
        }
        if self.to.read(doc)?.as_ref() != Some(now) {
            return Err(self.not_the_same(doc));
        }
        self.copied.documents.insert(doc.clone());
        Ok(())
    }

    /// Copies what lies beside a job.
    fn files(&mut self, job: &JobKey) -> Result<(), Stop> {
        let doc = Doc::Job(job.clone());
        for name in read(self.from.attachments(job))? {
            let brought = self.file(job, &name);
            self.or_told(brought, &doc, Some(&name))?;
        }
        Ok(())
    }

    fn file(&mut self, job: &JobKey, name: &AttachmentName) -> Result<(), Stop> {
        let of = (job.clone(), name.clone());
        let Some(bytes) = read(self.from.attachment(job, name))? else {
            self.copied.lost.insert(of);
            return Ok(());
        };
        let there = self.to.attachment(job, name)?;
        if there.as_ref() == Some(&bytes) {
            return Ok(());
        }
        let file = Attachment {
            job: job.clone(),
            name: name.clone(),
            bytes: bytes.clone(),
        };
        let commit = Commit {
            attachments: vec![file],
            documents: Vec::new(),
        };
        match self.to.commit(&commit) {
            Err(CommitError::AttachmentTaken(..)) => {
                self.copied.other_files.insert(of);
                return Ok(());
            }
            done => drop(done?),
        }
        if self.to.attachment(job, name)?.as_ref() != Some(&bytes) {
            return Err(self.not_the_same(&Doc::Job(job.clone())).into());
        }
        self.copied.files += 1;
        Ok(())
    }

    fn not_the_same(&self, doc: &Doc) -> NotCopied {
        NotCopied::NotTheSame {
            doc: doc.clone(),
            place: self.to.place(),
        }
    }
}
