//! Documents: written beside their places first, all of them, then put there one after the other.

use std::io;
use std::path::{Path, PathBuf};

use super::Files;
use crate::shelf::commit::{CommitError, Write};
use crate::shelf::doc::{Doc, Version};
use crate::shelf::error::{ShelfError, Step};
use crate::shelf::folder::put::Put;

/// A document that is written beside its place.
struct Ready<'a> {
    write: &'a Write,
    /// Its new content.
    beside: PathBuf,
    /// The content that it takes the place of, where it does, to be kept as the version before.
    before: Option<PathBuf>,
}

impl Files {
    /// Writes every document beside its place first, and the version before it, so that a full disk
    /// is found before anything is put in place; then puts them there.
    pub(super) fn write_all(
        &self,
        to_write: &[(&Write, Option<Vec<u8>>)],
    ) -> Result<(), CommitError> {
        let mut ready = Vec::new();
        let kept = self.write_beside_all(to_write, &mut ready);
        // The loss of the version before must not be found out when the new one stands there.
        let kept = kept.and_then(|()| ready.iter_mut().try_for_each(|one| self.keep_previous(one)));
        if let Err(error) = kept {
            self.clear(&ready);
            return Err(error.into());
        }
        self.put_all(&ready)
    }

    fn write_beside_all<'a>(
        &self,
        to_write: &[(&'a Write, Option<Vec<u8>>)],
        ready: &mut Vec<Ready<'a>>,
    ) -> Result<(), ShelfError> {
        for (write, before) in to_write {
            let path = self.doc_path(&write.doc);
            let beside = self.write_beside(&path, &write.bytes);
            ready.push(Ready {
                write,
                beside: beside.map_err(self.step(Step::WriteNew, &path))?,
                before: None,
            });
            let Some(before) = before else { continue };
            let path = self.previous_path(&write.doc);
            let beside = self.write_beside(&path, before);
            let beside = beside.map_err(self.step(Step::KeepPrevious, &path))?;
            if let Some(last) = ready.last_mut() {
                last.before = Some(beside);
            }
        }
        Ok(())
    }

    fn keep_previous(&self, ready: &mut Ready<'_>) -> Result<(), ShelfError> {
        let Some(before) = ready.before.take() else {
            return Ok(());
        };
        let doc = &ready.write.doc;
        self.put_over(&before, &self.previous_path(doc))?;
        self.settle(&self.folder(doc))
    }

    fn put_all(&self, ready: &[Ready<'_>]) -> Result<(), CommitError> {
        let mut done = Vec::new();
        for (at, Ready { write, beside, .. }) in ready.iter().enumerate() {
            let Err(error) = self.put_in_place(write, beside) else {
                done.push((write.doc.clone(), Version::of(&write.bytes)));
                continue;
            };
            self.clear(&ready[at + 1..]);
            if done.is_empty() {
                return Err(error);
            }
            // That the rest failed is what counts, whether this is confirmed or not.
            let _ = self.settle(self.root());
            return Err(self.half_done(done, write, error));
        }
        if done.is_empty() {
            return Ok(());
        }
        self.settle(self.root())
            .map_err(|error| CommitError::NotSettled {
                versions: Vec::new(),
                error,
            })
    }

    fn put_in_place(&self, write: &Write, beside: &Path) -> Result<(), CommitError> {
        let path = self.doc_path(&write.doc);
        if write.expected.is_some() {
            return Ok(self.put_over(beside, &path)?);
        }
        let put = self.put_as_new(beside, &path);
        match put.map_err(self.step(Step::PutInPlace, &path))? {
            Put::Placed => Ok(()),
            Put::Taken => Err(CommitError::Taken(write.doc.clone())),
        }
    }

    fn half_done(
        &self,
        done: Vec<(Doc, Version)>,
        write: &Write,
        error: CommitError,
    ) -> CommitError {
        let error = match error {
            CommitError::Shelf(error) => error,
            other => {
                let taken = io::Error::new(io::ErrorKind::AlreadyExists, other.to_string());
                self.step(Step::PutInPlace, &self.doc_path(&write.doc))(taken)
            }
        };
        CommitError::HalfDone {
            done,
            left: write.doc.clone(),
            error,
        }
    }

    /// Takes away what was written beside places and is of no use to anybody.
    fn clear(&self, ready: &[Ready<'_>]) {
        for one in ready {
            for beside in [Some(&one.beside), one.before.as_ref()] {
                let _ = beside.map(|beside| self.disk.remove(beside));
            }
        }
    }
}
