//! Writing attachments and documents at once, under the locks of all jobs that are touched.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};

use quillbore_job::file::LARGEST_FILE;

use super::Files;
use super::files::LARGEST_ATTACHMENT;
use super::put::Put;
use crate::disk::{Kind, Lock};
use crate::shelf::{
    Attachment, Commit, CommitError, Committed, Doc, ShelfError, Step, Version, Write,
};

impl Files {
    pub(in crate::shelf) fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        // Nothing may be made for a job that is gone, such as a folder beside it.
        for write in &commit.documents {
            let there = self.kind(&self.doc_path(&write.doc))?;
            match (write.expected, there) {
                (Some(_), None) => return Err(CommitError::Gone(write.doc.clone())),
                (None, Some(_)) => return Err(CommitError::Taken(write.doc.clone())),
                (Some(_), Some(Kind::File)) | (None, None) => {}
                (Some(_), Some(other)) => {
                    return Err(self.no_file(other, &self.doc_path(&write.doc)).into());
                }
            }
        }
        let locks = self.lock_all(commit)?;
        let mut to_write = Vec::new();
        let mut changed = Vec::new();
        for write in &commit.documents {
            match self.compare(write)? {
                Compared::Same => {}
                Compared::Before(before) => to_write.push((write, before)),
                Compared::Changed => changed.push(write.doc.clone()),
            }
        }
        if !changed.is_empty() {
            return Err(CommitError::Changed(changed));
        }
        let mut made = Vec::new();
        let written = self.attach_all(&commit.attachments, &mut made);
        let placed = written.and_then(|()| self.write_all(&to_write));
        let keeps = matches!(
            placed,
            Ok(()) | Err(CommitError::HalfDone { .. } | CommitError::NotSettled { .. })
        );
        if !keeps {
            // No document names them, so they never were.
            for path in made {
                let _ = self.disk.remove(&path);
            }
        }
        let versions: Vec<Version> = commit
            .documents
            .iter()
            .map(|write| Version::of(&write.bytes))
            .collect();
        match placed {
            Ok(()) => Ok(Committed {
                versions,
                locked: locks.iter().all(Lock::is_real),
            }),
            Err(CommitError::NotSettled { error, .. }) => {
                Err(CommitError::NotSettled { versions, error })
            }
            Err(other) => Err(other),
        }
    }

    /// The locks of every job that is touched, in the order of their names, so that two desks never
    /// wait for each other. A new document alone needs none: its name is the lock.
    fn lock_all(&self, commit: &Commit) -> Result<Vec<Lock>, CommitError> {
        let rests = commit.documents.iter().filter(|w| w.expected.is_some());
        let documents = rests.map(|write| write.doc.clone());
        let attachments = commit.attachments.iter().map(|a| Doc::Job(a.job.clone()));
        let docs: BTreeSet<Doc> = documents.chain(attachments).collect();
        let mut locks = Vec::new();
        for doc in &docs {
            self.make_folder(doc)?;
            let path = self.folder(doc).join("saving.lock");
            if let Some(kind @ (Kind::Link | Kind::Folder | Kind::Other)) = self.kind(&path)? {
                return Err(self.no_file(kind, &path).into());
            }
            let lock = self.disk.hold(&path);
            locks.push(lock.map_err(self.step(Step::Wait, &path))?);
        }
        Ok(locks)
    }

    pub(super) fn make_folder(&self, doc: &Doc) -> Result<(), ShelfError> {
        if self.has_folder(doc)? {
            return Ok(());
        }
        let folder = self.folder(doc);
        let made = self.disk.make_folder(&folder);
        made.map_err(self.step(Step::MakeFolder, &folder))
    }

    fn compare(&self, write: &Write) -> Result<Compared, CommitError> {
        let there = self.read_plain(&self.doc_path(&write.doc), LARGEST_FILE)?;
        match (there, write.expected) {
            (None, None) => Ok(Compared::Before(None)),
            // Also one of the same content is another desk's: two new jobs may look alike.
            (Some(_), None) => Err(CommitError::Taken(write.doc.clone())),
            (None, Some(_)) => Err(CommitError::Gone(write.doc.clone())),
            // A save whose confirmation got lost: nothing is left to do.
            (Some(there), Some(_)) if there == write.bytes => Ok(Compared::Same),
            (Some(there), Some(expected)) if Version::of(&there) == expected => {
                Ok(Compared::Before(Some(there)))
            }
            (Some(_), Some(_)) => Ok(Compared::Changed),
        }
    }

    /// Writes new files beside jobs; `made` gets the paths of those that were not there before.
    fn attach_all(
        &self,
        attachments: &[Attachment],
        made: &mut Vec<PathBuf>,
    ) -> Result<(), CommitError> {
        let mut folders = BTreeSet::new();
        for attachment in attachments {
            let path = self.beside_path(&attachment.job, &attachment.name);
            let taken =
                || CommitError::AttachmentTaken(attachment.job.clone(), attachment.name.clone());
            match self.kind(&path)? {
                None => {}
                Some(Kind::File) => {
                    let there = self.read_plain(&path, LARGEST_ATTACHMENT)?;
                    if there.as_deref() == Some(attachment.bytes.as_slice()) {
                        continue;
                    }
                    return Err(taken());
                }
                Some(Kind::Link | Kind::Folder | Kind::Other) => return Err(taken()),
            }
            let put = self.put_new(&path, &attachment.bytes);
            match put.map_err(self.step(Step::WriteNew, &path))? {
                Put::Placed => made.push(path),
                Put::Taken => return Err(taken()),
            }
            folders.insert(self.folder(&Doc::Job(attachment.job.clone())));
        }
        for folder in &folders {
            self.settle(folder)?;
        }
        Ok(())
    }

    /// Writes every document beside its place first, so that a full disk is found before anything
    /// is put in place; then puts them there, one after the other.
    fn write_all(&self, to_write: &[(&Write, Option<Vec<u8>>)]) -> Result<(), CommitError> {
        let mut ready: Vec<(&Write, PathBuf)> = Vec::new();
        let clear = |ready: &[(&Write, PathBuf)]| {
            for (_, beside) in ready {
                let _ = self.disk.remove(beside);
            }
        };
        for (write, before) in to_write {
            let path = self.doc_path(&write.doc);
            let kept = before
                .as_ref()
                .map_or(Ok(()), |before| self.keep_previous(&write.doc, before));
            let beside = kept.and_then(|()| {
                let beside = self.write_beside(&path, &write.bytes);
                beside.map_err(self.step(Step::WriteNew, &path))
            });
            match beside {
                Ok(beside) => ready.push((write, beside)),
                Err(error) => {
                    clear(&ready);
                    return Err(error.into());
                }
            }
        }
        let mut done = Vec::new();
        for (at, (write, beside)) in ready.iter().enumerate() {
            let Err(error) = self.put_in_place(write, beside) else {
                done.push((write.doc.clone(), Version::of(&write.bytes)));
                continue;
            };
            clear(&ready[at + 1..]);
            if done.is_empty() {
                return Err(error);
            }
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

    /// Keeps the version that is about to be replaced; its loss must not be found out afterwards.
    fn keep_previous(&self, doc: &Doc, before: &[u8]) -> Result<(), ShelfError> {
        self.make_folder(doc)?;
        let path = self.previous_path(doc);
        let beside = self.write_beside(&path, before);
        let beside = beside.map_err(self.step(Step::KeepPrevious, &path))?;
        self.put_over(&beside, &path)?;
        self.settle(&self.folder(doc))
    }
}

/// What stands where a document is going to be written.
enum Compared {
    /// The new content already.
    Same,
    /// What was expected.
    Before(Option<Vec<u8>>),
    /// Something else.
    Changed,
}
