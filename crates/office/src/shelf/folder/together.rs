//! Several files put in place of what has their names: all of them, or none.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::Files;
use crate::disk::{Disk, Kind};
use crate::shelf::commit::LARGEST_ATTACHMENT;
use crate::shelf::error::{ShelfError, Step};

/// Why files were not put in place together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotTogether {
    /// The step that failed.
    pub why: ShelfError,
    /// Files that are new all the same, since what stood there could not be put back, each with where
    /// that is kept; else everything stands as before.
    pub new: Vec<(PathBuf, Option<PathBuf>)>,
}

/// Writes files of one folder, in place of those that have their names: all of them, or none.
///
/// # Errors
/// Where a step fails, or something that is no plain file has one of the names.
pub fn write_together(
    disk: &Arc<dyn Disk>,
    folder: &Path,
    files: &[(PathBuf, &[u8])],
) -> Result<(), NotTogether> {
    let mut writing = Writing {
        files: Files::new(Arc::clone(disk), folder),
        waiting: Vec::new(),
        placed: Vec::new(),
    };
    let done = writing
        .write_beside(files)
        .and_then(|()| writing.put_in_place())
        .and_then(|()| writing.files.settle(folder));
    match done {
        Ok(()) => {
            writing.clear();
            Ok(())
        }
        Err(why) => {
            let new = writing.take_back();
            Err(NotTogether { why, new })
        }
    }
}

/// A file that is written and has not got its name yet, or has it now.
struct One {
    path: PathBuf,
    beside: PathBuf,
    /// Another name of what has the name, or a copy of it, where anything has.
    earlier: Option<PathBuf>,
}

struct Writing {
    files: Files,
    /// The next one to be put in place stands last.
    waiting: Vec<One>,
    placed: Vec<One>,
}

impl Writing {
    /// Whatever takes room is done here, before anything is replaced.
    fn write_beside(&mut self, files: &[(PathBuf, &[u8])]) -> Result<(), ShelfError> {
        for (path, bytes) in files.iter().rev() {
            let beside = self.files.write_beside(path, bytes);
            let beside = beside.map_err(self.files.step(Step::WriteNew, path))?;
            self.waiting.push(One {
                path: path.clone(),
                beside,
                earlier: None,
            });
        }
        for one in &mut self.waiting {
            one.earlier = match self.files.kind(&one.path)? {
                None => None,
                Some(Kind::File) => {
                    let kept = self.files.keep_earlier(&one.path);
                    Some(kept.map_err(self.files.step(Step::KeepPrevious, &one.path))?)
                }
                Some(other) => return Err(self.files.no_file(other, &one.path)),
            };
        }
        Ok(())
    }

    fn put_in_place(&mut self) -> Result<(), ShelfError> {
        while let Some(one) = self.waiting.pop() {
            let put = self.files.put_over(&one.beside, &one.path);
            if put.is_err() {
                self.waiting.push(one);
                return put;
            }
            self.placed.push(one);
        }
        Ok(())
    }

    /// Takes away what was of use only until all were in place.
    fn clear(&self) {
        for one in &self.placed {
            self.forget(one.earlier.as_deref());
        }
    }

    /// Puts back what stood there; what can't be put back.
    fn take_back(&mut self) -> Vec<(PathBuf, Option<PathBuf>)> {
        for one in &self.waiting {
            self.forget(Some(&one.beside));
            self.forget(one.earlier.as_deref());
        }
        let mut new = Vec::new();
        for one in self.placed.drain(..).rev() {
            let back = match &one.earlier {
                Some(earlier) => self.files.disk.rename(earlier, &one.path),
                None => self.files.disk.remove(&one.path),
            };
            if back.is_err() {
                new.push((one.path, one.earlier));
            }
        }
        let _ = self.files.settle(self.files.root());
        new
    }

    /// What can't be taken away is of no use to anybody, and does no harm.
    fn forget(&self, path: Option<&Path>) {
        if let Some(path) = path {
            let _ = self.files.disk.remove(path);
        }
    }
}

impl Files {
    /// Gives a file another name beside its own, or copies it where a file has one name only.
    fn keep_earlier(&self, path: &Path) -> io::Result<PathBuf> {
        const MOST_LEFT_BEHIND: u32 = 1_000;
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        for attempt in 0..MOST_LEFT_BEHIND {
            let earlier = path.with_file_name(format!(".{name}.{attempt}.old"));
            let kept = match self.disk.name_new(path, &earlier) {
                Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
                    self.copy(path, &earlier)
                }
                named => named,
            };
            match kept {
                Ok(()) => return Ok(earlier),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error),
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }

    fn copy(&self, from: &Path, to: &Path) -> io::Result<()> {
        let bytes = self.disk.read(from, LARGEST_ATTACHMENT)?;
        let written = self.disk.write_new(to, &bytes);
        if written
            .as_ref()
            .is_err_and(|error| error.kind() != io::ErrorKind::AlreadyExists)
        {
            let _ = self.disk.remove(to);
        }
        written
    }
}
