//! Finding a job: by its name on the shelf, or by a path that somebody typed.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::file::read_job;

use super::base::Office;
use crate::failure::Failure;
use crate::names::JobKey;
use crate::save::Opened;
use crate::shelf::folder::MARK_FILE;
use crate::shelf::{Doc, Folder, Loose, Shelf};

/// A job that somebody wants to open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// By its name on the shelf.
    Key(JobKey),
    /// By its file.
    Path(PathBuf),
}

impl Wanted {
    /// What a kept text meant: a name on the shelf, else a path.
    #[must_use]
    pub fn read(text: &str) -> Self {
        JobKey::new(text).map_or_else(|_| Self::Path(PathBuf::from(text)), Self::Key)
    }

    /// As it is kept.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Self::Key(key) => key.as_str().to_owned(),
            Self::Path(path) => path.to_string_lossy().into_owned(),
        }
    }
}

impl Office {
    /// The shelf and the name of a job that somebody wants.
    ///
    /// # Errors
    /// Where there is no such file, or no job can have its name.
    pub fn find(&self, wanted: &Wanted) -> Result<(Arc<dyn Shelf>, JobKey), Failure> {
        match wanted {
            Wanted::Key(key) => Ok((Arc::clone(&self.shelf), key.clone())),
            Wanted::Path(path) => {
                // A link that somebody named is followed: what is saved is the file, not the link.
                let real = std::fs::canonicalize(path)
                    .map_err(|error| Failure::io("The file can't be read", &error, path))?;
                self.place(&real)
            }
        }
    }

    /// The shelf and the name that a whole path means, whether or not a job stands there.
    ///
    /// # Errors
    /// Where no job can have that name.
    pub fn place(&self, path: &Path) -> Result<(Arc<dyn Shelf>, JobKey), Failure> {
        let at = |error: crate::names::NameRefused| Failure::from(error).at(path);
        let loose = Loose::new(Arc::clone(&self.disk), path).map_err(at)?;
        let key = loose.key().clone();
        let same = |root: &PathBuf| {
            let root = std::fs::canonicalize(root);
            root.is_ok_and(|root| std::fs::canonicalize(loose.root()).is_ok_and(|f| f == root))
        };
        let ends = path.extension().is_some_and(|end| end == "ron");
        if ends && self.root.as_ref().is_some_and(same) {
            return Ok((Arc::clone(&self.shelf), key));
        }
        if ends && self.disk.look(&loose.root().join(MARK_FILE)).is_ok() {
            let shelf = Folder::new(Arc::clone(&self.disk), loose.root(), None);
            return Ok((Arc::new(shelf), key));
        }
        Ok((Arc::new(loose), key))
    }
}

/// A job as it stands on a shelf.
///
/// # Errors
/// Where it is not there, can't be read or is no job.
pub(crate) fn read(shelf: &Arc<dyn Shelf>, key: &JobKey) -> Result<Opened, Failure> {
    let place = || PathBuf::from(shelf.place());
    let stored = shelf.read(&Doc::Job(key.clone()))?;
    let stored = stored.ok_or_else(|| {
        Failure::new(
            format!("The file can't be read: there is no job {key}"),
            "look for it on the shelf, or name another",
        )
        .at(&place())
    })?;
    let job = read_job(&stored.bytes)
        .map_err(|error| Failure::new(format!("Job {key}: {error}"), error.hint()).at(&place()))?;
    Ok(Opened {
        shelf: Arc::clone(shelf),
        key: key.clone(),
        version: stored.version,
        base: Arc::new(job),
        mark: shelf.mark()?,
    })
}
