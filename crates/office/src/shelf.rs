//! The shelf: jobs and the shop's data, with what lies beside them, shared by several desks.
//!
//! It knows bytes alone. Names are types and never paths; a document's version is the hash of its
//! content, in every form of the shelf; whatever is written goes through one [`Shelf::commit`],
//! which compares the versions that somebody rests on and writes under one lock. A form holds for
//! its calls what every form must hold; `tests/shelf_forms.rs` says what that is.

mod commit;
mod error;
pub mod folder;
pub mod loose;
pub mod memory;

use std::fmt;

use quillbore_job::file::{Hash, hash};

pub use commit::{Attachment, Commit, CommitError, Committed, Write};
pub use error::{ShelfError, Step};
pub use folder::Folder;
pub use loose::Loose;
pub use memory::Memory;

use crate::names::{AttachmentName, JobKey};

/// A shelf, whatever keeps it: a folder, a single file, the memory of a test. Its calls wait for the
/// disk, so the window's thread never makes them.
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

    /// Tells the other desks that `by` has a job open, until what is given back is dropped. It only
    /// tells, and hinders nobody: what keeps work from being lost is that a commit compares versions.
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
}

/// A document of the shelf.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Doc {
    /// A job.
    Job(JobKey),
    /// The shop's own data.
    Shop,
}

/// What a content is known by: its hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Version(pub Hash);

impl Version {
    /// The version of a content.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self(hash(bytes))
    }
}

/// A document's content.
#[derive(Clone, PartialEq, Eq)]
pub struct Stored {
    /// The content.
    pub bytes: Vec<u8>,
    /// What it is known by.
    pub version: Version,
}

impl Stored {
    /// A content with its version.
    #[must_use]
    pub fn new(bytes: Vec<u8>) -> Self {
        Self {
            version: Version::of(&bytes),
            bytes,
        }
    }
}

impl fmt::Debug for Stored {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Stored({} bytes, {})", self.bytes.len(), self.version.0)
    }
}

/// What tells one shelf from another, wherever it is reached: 32 hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark(String);

impl Mark {
    /// A mark out of random bytes.
    #[must_use]
    pub fn of(random: [u8; 16]) -> Self {
        Self(random.iter().map(|byte| format!("{byte:02x}")).collect())
    }

    /// A mark as it was written down.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let digits = |text: &str| text.len() == 32 && text.bytes().all(|b| b.is_ascii_hexdigit());
        let text = text.trim();
        digits(text).then(|| Self(text.to_ascii_lowercase()))
    }

    /// Its digits.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// How far somebody has followed a shelf; what is in it is the shelf's own business.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cursor(pub Vec<u8>);

/// How many bytes the hash in front of a cursor has.
const SEAL: usize = 64;

impl Cursor {
    /// A cursor with a hash in front, so that one that was damaged on its way is found out.
    fn sealed(bytes: &[u8]) -> Self {
        let mut sealed = hash(bytes).to_string().into_bytes();
        sealed.extend(bytes);
        Self(sealed)
    }

    /// What was sealed; `None` for the first cursor, and for one that was damaged.
    fn opened(&self) -> Option<&[u8]> {
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

/// Whether a job could be held.
#[derive(Debug)]
pub enum Held {
    /// By this desk, until this is dropped.
    Here(Box<dyn crate::disk::Held>),
    /// By another desk, in its own words; empty where it can't be named.
    Elsewhere(String),
    /// By nobody, since the disk knows no locks: no desk hears of another one there.
    NoLocks,
    /// By nobody: the shelf can't be written to.
    Unknown,
}

/// Another desk's name as it is told: on one line, and not longer than a line of the window.
fn desk_name(called: &str) -> String {
    const LONGEST: usize = 80;
    let plain = called.trim().chars().filter(|sign| !sign.is_control());
    plain.take(LONGEST).collect()
}
