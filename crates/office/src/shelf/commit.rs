//! What is written to a shelf at once, and how that can end.

use std::collections::{BTreeMap, BTreeSet};

use quillbore_job::file::LARGEST_FILE;

use super::doc::{Doc, Version};
use super::error::ShelfError;
use crate::names::{AttachmentName, JobKey};

/// Largest file beside a job [bytes].
pub(super) const LARGEST_ATTACHMENT: u64 = 256 * 1024 * 1024;

/// What is written at once.
#[derive(Clone, Debug, Default)]
pub struct Commit {
    /// New files beside jobs; one that is there already must have the same content.
    pub attachments: Vec<Attachment>,
    /// Documents, in the order in which they are put in place; none of them twice.
    pub documents: Vec<Write>,
}

/// A new file beside a job.
#[derive(Clone, Debug)]
pub struct Attachment {
    /// The job.
    pub job: JobKey,
    /// What it is called.
    pub name: AttachmentName,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// A document's new content.
#[derive(Clone, Debug)]
pub struct Write {
    /// Which document.
    pub doc: Doc,
    /// Its content.
    pub bytes: Vec<u8>,
    /// The version that it rests on; `None` for a document that must not be there yet.
    pub expected: Option<Version>,
}

/// What a commit came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Committed {
    /// The versions of the documents, in their order.
    pub versions: Vec<Version>,
    /// Whether other desks were kept out meanwhile; a disk that knows no locks keeps nobody out. A new
    /// document alone needs no lock: its name is one.
    pub locked: bool,
}

/// Why a commit was not done.
#[derive(Debug, PartialEq, Eq)]
pub enum CommitError {
    /// Somebody wrote these documents meanwhile; nothing was written.
    Changed(Vec<Doc>),
    /// A document that should be there is gone; nothing was written.
    Gone(Doc),
    /// A document that should be new is there already; nothing was written.
    Taken(Doc),
    /// Another file beside the job has that name; nothing was written.
    AttachmentTaken(JobKey, AttachmentName),
    /// The first documents are written, the rest is not: the disk gave way between them.
    HalfDone {
        /// What is written.
        done: Vec<(Doc, Version)>,
        /// The first that isn't.
        left: Doc,
        /// Why.
        error: ShelfError,
    },
    /// Everything is written, but the disk did not confirm that it outlives a power cut.
    NotSettled {
        /// The versions, in the documents' order.
        versions: Vec<Version>,
        /// Why.
        error: ShelfError,
    },
    /// The line to the server broke on the way: whether it is written is not known.
    NotKnown(ShelfError),
    /// A step failed; nothing was written.
    Shelf(ShelfError),
}

impl From<ShelfError> for CommitError {
    fn from(error: ShelfError) -> Self {
        Self::Shelf(error)
    }
}

impl CommitError {
    /// Where it happened, where that is one place.
    #[must_use]
    pub fn place(&self) -> Option<&str> {
        match self {
            Self::HalfDone { error, .. }
            | Self::NotSettled { error, .. }
            | Self::NotKnown(error)
            | Self::Shelf(error) => Some(error.place()),
            Self::Changed(_) | Self::Gone(_) | Self::Taken(_) | Self::AttachmentTaken(..) => None,
        }
    }
}

impl Commit {
    /// A commit of one document alone.
    #[must_use]
    pub fn one(doc: Doc, bytes: Vec<u8>, expected: Option<Version>) -> Self {
        Self {
            attachments: Vec::new(),
            documents: vec![Write {
                doc,
                bytes,
                expected,
            }],
        }
    }

    /// That no form of the shelf has to refuse it whatever stands there: nothing in it is larger than
    /// can be read again, and nothing is named twice with two contents. `place` is what sentences
    /// call a document, or what lies beside one.
    pub(super) fn check(
        &self,
        place: impl Fn(&Doc, Option<&AttachmentName>) -> String,
    ) -> Result<(), CommitError> {
        let too_large = |place| Err(ShelfError::TooLarge { place }.into());
        let mut docs = BTreeSet::new();
        for write in &self.documents {
            if write.bytes.len() as u64 > LARGEST_FILE {
                return too_large(place(&write.doc, None));
            }
            // The second would rest on what the first took the place of.
            if !docs.insert(&write.doc) {
                let doc = write.doc.clone();
                return Err(match write.expected {
                    Some(_) => CommitError::Changed(vec![doc]),
                    None => CommitError::Taken(doc),
                });
            }
        }
        let mut files = BTreeMap::new();
        for file in &self.attachments {
            if file.bytes.len() as u64 > LARGEST_ATTACHMENT {
                return too_large(place(&Doc::Job(file.job.clone()), Some(&file.name)));
            }
            let before = files.insert((&file.job, &file.name), &file.bytes);
            if before.is_some_and(|before| *before != file.bytes) {
                let (job, name) = (file.job.clone(), file.name.clone());
                return Err(CommitError::AttachmentTaken(job, name));
            }
        }
        Ok(())
    }
}
