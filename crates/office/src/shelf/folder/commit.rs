//! Writing attachments and documents at once, under the locks of all jobs that are touched.

mod attach;
mod documents;

use std::collections::BTreeSet;

use quillbore_job::file::LARGEST_FILE;

use super::Files;
use crate::disk::{Kind, Lock};
use crate::shelf::commit::{Commit, CommitError, Committed, Write};
use crate::shelf::doc::{Doc, Version};
use crate::shelf::error::{ShelfError, Step};

impl Files {
    pub(in crate::shelf) fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        commit.check(|doc, name| {
            self.shown(&match (doc, name) {
                (Doc::Job(job), Some(name)) => self.beside_path(job, name),
                _ => self.doc_path(doc),
            })
        })?;
        self.look_first(commit)?;
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

    /// That what should be there is, and what should be new is not: nothing may be made for a job
    /// that is gone, such as a folder beside it.
    fn look_first(&self, commit: &Commit) -> Result<(), CommitError> {
        for write in &commit.documents {
            let path = self.doc_path(&write.doc);
            match (write.expected, self.kind(&path)?) {
                (Some(_), None) => return Err(CommitError::Gone(write.doc.clone())),
                (None, Some(_)) => return Err(CommitError::Taken(write.doc.clone())),
                (Some(_), Some(Kind::File)) | (None, None) => {}
                (Some(_), Some(other)) => return Err(self.no_file(other, &path).into()),
            }
        }
        Ok(())
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
