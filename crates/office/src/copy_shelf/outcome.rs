//! What copying a shelf comes to.

use std::collections::{BTreeMap, BTreeSet};

use crate::names::{AttachmentName, JobKey};
use crate::shelf::{CommitError, Doc, ShelfError, Unusable};

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
    pub documents: BTreeSet<Doc>,
    /// Documents that were there already.
    pub there: BTreeSet<Doc>,
    /// Files beside jobs that were written.
    pub files: usize,
    /// Documents that are others at the second shelf; what lies beside them was left out with them.
    pub others: BTreeSet<Doc>,
    /// Files that are others at the second shelf.
    pub other_files: BTreeSet<(JobKey, AttachmentName)>,
    /// What lies among the jobs of the first and can't be one.
    pub unusable: Vec<Unusable>,
    /// Files that the first names and doesn't have.
    pub lost: BTreeSet<(JobKey, AttachmentName)>,
    /// Documents and files of the first that can't be read, and why.
    pub not_read: BTreeMap<(Doc, Option<AttachmentName>), ShelfError>,
    /// What lies at the first and is none of its own.
    pub strays: Vec<String>,
    /// The second place was empty, or had half a copy.
    pub is_new: bool,
    /// Nobody stopped it.
    pub is_done: bool,
}

impl Copied {
    /// Whether all that the first shelf keeps is at the second as it is there.
    #[must_use]
    pub fn is_all(&self) -> bool {
        self.is_done
            && self.others.is_empty()
            && self.other_files.is_empty()
            && self.unusable.is_empty()
            && self.lost.is_empty()
            && self.not_read.is_empty()
    }
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
