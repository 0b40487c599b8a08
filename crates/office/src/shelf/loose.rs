//! A single job's file that lies on no shelf: opened by a double click or named to a command.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::changes::{Changes, Cursor};
use super::commit::{Commit, CommitError, Committed};
use super::doc::{Doc, Stored};
use super::error::ShelfError;
use super::folder::Files;
use super::form::Shelf;
use super::held::Held;
use super::mark::Mark;
use crate::disk::Disk;
use crate::names::{AttachmentName, JobKey, NameRefused};

/// A single job's file with the folder beside it; there is nothing else here.
#[derive(Debug)]
pub struct Loose {
    files: Files,
    path: PathBuf,
    key: JobKey,
}

impl Loose {
    /// The file at a path, which need not be there yet; `.ron` is put behind where it is missing.
    ///
    /// # Errors
    /// Where no job may have its name.
    pub fn new(disk: Arc<dyn Disk>, path: &Path) -> Result<Self, NameRefused> {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        // What is no text would be another file's name.
        if path.file_name().is_some_and(|name| name.to_str().is_none()) {
            return Err(NameRefused::Sign {
                name: name.into_owned(),
                sign: char::REPLACEMENT_CHARACTER,
            });
        }
        let stem = name.strip_suffix(".ron").unwrap_or(&name);
        let key = JobKey::new(stem)?;
        let root = match path.parent() {
            Some(folder) if !folder.as_os_str().is_empty() => folder,
            _ => Path::new("."),
        };
        Ok(Self {
            files: Files::new(disk, root),
            path: root.join(format!("{key}.ron")),
            key,
        })
    }

    /// The job's name.
    #[must_use]
    pub const fn key(&self) -> &JobKey {
        &self.key
    }

    /// The folder that it lies in.
    #[must_use]
    pub fn root(&self) -> &Path {
        self.files.root()
    }

    fn is_it(&self, doc: &Doc) -> bool {
        matches!(doc, Doc::Job(key) if *key == self.key)
    }

    fn check(&self, is_it: bool) -> Result<(), ShelfError> {
        if is_it {
            return Ok(());
        }
        Err(ShelfError::OneFile {
            place: self.place(),
        })
    }
}

impl Shelf for Loose {
    fn place(&self) -> String {
        self.files.shown(&self.path)
    }

    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        self.files.shown(&self.files.beside_path(job, name))
    }

    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        Ok(None)
    }

    fn adopt(&self, _: &Mark) -> Result<(), ShelfError> {
        self.check(false)
    }

    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        if self.is_it(doc) {
            return self.files.read(doc);
        }
        Ok(None)
    }

    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        if self.is_it(doc) {
            return self.files.previous(doc);
        }
        Ok(None)
    }

    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        let doc = Doc::Job(self.key.clone());
        let there = self.files.read(&doc)?;
        let now = there.map_or_else(String::new, |stored| stored.version.0.to_string());
        let before = since.opened();
        let mut changes = Changes {
            all: before.is_none(),
            cursor: Cursor::sealed(now.as_bytes()),
            ..Changes::default()
        };
        match (now.is_empty(), before) {
            (false, before) if before != Some(now.as_bytes()) => changes.there.push(doc),
            (true, Some([_, ..])) => changes.gone.push(doc),
            _ => {}
        }
        Ok(changes)
    }

    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        let documents = commit.documents.iter().all(|write| self.is_it(&write.doc));
        let attachments = commit.attachments.iter().all(|file| file.job == self.key);
        self.check(documents && attachments)?;
        self.files.commit(commit)
    }

    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        Ok(self.key.number_of(year))
    }

    fn hold(&self, job: &JobKey, by: &str) -> Held {
        if *job == self.key {
            return self.files.hold(job, by);
        }
        Held::Unknown
    }

    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        if *job == self.key {
            return self.files.attachment(job, name);
        }
        Ok(None)
    }

    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        if *job == self.key {
            return self.files.attachments(job);
        }
        Ok(Vec::new())
    }
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        let is_any = !self.files.attachments(&self.key)?.is_empty();
        Ok(is_any.then(|| self.key.clone()).into_iter().collect())
    }
}
