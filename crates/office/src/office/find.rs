//! Finding a job: by its name on the shelf, or by a path that somebody typed.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::base::Office;
use crate::disk::Disk;
use crate::failure::Failure;
use crate::files;
use crate::names::{JobKey, NameRefused};
use crate::shelf::folder::MARK_FILE;
use crate::shelf::{Folder, Loose, Shelf};

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
                // What is saved is the file that a link leads to, not the link.
                self.place(&files::followed(path)?)
            }
        }
    }

    /// The shelf and the name that a whole path means, whether or not a job stands there.
    ///
    /// # Errors
    /// Where no job can have that name.
    pub fn place(&self, path: &Path) -> Result<(Arc<dyn Shelf>, JobKey), Failure> {
        let (alone, around) = around(&self.disk, path, self.root.as_deref())
            .map_err(|error| Failure::from(error).at(path))?;
        let key = alone.key().clone();
        Ok(match around {
            Around::Shelf => (Arc::clone(&self.shelf), key),
            Around::Marked => {
                let shelf = Folder::new(Arc::clone(&self.disk), alone.root(), None);
                (Arc::new(shelf), key)
            }
            Around::Plain => (Arc::new(alone), key),
        })
    }
}

/// What a job's file lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Around {
    /// The folder that is taken for the shelf.
    Shelf,
    /// A folder with a mark.
    Marked,
    /// A folder that nobody said is a shelf.
    Plain,
}

/// The file by itself that a whole path means, whether or not a job stands there, and what it lies in;
/// `this` is the folder that is taken for the shelf, whether or not it has a mark.
///
/// # Errors
/// Where no job can have that name.
pub(crate) fn around(
    disk: &Arc<dyn Disk>,
    path: &Path,
    this: Option<&Path>,
) -> Result<(Loose, Around), NameRefused> {
    let alone = Loose::new(Arc::clone(disk), path)?;
    let is_here = |shelf: &Path| {
        let shelf = std::fs::canonicalize(shelf);
        shelf.is_ok_and(|shelf| std::fs::canonicalize(alone.root()).is_ok_and(|at| at == shelf))
    };
    let around = if path.extension().is_none_or(|end| end != "ron") {
        Around::Plain
    } else if this.is_some_and(is_here) {
        Around::Shelf
    } else if disk.look(&alone.root().join(MARK_FILE)).is_ok() {
        Around::Marked
    } else {
        Around::Plain
    };
    Ok((alone, around))
}
