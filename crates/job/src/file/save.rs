//! Saving so that at every moment the old or the new content stands there, whole.

use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};

use super::disk::Disk;
use super::write::write_job;
use crate::job::Job;

/// What a file's content is known by (SHA-256, FIPS 180-4).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hash([u8; 32]);

/// The hash of bytes.
#[must_use]
pub fn hash(bytes: &[u8]) -> Hash {
    Hash(Sha256::digest(bytes).into())
}

/// Why a job could not be saved; what stood there stands there still.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// Another file stands where a new one should go.
    #[error("A file of that name is there already")]
    Taken,
    /// The file is not the one that was opened.
    #[error("The file was changed by somebody else since it was opened")]
    Changed,
    /// The file that was opened is gone.
    #[error("The file that was opened is gone")]
    Gone,
    /// A step failed.
    #[error("{step} failed: {error}")]
    Step {
        /// Which step, as the subject of a sentence.
        step: &'static str,
        /// What the system says.
        error: io::Error,
    },
}

impl SaveError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Taken => "Choose another name; nothing was overwritten.",
            Self::Changed => {
                "Save a copy under another name, then compare the two; nothing was overwritten."
            }
            Self::Gone => "Save it under this or another name as a new file.",
            Self::Step { .. } => {
                "Check room and rights, or save somewhere else; what was there before is untouched."
            }
        }
    }

    /// The message as a sentence begins.
    #[must_use]
    pub fn message(&self) -> String {
        self.to_string()
    }
}

/// Saves a job and gives the hash of what was written.
///
/// `opened` is the hash of the file that was opened, `None` for a file that must not exist yet. The
/// version before is kept as `NAME.files/previous.ron`.
///
/// # Errors
/// Where the file on disk is not the one that was opened, or a step fails. The old content or the
/// new stands there then, whole.
pub fn save(
    disk: &dyn Disk,
    path: &Path,
    job: &Job,
    opened: Option<Hash>,
) -> Result<Hash, SaveError> {
    let text = write_job(job);
    let bytes = text.as_bytes();
    let before = match disk.read(path) {
        Ok(before) => Some(before),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => {
            return Err(SaveError::Step {
                step: "Reading the file that is there",
                error,
            });
        }
    };
    match (&before, opened) {
        (None, None) => put_new(disk, path, bytes)?,
        (Some(_), None) => return Err(SaveError::Taken),
        (None, Some(_)) => return Err(SaveError::Gone),
        (Some(before), Some(opened)) if hash(before) != opened => return Err(SaveError::Changed),
        (Some(before), Some(_)) if before == bytes => {}
        (Some(before), Some(_)) => {
            let previous = previous_path(path);
            if let Some(folder) = previous.parent() {
                disk.make_folder(folder)
                    .map_err(step("Making the folder beside the job"))?;
            }
            write_whole(disk, &previous, before)?;
            write_whole(disk, path, bytes)?;
        }
    }
    Ok(hash(bytes))
}

/// Writes a file whole or not at all: a new file beside it, brought to the medium, then renamed.
///
/// # Errors
/// Where a step fails; what stood there stands there still.
pub fn write_whole(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let beside = write_beside(disk, path, bytes)?;
    if let Err(error) = disk.rename(&beside, path) {
        // The file beside it is of no use to anybody; the failure that counts is the rename's.
        let _ = disk.remove(&beside);
        return Err(SaveError::Step {
            step: "Putting the new file in place",
            error,
        });
    }
    sync_folder(disk, path)
}

/// Writes a file that must not be there yet, whole or not at all.
fn put_new(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let beside = write_beside(disk, path, bytes)?;
    let named = disk.name_new(&beside, path);
    let _ = disk.remove(&beside);
    match named {
        Ok(()) => sync_folder(disk, path),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Err(SaveError::Taken),
        // A disk without second names: the file must still be absent, then written as it is.
        Err(error) if error.kind() == io::ErrorKind::Unsupported => disk
            .write_new(path, bytes)
            .map_err(step("Writing the new file")),
        Err(error) => Err(SaveError::Step {
            step: "Putting the new file in place",
            error,
        }),
    }
}

/// Writes the bytes to a new file in the same folder.
fn write_beside(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<PathBuf, SaveError> {
    const TRIES: u32 = 100;
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    for attempt in 0..TRIES {
        let beside = path.with_file_name(format!(".{name}.{attempt}.new"));
        match disk.write_new(&beside, bytes) {
            Ok(()) => return Ok(beside),
            // Left by a save that was cut off, or written by another desk just now.
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => {
                let _ = disk.remove(&beside);
                return Err(SaveError::Step {
                    step: "Writing the new file",
                    error,
                });
            }
        }
    }
    Err(SaveError::Step {
        step: "Writing the new file",
        error: io::Error::new(
            io::ErrorKind::AlreadyExists,
            "a hundred half-written files of earlier saves lie beside it",
        ),
    })
}

fn sync_folder(disk: &dyn Disk, path: &Path) -> Result<(), SaveError> {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => disk
            .sync_folder(folder)
            .map_err(step("Bringing the folder to the medium")),
        _ => disk
            .sync_folder(Path::new("."))
            .map_err(step("Bringing the folder to the medium")),
    }
}

fn step(step: &'static str) -> impl Fn(io::Error) -> SaveError {
    move |error| SaveError::Step { step, error }
}

/// Where the version before the last save is kept.
#[must_use]
pub fn previous_path(path: &Path) -> PathBuf {
    path.with_extension("files").join("previous.ron")
}
