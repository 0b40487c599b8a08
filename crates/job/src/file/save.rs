//! Saving so that at every moment the old or the new content stands there, whole.

use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};

use super::disk::Disk;
use super::read::{ReadError, read_job};
use super::write::write_job;
use crate::job::Job;

/// What a file's content is known by (SHA-256, FIPS 180-4).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hash([u8; 32]);

impl Hash {
    /// From 64 hexadecimal digits.
    #[must_use]
    pub fn from_hex(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        let hex = |digit: u8| char::from(digit).to_digit(16);
        let mut bytes = [0; 32];
        if digits.len() != 2 * bytes.len() {
            return None;
        }
        for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
            *byte = u8::try_from(hex(pair[0])? * 16 + hex(pair[1])?).ok()?;
        }
        Some(Self(bytes))
    }
}

impl std::fmt::Display for Hash {
    /// 64 hexadecimal digits in small letters.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// The hash of bytes.
#[must_use]
pub fn hash(bytes: &[u8]) -> Hash {
    Hash(Sha256::digest(bytes).into())
}

/// Why a job could not be saved.
#[derive(Debug, thiserror::Error)]
#[error("{}", crate::words::files::save(self))]
pub enum SaveError {
    /// What would be written does not read back as this job; nothing was written.
    WouldNotOpen {
        /// Why it can't be read, where it can't.
        source: Option<ReadError>,
    },
    /// Another file stands where a new one should go.
    Taken,
    /// The file is not the one that was opened.
    Changed,
    /// The file that was opened is gone.
    Gone,
    /// A step failed; what stood there stands there still.
    Step {
        /// Which step.
        step: SaveStep,
        /// What the system says.
        error: io::Error,
    },
    /// The new content stands there, but the disk did not confirm that it outlives a power cut.
    NotSettled {
        /// The hash of the new content.
        hash: Hash,
        /// What the system says.
        error: io::Error,
    },
}

/// A step of saving.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SaveStep {
    /// Waiting until no other desk saves.
    Wait,
    /// Reading the file that is there.
    ReadOld,
    /// Making the folder beside the job.
    MakeFolder,
    /// Keeping the version before.
    KeepPrevious,
    /// Writing the new content beside the file.
    WriteNew,
    /// Giving the new content the file's name.
    PutInPlace,
}

impl SaveError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        crate::words::files::save_hint(self)
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
    match read_job(bytes) {
        Ok(again) if again == *job => {}
        again => {
            let source = again.err();
            return Err(SaveError::WouldNotOpen { source });
        }
    }
    // A share that vanished must not get a folder of ours under its mount point.
    if opened.is_some() {
        match disk.read(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Err(SaveError::Gone),
            Err(error) => return Err(at(SaveStep::ReadOld)(error)),
            Ok(_) => {}
        }
    }
    // Between looking at the file and taking its place no other desk may save: one lock for both.
    let _held = match opened {
        Some(_) => Some(hold(disk, path)?),
        None => None,
    };
    let before = match disk.read(path) {
        Ok(before) => Some(before),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(at(SaveStep::ReadOld)(error)),
    };
    match (&before, opened) {
        // A save whose confirmation got lost, or that another desk made: nothing is left to do.
        (Some(before), _) if before == bytes => {}
        (None, None) => put_new(disk, path, bytes)?,
        (Some(_), None) => return Err(SaveError::Taken),
        (None, Some(_)) => return Err(SaveError::Gone),
        (Some(before), Some(opened)) if hash(before) != opened => return Err(SaveError::Changed),
        (Some(before), Some(_)) => {
            keep_previous(disk, path, before)?;
            write_whole(disk, path, bytes)?;
        }
    }
    Ok(hash(bytes))
}

fn hold(disk: &dyn Disk, path: &Path) -> Result<Box<dyn Send>, SaveError> {
    let folder = path.with_extension("files");
    disk.make_folder(&folder)
        .map_err(at(SaveStep::MakeFolder))?;
    disk.hold(&folder.join("saving.lock"))
        .map_err(at(SaveStep::Wait))
}

/// Where the version before the last save is kept.
#[must_use]
pub fn previous_path(path: &Path) -> PathBuf {
    path.with_extension("files").join("previous.ron")
}

/// Writes a file whole or not at all: a new file beside it, brought to the medium, then renamed.
///
/// # Errors
/// Where a step fails; except for [`SaveError::NotSettled`] what stood there stands there still.
pub fn write_whole(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let beside = write_beside(disk, path, bytes)?;
    rename(disk, &beside, path)?;
    settle(disk, path, bytes)
}

/// Keeps the version that is about to be replaced; its loss must not be found out afterwards.
fn keep_previous(disk: &dyn Disk, path: &Path, before: &[u8]) -> Result<(), SaveError> {
    let previous = previous_path(path);
    if let Some(folder) = previous.parent() {
        disk.make_folder(folder).map_err(at(SaveStep::MakeFolder))?;
    }
    match write_whole(disk, &previous, before) {
        Err(SaveError::Step { error, .. } | SaveError::NotSettled { error, .. }) => {
            Err(at(SaveStep::KeepPrevious)(error))
        }
        other => other,
    }
}

/// Writes a file that must not be there yet, whole or not at all.
fn put_new(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let beside = write_beside(disk, path, bytes)?;
    match disk.name_new(&beside, path) {
        Ok(()) => {
            let _ = disk.remove(&beside);
        }
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            let _ = disk.remove(&beside);
            return Err(SaveError::Taken);
        }
        // A memory stick has no second names: take the name with an empty file, then replace that.
        Err(_) => take_name(disk, &beside, path)?,
    }
    settle(disk, path, bytes)
}

fn take_name(disk: &dyn Disk, beside: &Path, path: &Path) -> Result<(), SaveError> {
    if let Err(error) = disk.write_new(path, b"") {
        let _ = disk.remove(beside);
        if error.kind() == io::ErrorKind::AlreadyExists {
            return Err(SaveError::Taken);
        }
        remove_if_empty(disk, path);
        return Err(at(SaveStep::PutInPlace)(error));
    }
    rename(disk, beside, path).inspect_err(|_| remove_if_empty(disk, path))
}

/// Takes away the empty file that held a name; never one that somebody wrote to.
fn remove_if_empty(disk: &dyn Disk, path: &Path) {
    if disk.read(path).is_ok_and(|bytes| bytes.is_empty()) {
        let _ = disk.remove(path);
    }
}

/// Writes the bytes to a new file in the same folder.
fn write_beside(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<PathBuf, SaveError> {
    // Each save that was cut off leaves one file; nobody may take away what could be another
    // desk's, so a save goes past them.
    const MOST_LEFT_BEHIND: u32 = 100_000;
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    for attempt in 0..MOST_LEFT_BEHIND {
        let beside = path.with_file_name(format!(".{name}.{attempt}.new"));
        match disk.write_new(&beside, bytes) {
            Ok(()) => return Ok(beside),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => {
                let _ = disk.remove(&beside);
                return Err(at(SaveStep::WriteNew)(error));
            }
        }
    }
    Err(at(SaveStep::WriteNew)(io::ErrorKind::AlreadyExists.into()))
}

fn rename(disk: &dyn Disk, beside: &Path, path: &Path) -> Result<(), SaveError> {
    disk.rename(beside, path).map_err(|error| {
        // What lies beside is of no use to anybody; the failure that counts is the rename's.
        let _ = disk.remove(beside);
        at(SaveStep::PutInPlace)(error)
    })
}

/// Brings the new name to the medium.
fn settle(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    disk.sync_folder(folder)
        .map_err(|error| SaveError::NotSettled {
            hash: hash(bytes),
            error,
        })
}

fn at(step: SaveStep) -> impl Fn(io::Error) -> SaveError {
    move |error| SaveError::Step { step, error }
}
