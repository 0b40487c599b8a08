//! Putting a file in place so that at every moment the old or the new content stands there, whole.

use std::io;
use std::path::{Path, PathBuf};

use super::Files;
use crate::disk::Kind;
use crate::shelf::error::{ShelfError, Step};

/// How putting a new file in place ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::shelf) enum Put {
    /// It has the name.
    Placed,
    /// Something else has it.
    Taken,
}

impl Files {
    /// Writes the bytes to a new file in the folder of `path`, and to the medium: a name that is
    /// there after a power cut must never stand for a content that is not.
    pub(super) fn write_beside(&self, path: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
        // Each save that was cut off leaves one file; nobody may take away what could be another
        // desk's, so a save goes past them.
        const MOST_LEFT_BEHIND: u32 = 100_000;
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        for attempt in 0..MOST_LEFT_BEHIND {
            let beside = path.with_file_name(format!(".{name}.{attempt}.new"));
            let written = self.disk.write_new(&beside, bytes);
            match written.and_then(|()| self.disk.sync_file(&beside)) {
                Ok(()) => return Ok(beside),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => {
                    let _ = self.disk.remove(&beside);
                    return Err(error);
                }
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }

    /// Gives what lies beside the name of a file that is there, or of none; a link, a folder or a
    /// pipe keeps its name.
    pub(super) fn put_over(&self, beside: &Path, path: &Path) -> Result<(), ShelfError> {
        let placed = match self.kind(path)? {
            Some(kind @ (Kind::Link | Kind::Folder | Kind::Other)) => Err(self.no_file(kind, path)),
            Some(Kind::File) | None => {
                let renamed = self.disk.rename(beside, path);
                renamed.map_err(self.step(Step::PutInPlace, path))
            }
        };
        // What lies beside is of no use to anybody; the failure that counts is the first.
        placed.inspect_err(|_| drop(self.disk.remove(beside)))
    }

    /// Gives what lies beside a name that nothing has yet.
    pub(super) fn put_as_new(&self, beside: &Path, path: &Path) -> io::Result<Put> {
        match self.disk.name_new(beside, path) {
            Ok(()) => {
                let _ = self.disk.remove(beside);
                Ok(Put::Placed)
            }
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                let _ = self.disk.remove(beside);
                Ok(Put::Taken)
            }
            // A memory stick has no second names: take the name with an empty file, then replace that.
            Err(_) => self.take_name(beside, path),
        }
    }

    fn take_name(&self, beside: &Path, path: &Path) -> io::Result<Put> {
        if let Err(error) = self.disk.write_new(path, b"") {
            let _ = self.disk.remove(beside);
            if error.kind() == io::ErrorKind::AlreadyExists {
                return Ok(Put::Taken);
            }
            self.remove_if_empty(path);
            return Err(error);
        }
        let renamed = self.disk.rename(beside, path);
        if renamed.is_err() {
            let _ = self.disk.remove(beside);
            self.remove_if_empty(path);
        }
        renamed.map(|()| Put::Placed)
    }

    /// Takes away the empty file that held a name; never one that somebody wrote to.
    fn remove_if_empty(&self, path: &Path) {
        // By its length, not by reading it: a read that ends early is no empty file.
        let look = self.disk.look(path);
        if look.is_ok_and(|look| look.kind == Kind::File && look.stamp.bytes == 0) {
            let _ = self.disk.remove(path);
        }
    }

    /// Writes a file that must not be there yet, whole or not at all.
    pub(in crate::shelf) fn put_new(&self, path: &Path, bytes: &[u8]) -> io::Result<Put> {
        let beside = self.write_beside(path, bytes)?;
        self.put_as_new(&beside, path)
    }

    /// Brings a folder's names to the medium.
    pub(super) fn settle(&self, folder: &Path) -> Result<(), ShelfError> {
        let synced = self.disk.sync_folder(folder);
        synced.map_err(self.step(Step::Settle, folder))
    }
}
