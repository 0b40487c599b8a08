//! The steps that a disk is asked for, and what they tell.

use std::ffi::OsString;
use std::fmt::Debug;
use std::io;
use std::path::Path;

use serde::{Deserialize, Serialize};

/// A disk; tests have one that fails or writes short at any step.
pub trait Disk: Debug + Send + Sync {
    /// Everything in a folder, links not followed; what goes away meanwhile is left out.
    fn list(&self, folder: &Path) -> io::Result<Vec<Found>>;
    /// What stands under a name, a link not followed; an error of kind `NotFound` where there is
    /// nothing.
    fn look(&self, path: &Path) -> io::Result<Look>;
    /// A plain file's bytes, all of them, as long as they are no more than `most`, else an error of
    /// kind `FileTooLarge`; anything but a plain file is refused without waiting for it.
    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>>;
    /// Makes a folder with the rights of the one above it; fine where it is there. Where people
    /// may not replace each other's files it is the user's own.
    fn make_folder(&self, path: &Path) -> io::Result<()>;
    /// Makes a new file with the rights of its folder and writes all the bytes, which are on the
    /// medium only once it is synced; refuses where anything is there, a link too. Where people may
    /// not replace each other's files it is the user's own.
    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Brings a file's content to the medium.
    fn sync_file(&self, path: &Path) -> io::Result<()>;
    /// Gives a file another name, in place of a file that has it; refuses where that one is
    /// read-only, keeps its rights, and sees to it that the new stamp is a later one.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Gives a file a second name that no other file has yet, so that neither ever takes the
    /// other's place.
    fn name_new(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Brings a folder's names to the medium.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
    /// Takes a file away; of a link, the link.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Waits a little until no other process holds this lock file, and holds it; an error of kind
    /// `TimedOut` where another one does not let go.
    fn hold(&self, path: &Path) -> io::Result<Lock>;
    /// Holds this lock file at once; an error of kind `WouldBlock` where another process has it.
    fn hold_now(&self, path: &Path) -> io::Result<Lock>;
}

/// Something in a folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// Its name, which need not be text.
    pub name: OsString,
    /// What it is.
    pub look: Look,
}

/// What stands under a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// What it is.
    pub kind: Kind,
    /// What tells that it may have changed.
    pub stamp: Stamp,
}

/// What something on a disk is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A plain file.
    File,
    /// A folder.
    Folder,
    /// A link to something else.
    Link,
    /// A pipe, a device, a socket.
    Other,
}

/// What tells that a file may have changed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Nanoseconds from 1970 to its last change, on the disk's own clock.
    pub changed_ns: i64,
    /// Its length.
    pub bytes: u64,
}

/// A lock held until this is dropped.
#[derive(Debug)]
pub struct Lock {
    held: Option<Box<dyn Held>>,
}

/// What keeps a lock as long as it is there.
pub trait Held: Debug + Send + Sync {}
impl<T: Debug + Send + Sync> Held for T {}

impl Lock {
    /// A lock that others feel.
    #[must_use]
    pub fn real(held: impl Held + 'static) -> Self {
        Self {
            held: Some(Box::new(held)),
        }
    }

    /// Nothing: the disk knows no locks.
    #[must_use]
    pub const fn unknown() -> Self {
        Self { held: None }
    }

    /// Whether others feel it; where the disk knows no locks they don't.
    #[must_use]
    pub const fn is_real(&self) -> bool {
        self.held.is_some()
    }
}
