//! What saving asks of a disk: few steps, each of which can fail.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Write as _};
use std::path::Path;
use std::time::Duration;

/// A disk; tests have one that fails or writes short at any step.
pub trait Disk {
    /// A file's bytes; an error of kind `NotFound` where there is none.
    fn read(&self, path: &Path) -> io::Result<Vec<u8>>;
    /// Makes a folder, with those above it; fine where it is there.
    fn make_folder(&self, path: &Path) -> io::Result<()>;
    /// Makes a new file and writes all the bytes to the medium; refuses where a file is there.
    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Gives a file another name, in place of a file that has it; refuses where that one is
    /// read-only, and keeps its rights.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Gives a file a second name that no other file has yet, so that neither ever takes the
    /// other's place.
    fn name_new(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Brings a folder's names to the medium.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
    /// Takes a file away.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Waits a little until no other process holds this lock file, and holds it until what is
    /// given back is dropped; an error of kind `TimedOut` where another one does not let go.
    fn hold(&self, path: &Path) -> io::Result<Box<dyn Send>>;
}

/// The machine's own disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk;

/// A file that is only there to be locked; the system lets go of it when it is closed.
///
/// # Errors
/// Where it can't be made or opened.
pub fn lock_file(path: &Path) -> io::Result<File> {
    OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(false)
        .open(path)
}

/// What a disk says that can't bring a folder to the medium at all.
const NOT_KNOWN: [io::ErrorKind; 2] = [io::ErrorKind::InvalidInput, io::ErrorKind::Unsupported];

impl Disk for RealDisk {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        fs::read(path)
    }

    fn make_folder(&self, path: &Path) -> io::Result<()> {
        fs::create_dir_all(path)
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(bytes)?;
        file.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        if let Ok(there) = fs::metadata(to) {
            let rights = there.permissions();
            if rights.readonly() {
                return Err(io::ErrorKind::PermissionDenied.into());
            }
            // On a shared shelf the others must be able to save over it as before.
            fs::set_permissions(from, rights)?;
        }
        fs::rename(from, to)
    }

    fn name_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::hard_link(from, to)
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        // Only Unix opens a folder as a file; elsewhere the rename itself has to do.
        if !cfg!(unix) {
            return Ok(());
        }
        match File::open(path)?.sync_all() {
            // Some network disks know no such thing.
            Err(error) if NOT_KNOWN.contains(&error.kind()) => Ok(()),
            other => other,
        }
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn hold(&self, path: &Path) -> io::Result<Box<dyn Send>> {
        const TRIES: u32 = 1_000;
        const PAUSE: Duration = Duration::from_millis(5);
        let file = lock_file(path)?;
        for _ in 0..TRIES {
            match file.try_lock() {
                // The system lets go of it when the file is closed, also when a process dies.
                Ok(()) => return Ok(Box::new(file)),
                Err(TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
                // Some network disks know no locks: the hash alone has to do there.
                Err(TryLockError::Error(error)) if NOT_KNOWN.contains(&error.kind()) => {
                    return Ok(Box::new(()));
                }
                Err(TryLockError::Error(error)) => return Err(error),
            }
        }
        Err(io::ErrorKind::TimedOut.into())
    }
}
