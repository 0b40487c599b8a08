//! The files of a shelf in a folder: where each stands, and how it is read.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::file::LARGEST_FILE;

use crate::disk::{Disk, Kind, Look};
use crate::names::{AttachmentName, JobKey};
use crate::shelf::commit::LARGEST_ATTACHMENT;
use crate::shelf::doc::{Doc, Stored};
use crate::shelf::error::{ShelfError, Step};

/// What the version before the last one is called, in the folder beside its document.
const PREVIOUS: &str = "previous.ron";

/// The files of a shelf in a folder.
#[derive(Debug)]
pub(in crate::shelf) struct Files {
    pub(super) disk: Arc<dyn Disk>,
    root: PathBuf,
}

impl Files {
    pub(in crate::shelf) fn new(disk: Arc<dyn Disk>, root: &Path) -> Self {
        Self {
            disk,
            root: root.to_owned(),
        }
    }

    pub(in crate::shelf) fn root(&self) -> &Path {
        &self.root
    }

    /// The file of a document.
    pub(in crate::shelf) fn doc_path(&self, doc: &Doc) -> PathBuf {
        self.root.join(format!("{}.ron", stem(doc)))
    }

    /// The folder beside a document.
    pub(super) fn folder(&self, doc: &Doc) -> PathBuf {
        self.root.join(format!("{}.files", stem(doc)))
    }

    /// The file of what lies beside a job.
    pub(in crate::shelf) fn beside_path(&self, job: &JobKey, name: &AttachmentName) -> PathBuf {
        self.folder(&Doc::Job(job.clone())).join(name.as_str())
    }

    pub(super) fn previous_path(&self, doc: &Doc) -> PathBuf {
        self.folder(doc).join(PREVIOUS)
    }

    /// A path as sentences name it.
    pub(in crate::shelf) fn shown(&self, path: &Path) -> String {
        path.to_string_lossy().into_owned()
    }

    /// A failed step at a path.
    pub(in crate::shelf) fn step(
        &self,
        step: Step,
        path: &Path,
    ) -> impl Fn(io::Error) -> ShelfError {
        let place = self.shown(path);
        move |error| ShelfError::Step {
            step,
            kind: error.kind(),
            says: error.to_string(),
            place: place.clone(),
        }
    }

    pub(in crate::shelf) fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        let bytes = self.read_plain(&self.doc_path(doc), LARGEST_FILE)?;
        Ok(bytes.map(Stored::new))
    }

    pub(in crate::shelf) fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        if !self.has_folder(doc)? {
            return Ok(None);
        }
        let bytes = self.read_plain(&self.previous_path(doc), LARGEST_FILE)?;
        Ok(bytes.map(Stored::new))
    }

    pub(in crate::shelf) fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        if !self.has_folder(&Doc::Job(job.clone()))? {
            return Ok(None);
        }
        self.read_plain(&self.beside_path(job, name), LARGEST_ATTACHMENT)
    }

    pub(in crate::shelf) fn attachments(
        &self,
        job: &JobKey,
    ) -> Result<Vec<AttachmentName>, ShelfError> {
        let doc = Doc::Job(job.clone());
        if !self.has_folder(&doc)? {
            return Ok(Vec::new());
        }
        let folder = self.folder(&doc);
        let found = self.disk.list(&folder);
        let found = found.map_err(self.step(Step::List, &folder))?;
        let plain = found.iter().filter(|found| found.look.kind == Kind::File);
        // What can't be a name here is none of ours: a lock, a file that a save left behind.
        let names = plain.filter_map(|found| AttachmentName::new(found.name.to_str()?).ok());
        let mut names: Vec<AttachmentName> = names.collect();
        names.sort();
        Ok(names)
    }

    /// Whether the folder beside a document is there; one that is a link is not followed.
    pub(super) fn has_folder(&self, doc: &Doc) -> Result<bool, ShelfError> {
        let folder = self.folder(doc);
        match self.kind(&folder)? {
            None => Ok(false),
            Some(Kind::Folder) => Ok(true),
            Some(other) => Err(self.no_file(other, &folder)),
        }
    }

    /// Whether as much was read as there is: a share that goes away may end a file early, and say
    /// nothing of it. Another desk may have put another version there between look and read.
    fn is_whole(&self, bytes: &[u8], look: Look, path: &Path) -> bool {
        let read = bytes.len() as u64;
        let now = || self.disk.look(path);
        look.stamp.bytes == read || now().is_ok_and(|now| now.stamp.bytes == read)
    }

    /// What stands at a path; `None` where there is nothing.
    pub(super) fn kind(&self, path: &Path) -> Result<Option<Kind>, ShelfError> {
        Ok(self.look(path)?.map(|look| look.kind))
    }

    fn look(&self, path: &Path) -> Result<Option<Look>, ShelfError> {
        match self.disk.look(path) {
            Ok(look) => Ok(Some(look)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(self.step(Step::Read, path)(error)),
        }
    }

    /// A plain file's content; `None` where there is nothing.
    pub(in crate::shelf) fn read_plain(
        &self,
        path: &Path,
        most: u64,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        let Some(look) = self.look(path)? else {
            return Ok(None);
        };
        if look.kind != Kind::File {
            return Err(self.no_file(look.kind, path));
        }
        match self.disk.read(path, most) {
            Ok(bytes) if self.is_whole(&bytes, look, path) => Ok(Some(bytes)),
            // Half of a paper is not that paper, nor half of a job that job.
            Ok(_) => Err(self.step(Step::Read, path)(
                io::ErrorKind::UnexpectedEof.into(),
            )),
            // It went away between the two looks.
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) if error.kind() == io::ErrorKind::FileTooLarge => {
                let place = self.shown(path);
                Err(ShelfError::TooLarge { place })
            }
            Err(error) => Err(self.step(Step::Read, path)(error)),
        }
    }

    /// That something is no plain file, or no folder where one should be.
    pub(super) fn no_file(&self, kind: Kind, path: &Path) -> ShelfError {
        let place = self.shown(path);
        match kind {
            Kind::Link => ShelfError::Link { place },
            Kind::File | Kind::Folder | Kind::Other => ShelfError::NoFile { place },
        }
    }
}

pub(super) fn stem(doc: &Doc) -> &str {
    match doc {
        Doc::Job(key) => key.as_str(),
        Doc::Shop => "shop",
    }
}
