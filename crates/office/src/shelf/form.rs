//! What every form of the shelf promises.

use std::fmt;
use std::sync::Arc;

use super::changes::{Changes, Cursor};
use super::commit::{Commit, CommitError, Committed};
use super::doc::{Doc, Stored, Version};
use super::error::ShelfError;
use super::held::Held;
use super::mark::Mark;
use crate::names::{AttachmentName, JobKey};

/// A shelf, whatever keeps it: a folder, a server, a single file, the memory of a test. Its calls wait
/// for the disk or the line, so the window's thread never makes them.
pub trait Shelf: fmt::Debug + Send + Sync {
    /// How sentences call it: a path or an address.
    fn place(&self) -> String;

    /// Where an attachment is, as sentences name it.
    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String;

    /// What tells this shelf from every other; `None` where nobody said that it is one.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn mark(&self) -> Result<Option<Mark>, ShelfError>;

    /// Makes it a shelf by giving it a mark; one that has one keeps it.
    ///
    /// # Errors
    /// Where the mark can't be written.
    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError>;

    /// Makes it the place of a copy of the shelf that has a mark. Until [`Shelf::end_copy`] nobody else can
    /// use it, where the form can see to that: half a shelf would give numbers twice.
    ///
    /// # Errors
    /// Where the shelf can't be reached, or may not be changed.
    fn begin_copy(&self, mark: &Mark) -> Result<CopyPlace, ShelfError> {
        if self.mark()?.is_none() {
            self.adopt(mark)?;
        }
        // Another copy may have been faster.
        match self.mark()? {
            Some(there) if there == *mark => Ok(CopyPlace::Whole),
            _ => Ok(CopyPlace::Another),
        }
    }

    /// The copy is whole.
    ///
    /// # Errors
    /// Where the shelf can't be reached, or may not be changed.
    fn end_copy(&self) -> Result<(), ShelfError> {
        Ok(())
    }

    /// Whether a document ever had a version, as far as the shelf keeps that; not where it has it now.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn has_had(&self, doc: &Doc, version: Version) -> Result<bool, ShelfError> {
        let before = self.previous(doc)?;
        Ok(before.is_some_and(|before| before.version == version))
    }

    /// A document as it stands; `None` where there is none.
    ///
    /// # Errors
    /// Where it can't be read, or is no document but a link, a folder, a pipe.
    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError>;

    /// The version that was replaced last under that name, also where the document was taken away
    /// since; `None` where none ever was. After a commit that was cut off or failed at its very end
    /// it can be the one that stands there still.
    ///
    /// # Errors
    /// As [`Shelf::read`].
    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError>;

    /// Which documents are other ones since a cursor, or perhaps are: one too many may be named,
    /// never one too few. The first cursor of all names every document, and so does one that was
    /// damaged; a cursor of another desk at the same shelf is as good as an own one.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError>;

    /// Writes attachments and documents against the versions that they rest on: attachments first,
    /// then the documents in their order, all of them under one lock. Where a document stands there
    /// with its new content already it is done, whatever it rests on: a confirmation may have got
    /// lost.
    ///
    /// # Errors
    /// Where a document is another one than expected, a name is taken, or a step fails; except for
    /// [`CommitError::HalfDone`] and [`CommitError::NotSettled`] every document and all that lies
    /// beside jobs stands as before then.
    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError>;

    /// The highest running number that any name of a year (two digits) has, of a job or of what
    /// lies beside one.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError>;

    /// Tells the other desks that `by` has a job open, until what is given back is dropped, or a moment
    /// longer where a server has to hear of it. It only tells, and hinders nobody: what keeps work from being lost is that a commit compares versions.
    fn hold(&self, job: &JobKey, by: &str) -> Held;

    /// What lies beside a job under a name; `None` where nothing does.
    ///
    /// # Errors
    /// Where it can't be read, or is no plain file.
    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError>;

    /// The names of all that lies beside a job, rising.
    ///
    /// # Errors
    /// Where they can't be listed.
    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError>;

    /// The jobs beside which something lies, whether or not they are there themselves, rising.
    ///
    /// # Errors
    /// Where they can't be listed.
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError>;

    /// What lies where the shelf is and is none of its own, by its name there: no copy takes it along.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn strays(&self) -> Result<Vec<String>, ShelfError> {
        Ok(Vec::new())
    }

    /// Whether what lies beside jobs can be opened where [`Shelf::place_of`] says it is.
    fn is_on_disk(&self) -> bool {
        true
    }

    /// Whether it waits for somebody to give the password.
    fn wants_password(&self) -> bool {
        false
    }

    /// Somebody gives the password, as it is typed; it is kept in memory alone.
    fn give_password(&self, _password: &str) {}

    /// The mark that it had when it was seen last, without asking it.
    fn known_mark(&self) -> Option<Mark> {
        None
    }

    /// Documents that this desk sent, and of which it is not known whether they are there: the line broke.
    fn not_known(&self) -> Vec<(Doc, Version)> {
        Vec::new()
    }

    /// Keeps a document for the time when the shelf can't be reached, where it may be away.
    fn keep_seen(&self, _doc: &Doc, _stored: &Stored) {}

    /// A document as it was seen last, where the shelf may be away.
    fn last_seen(&self, _doc: &Doc) -> Option<Stored> {
        None
    }

    /// What jobs are about, of a kind that some program makes, where the shelf keeps that beside them:
    /// of each job as it stands, or of none.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn digests(&self, _kind: &str) -> Result<Vec<(JobKey, String)>, ShelfError> {
        Ok(Vec::new())
    }

    /// What these jobs are about, made anew and kept beside them from then on, as [`Shelf::digests`] gives
    /// it; none where the shelf keeps none, and none of a job that can't be read.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn make_digests(&self, _jobs: &[JobKey]) -> Result<Vec<(JobKey, String)>, ShelfError> {
        Ok(Vec::new())
    }

    /// Of these jobs those that may have run records or anything else that counts beyond them; of a shelf
    /// that doesn't know that, all that can be read.
    ///
    /// # Errors
    /// Where the shelf can't be reached.
    fn read_records(&self, jobs: &[JobKey]) -> Result<Vec<(JobKey, Stored)>, ShelfError> {
        let read = jobs.iter().filter_map(|job| {
            let stored = self.read(&Doc::Job(job.clone())).ok()??;
            Some((job.clone(), stored))
        });
        Ok(read.collect())
    }

    /// Calls `wake` from a thread of its own whenever another desk may have saved something, until what
    /// is given back is dropped; `None` where the shelf can't tell, and has to be looked at.
    fn watch(&self, _wake: Wake) -> Option<Watch> {
        None
    }
}

/// What a place is to a copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CopyPlace {
    /// It was empty, or an earlier copy stopped there.
    Unfinished,
    /// It is that shelf already: what is missing is brought.
    Whole,
    /// It is another shelf.
    Another,
}

/// What is called when another desk may have saved something.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// What keeps a shelf watched as long as it is there.
#[derive(Debug)]
pub struct Watch {
    _listens: Arc<()>,
}

impl Watch {
    /// As long as somebody listens.
    #[cfg(feature = "server")]
    pub(super) const fn new(listens: Arc<()>) -> Self {
        Self { _listens: listens }
    }
}
