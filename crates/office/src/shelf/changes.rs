//! What is other on a shelf than it was, and how far somebody has followed it.

use quillbore_job::file::hash;

use super::doc::Doc;

/// How far somebody has followed a shelf; what is in it is the shelf's own business.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cursor(pub Vec<u8>);

/// How many bytes the hash in front of a cursor has.
const SEAL: usize = 64;

impl Cursor {
    /// A cursor with a hash in front, so that one that was damaged on its way is found out.
    pub(super) fn sealed(bytes: &[u8]) -> Self {
        let mut sealed = hash(bytes).to_string().into_bytes();
        sealed.extend(bytes);
        Self(sealed)
    }

    /// What was sealed; `None` for the first cursor, and for one that was damaged.
    pub(super) fn opened(&self) -> Option<&[u8]> {
        let (seal, bytes) = self.0.split_at_checked(SEAL)?;
        (seal == hash(bytes).to_string().as_bytes()).then_some(bytes)
    }
}

/// What is other on a shelf than it was.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Changes {
    /// Documents that are new or perhaps changed.
    pub there: Vec<Doc>,
    /// Documents that are gone.
    pub gone: Vec<Doc>,
    /// Whether `there` names every document that there is, as for the first cursor and for one that
    /// was damaged: whatever else somebody knew of is gone.
    pub all: bool,
    /// What lies among the jobs and can't be one, all of it each time.
    pub unusable: Vec<Unusable>,
    /// Where to go on from.
    pub cursor: Cursor,
}

/// Something among the jobs that can't be one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Unusable {
    /// What it is called, as far as that is text.
    pub name: String,
    /// Why it can't be a job.
    pub why: Why,
}

/// Why something on a shelf can't be a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// It is a link to something else.
    Link,
    /// It is a folder.
    Folder,
    /// It is a pipe or a device.
    NoFile,
    /// Its ending is not spelled `.ron`.
    Ending,
    /// Its name is no text.
    NoText,
    /// No job may have that name.
    Name,
}
