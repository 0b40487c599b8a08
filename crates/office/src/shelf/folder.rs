//! A shelf in a folder: a file for each job, a folder beside it, shared by desks on one disk.
//!
//! Of what others do in the folder at the same moment, this is ruled out: two desks never both
//! replace the same version, where the disk knows locks; of two that make a name one alone has it;
//! and on Unix no link, pipe or device under the name of a file of ours is followed, read or written,
//! however fast it comes to stand there, since every opening refuses it by itself.
//!
//! This is not, since a folder is reached by names alone: between the look at the folder beside a job
//! and its use, somebody who may write to the shelf can put a link in its place, and what is made then
//! is made where that leads; between the look at the mark and the writing the share can vanish, and
//! then one file can be made under its mount point; a program that is not ours takes no lock, so what
//! it writes to a job between our comparing and our renaming is lost, as is another desk's where
//! [`Committed::locked`] is false; and a file of the same length and time as the one before is taken
//! for that one, which no save of ours leaves, but a copy that keeps times can.

mod changes;
mod commit;
mod files;
mod hold;
mod put;
mod strays;
mod together;

use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

pub(super) use files::Files;
pub use together::{NotTogether, write_together};

use super::changes::{Changes, Cursor};
use super::commit::{Commit, CommitError, Committed};
use super::doc::{Doc, Stored};
use super::error::{ShelfError, Step};
use super::form::{CopyPlace, Shelf};
use super::held::Held;
use super::mark::Mark;
use crate::disk::Disk;
use crate::names::{AttachmentName, JobKey};

/// The file that says that a folder is a shelf, and which.
pub const MARK_FILE: &str = "quillbore-shelf.txt";

/// The file that says that a folder is a copy that is not whole yet, and of which shelf.
const COPY_FILE: &str = "quillbore-copying.txt";

/// A shelf in a folder.
#[derive(Debug)]
pub struct Folder {
    files: Files,
    /// It is this one that makes the copy there.
    copies: AtomicBool,
    /// The mark that it had when it was seen first: a folder with another one is another shelf.
    mark: Mutex<Option<Mark>>,
}

impl Folder {
    /// A shelf in a folder; `known` is the mark it must have, where somebody knows that.
    #[must_use]
    pub fn new(disk: Arc<dyn Disk>, root: &Path, known: Option<Mark>) -> Self {
        Self {
            files: Files::new(disk, root),
            copies: AtomicBool::new(false),
            mark: Mutex::new(known),
        }
    }

    /// The folder.
    #[must_use]
    pub fn root(&self) -> &Path {
        self.files.root()
    }

    /// The file that a job stands in.
    #[must_use]
    pub fn path_of(&self, job: &JobKey) -> PathBuf {
        self.files.doc_path(&Doc::Job(job.clone()))
    }

    fn mark_path(&self) -> PathBuf {
        self.files.root().join(MARK_FILE)
    }

    fn copy_path(&self) -> PathBuf {
        self.files.root().join(COPY_FILE)
    }

    /// The mark in a file, if it is there and has one.
    fn mark_in(&self, path: &Path) -> Result<Option<Mark>, ShelfError> {
        const LARGEST: u64 = 10_000;
        let found = self.files.read_plain(path, LARGEST)?;
        let text = found.map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
        Ok(text.and_then(|text| text.lines().find_map(Mark::read)))
    }

    /// Writes a new file with a mark, to the medium; one that is there already stays.
    fn write_mark(&self, path: &Path, text: &str) -> Result<(), ShelfError> {
        let put = self.files.put_new(path, text.as_bytes());
        put.map_err(self.files.step(Step::Adopt, path))?;
        self.files.settle(self.root())
    }

    /// What this place is to a copy of the shelf with a mark; an empty one is taken for it.
    fn copy_place(&self, mark: &Mark) -> Result<CopyPlace, ShelfError> {
        let (there, copying) = (self.mark()?, self.copy_path());
        let is_ours = |found: Option<Mark>| found.as_ref() == Some(mark);
        if there.is_none() {
            // The first to write this file makes its copy here; a mark comes after it.
            self.write_mark(&copying, &crate::words::shelf::copy_file(mark))?;
            if !is_ours(self.mark_in(&copying)?) {
                return Ok(CopyPlace::Another);
            }
            self.adopt(mark)?;
        }
        let is_half = self.files.kind(&copying)?.is_some();
        Ok(match (is_ours(self.mark()?), is_half) {
            (true, true) => CopyPlace::Unfinished,
            (true, false) => CopyPlace::Whole,
            (false, _) => CopyPlace::Another,
        })
    }

    fn vanished(&self) -> ShelfError {
        ShelfError::Vanished {
            place: self.place(),
        }
    }

    /// That this is the shelf that it was: nothing is ever written where the mark is missing.
    fn check_mark(&self) -> Result<(), ShelfError> {
        match self.mark()? {
            Some(_) => Ok(()),
            None => Err(ShelfError::NotMarked {
                place: self.place(),
            }),
        }
    }

    /// What was found; where that is nothing, the shelf must still be there: in an empty mount point
    /// every job would seem gone.
    fn seen<T>(&self, found: Option<T>) -> Result<Option<T>, ShelfError> {
        if found.is_none() {
            self.mark()?;
        }
        Ok(found)
    }
}

/// Writes a file outside any shelf whole or not at all: a new one beside it, brought to the medium,
/// then given its name.
///
/// # Errors
/// Where a step fails; what stood there stands there still.
pub fn write_whole(disk: &Arc<dyn Disk>, path: &Path, bytes: &[u8]) -> Result<(), ShelfError> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let files = Files::new(Arc::clone(disk), folder);
    let beside = files.write_beside(path, bytes);
    let beside = beside.map_err(files.step(Step::WriteNew, path))?;
    files.put_over(&beside, path)?;
    files.settle(folder)
}

impl Shelf for Folder {
    fn place(&self) -> String {
        self.files.root().to_string_lossy().into_owned()
    }

    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        self.files.shown(&self.files.beside_path(job, name))
    }

    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        let found = self.mark_in(&self.mark_path())?;
        let copies = self.copies.load(Ordering::Acquire);
        if !copies && self.files.kind(&self.copy_path())?.is_some() {
            return Err(ShelfError::HalfCopied {
                place: self.place(),
            });
        }
        let mut known = self.mark.lock().unwrap_or_else(PoisonError::into_inner);
        match (&found, &*known) {
            (Some(now), Some(before)) if now != before => Err(self.vanished()),
            // An empty mount point, or somebody took the mark away.
            (None, Some(_)) => Err(self.vanished()),
            (Some(_), Some(_)) | (None, None) => Ok(found),
            (Some(_), None) => {
                known.clone_from(&found);
                Ok(found)
            }
        }
    }

    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError> {
        if self.mark()?.is_some() {
            return Ok(());
        }
        let text = crate::words::shelf::mark_file(mark);
        let path = self.mark_path();
        self.write_mark(&path, &text)?;
        // Another desk may have been faster: then its mark stands. A file of that name without a mark
        // is not ours to replace.
        if self.mark()?.is_none() {
            let says = io::Error::new(io::ErrorKind::InvalidData, crate::words::shelf::NO_MARK);
            return Err(self.files.step(Step::Adopt, &path)(says));
        }
        Ok(())
    }

    fn begin_copy(&self, mark: &Mark) -> Result<CopyPlace, ShelfError> {
        self.copies.store(true, Ordering::Release);
        let place = self.copy_place(mark);
        let begun = matches!(place, Ok(CopyPlace::Unfinished));
        self.copies.store(begun, Ordering::Release);
        place
    }

    fn end_copy(&self) -> Result<(), ShelfError> {
        let path = self.copy_path();
        if self.files.kind(&path)?.is_some() {
            let removed = self.files.disk.remove(&path);
            removed.map_err(self.files.step(Step::Adopt, &path))?;
            self.files.settle(self.root())?;
        }
        self.copies.store(false, Ordering::Release);
        Ok(())
    }

    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.seen(self.files.read(doc)?)
    }

    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.seen(self.files.previous(doc)?)
    }

    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        // An empty mount point would make every job seem gone.
        self.mark()?;
        self.files.changes(since)
    }

    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        self.check_mark()?;
        self.files.commit(commit)
    }

    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        self.mark()?;
        self.files.highest_number(year)
    }

    fn hold(&self, job: &JobKey, by: &str) -> Held {
        if self.check_mark().is_err() {
            return Held::Unknown;
        }
        self.files.hold(job, by)
    }

    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        self.seen(self.files.attachment(job, name)?)
    }

    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        let names = self.files.attachments(job)?;
        if names.is_empty() {
            self.mark()?;
        }
        Ok(names)
    }
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        self.mark()?;
        self.files.jobs_with_files()
    }

    fn strays(&self) -> Result<Vec<String>, ShelfError> {
        self.mark()?;
        self.files.strays()
    }
}
