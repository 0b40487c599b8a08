//! The machine's own disk.

use std::fs::{self, File, Metadata, OpenOptions, Permissions, TryLockError};
use std::io::{self, Read as _, Write as _};
use std::path::Path;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use super::steps::{Disk, Found, Kind, Lock, Look, Stamp};
use crate::words::disk as words;

/// The machine's own disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk {
    /// What is made can be read by the user alone, whatever the folder's rights.
    private: bool,
}

impl RealDisk {
    /// A disk on which whatever is made can be read by the user alone: for drafts.
    #[must_use]
    pub const fn private() -> Self {
        Self { private: true }
    }

    /// Gives what was just made the rights of its folder, so that on a shared shelf the others can
    /// save over it whatever this user's usual rights are.
    #[cfg(unix)]
    fn give_rights(self, made: &File, path: &Path, is_folder: bool) -> io::Result<()> {
        use std::os::unix::fs::PermissionsExt as _;
        const OWN: u32 = 0o700;
        const PLAIN: u32 = 0o666;
        const OTHERS_CANNOT_TAKE_AWAY: u32 = 0o1000;
        let all = match path.parent() {
            _ if self.private => OWN,
            Some(above) if !above.as_os_str().is_empty() => {
                fs::metadata(above)?.permissions().mode()
            }
            _ => fs::metadata(".")?.permissions().mode(),
        };
        // Where anybody may put files but nobody may replace another's, as in a system's folder for
        // temporary files, nobody shares a shelf: what is made stays the user's own.
        let all = if all & OTHERS_CANNOT_TAKE_AWAY == 0 {
            all
        } else {
            OWN
        };
        let mode = if is_folder { all & 0o7777 } else { all & PLAIN };
        set_rights(made, Permissions::from_mode(mode))
    }

    #[cfg(not(unix))]
    fn give_rights(self, _: &File, _: &Path, _: bool) -> io::Result<()> {
        // A new file has its folder's rights there anyway.
        Ok(())
    }

    /// Gives a folder that was just made its rights; the folder itself, should something else have
    /// come to stand under its name.
    fn give_folder_rights(self, path: &Path) -> io::Result<()> {
        if cfg!(unix) {
            let made = careful().read(true).open(path)?;
            match kind(&made.metadata()?) {
                Kind::Folder => self.give_rights(&made, path, true)?,
                Kind::File | Kind::Link | Kind::Other => {
                    return Err(io::ErrorKind::NotADirectory.into());
                }
            }
        }
        Ok(())
    }

    /// How a file is made: first for the user alone, then with the rights it gets.
    fn making(self) -> OpenOptions {
        let mut options = careful();
        options.write(true);
        #[cfg(unix)]
        {
            use std::os::unix::fs::OpenOptionsExt as _;
            options.mode(0o600);
        }
        options
    }

    fn lock_file(self, path: &Path) -> io::Result<File> {
        match self.making().create_new(true).open(path) {
            Ok(file) => {
                self.give_rights(&file, path, false)?;
                Ok(file)
            }
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                let file = careful().write(true).open(path)?;
                only_plain(&file.metadata()?)?;
                Ok(file)
            }
            Err(error) => Err(error),
        }
    }
}

/// What a disk says that can't do something at all.
const NOT_KNOWN: [io::ErrorKind; 2] = [io::ErrorKind::InvalidInput, io::ErrorKind::Unsupported];

/// Sets rights; a disk without rights has none to set.
fn set_rights(file: &File, rights: Permissions) -> io::Result<()> {
    match file.set_permissions(rights) {
        Err(error) if NOT_KNOWN.contains(&error.kind()) => Ok(()),
        Err(error) if error.kind() == io::ErrorKind::PermissionDenied => Ok(()),
        other => other,
    }
}

/// Sees to it that a file's stamp is a later one: whoever follows a folder knows by the stamp alone
/// that a file is another one, and a disk's clock goes in steps, or is set back.
fn be_later(file: &File, than: SystemTime) -> io::Result<()> {
    // As fine as disks keep their times: most of them, exFAT, FAT.
    const STEPS: [Duration; 3] = [
        Duration::from_micros(1),
        Duration::from_millis(10),
        Duration::from_secs(2),
    ];
    for step in STEPS {
        if file.metadata()?.modified()? > than {
            return Ok(());
        }
        file.set_modified(than + step)?;
    }
    Ok(())
}

/// Opening of a folder alone, which waits for no pipe; a link to a folder is followed, since a shelf
/// may be reached by one.
fn folder_itself() -> OpenOptions {
    #[cfg_attr(not(unix), expect(unused_mut, reason = "only Unix has such flags"))]
    let mut options = OpenOptions::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.custom_flags(libc::O_DIRECTORY | libc::O_NONBLOCK | libc::O_CLOEXEC);
    }
    options
}

/// Opening that follows no link and waits for no pipe.
fn careful() -> OpenOptions {
    #[cfg_attr(not(unix), expect(unused_mut, reason = "only Unix has such flags"))]
    let mut options = OpenOptions::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.custom_flags(libc::O_NOFOLLOW | libc::O_NONBLOCK | libc::O_CLOEXEC);
    }
    options
}

fn kind(about: &Metadata) -> Kind {
    let kind = about.file_type();
    if kind.is_symlink() {
        Kind::Link
    } else if kind.is_dir() {
        Kind::Folder
    } else if kind.is_file() {
        Kind::File
    } else {
        Kind::Other
    }
}

fn look_of(about: &Metadata) -> Look {
    let since = about
        .modified()
        .ok()
        .and_then(|changed| changed.duration_since(UNIX_EPOCH).ok());
    Look {
        kind: kind(about),
        stamp: Stamp {
            changed_ns: since.map_or(0, |since| {
                i64::try_from(since.as_nanos()).unwrap_or(i64::MAX)
            }),
            bytes: about.len(),
        },
    }
}

fn only_plain(about: &Metadata) -> io::Result<()> {
    match kind(about) {
        Kind::File => Ok(()),
        Kind::Folder => Err(io::ErrorKind::IsADirectory.into()),
        Kind::Link => Err(io::Error::other(words::IS_LINK)),
        Kind::Other => Err(io::Error::other(words::IS_NO_FILE)),
    }
}

impl Disk for RealDisk {
    fn list(&self, folder: &Path) -> io::Result<Vec<Found>> {
        let mut found = Vec::new();
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            // What went away between two looks is no fault of the folder.
            let Ok(about) = entry.metadata() else {
                continue;
            };
            found.push(Found {
                name: entry.file_name(),
                look: look_of(&about),
            });
        }
        Ok(found)
    }

    fn look(&self, path: &Path) -> io::Result<Look> {
        Ok(look_of(&fs::symlink_metadata(path)?))
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        // Asked first, since opening some devices alone does something.
        only_plain(&fs::symlink_metadata(path)?)?;
        let file = careful().read(true).open(path)?;
        let about = file.metadata()?;
        only_plain(&about)?;
        // What it says of its size spares the reading; it may grow meanwhile.
        if about.len() > most {
            return Err(io::ErrorKind::FileTooLarge.into());
        }
        let mut bytes = Vec::new();
        (&file)
            .take(most.saturating_add(1))
            .read_to_end(&mut bytes)?;
        if bytes.len() as u64 > most {
            return Err(io::ErrorKind::FileTooLarge.into());
        }
        // A share that goes away while it is read may end the file without an error.
        if (bytes.len() as u64) < file.metadata()?.len() {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        Ok(bytes)
    }

    fn make_folder(&self, path: &Path) -> io::Result<()> {
        match fs::create_dir(path) {
            Ok(()) => self.give_folder_rights(path),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                match self.look(path)?.kind {
                    Kind::Folder => Ok(()),
                    Kind::Link => Err(io::Error::other(words::IS_LINK)),
                    Kind::File | Kind::Other => Err(error),
                }
            }
            Err(error) => Err(error),
        }
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let mut file = self.making().create_new(true).open(path)?;
        self.give_rights(&file, path, false)?;
        file.write_all(bytes)
    }

    fn sync_file(&self, path: &Path) -> io::Result<()> {
        // Whoever may not read or write a file can't bring it to the medium by itself.
        let file = careful().write(true).open(path)?;
        only_plain(&file.metadata()?)?;
        file.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        let file = careful().write(true).open(from)?;
        only_plain(&file.metadata()?)?;
        match fs::symlink_metadata(to) {
            Ok(there) => {
                only_plain(&there)?;
                let rights = there.permissions();
                if rights.readonly() {
                    return Err(io::ErrorKind::PermissionDenied.into());
                }
                // On a shared shelf the others must be able to save over it as before.
                set_rights(&file, rights)?;
                // A disk that lets nobody set times has to do with those it sets.
                let _ = there.modified().and_then(|before| be_later(&file, before));
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(error) => return Err(error),
        }
        drop(file);
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
        match folder_itself().read(true).open(path)?.sync_all() {
            // Some network disks know no such thing.
            Err(error) if NOT_KNOWN.contains(&error.kind()) => Ok(()),
            other => other,
        }
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn hold(&self, path: &Path) -> io::Result<Lock> {
        const TRIES: u32 = 1_000;
        const PAUSE: Duration = Duration::from_millis(5);
        for _ in 0..TRIES {
            match self.hold_now(path) {
                Err(error) if error.kind() == io::ErrorKind::WouldBlock => {
                    std::thread::sleep(PAUSE);
                }
                other => return other,
            }
        }
        Err(io::ErrorKind::TimedOut.into())
    }

    fn hold_now(&self, path: &Path) -> io::Result<Lock> {
        let file = self.lock_file(path)?;
        match file.try_lock() {
            // The system lets go of it when the file is closed, also when a process dies.
            Ok(()) => Ok(Lock::real(file)),
            Err(TryLockError::WouldBlock) => Err(io::ErrorKind::WouldBlock.into()),
            // Some network disks know no locks: comparing versions alone has to do there.
            Err(TryLockError::Error(error)) if NOT_KNOWN.contains(&error.kind()) => {
                Ok(Lock::unknown())
            }
            Err(TryLockError::Error(error)) => Err(error),
        }
    }
}
