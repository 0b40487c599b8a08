//! A shelf with a folder outside of it, and what can be put where a file of ours should be.

use std::collections::BTreeMap;
use std::fs;
use std::os::unix::ffi::OsStrExt as _;
use std::os::unix::fs::{MetadataExt as _, symlink};
use std::os::unix::net::UnixListener;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Arc, mpsc};
use std::time::Duration;

use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::{Folder, Shelf};
use tempfile::TempDir;

use crate::common::forms::mark;

/// A shelf, and things outside of it.
pub(crate) struct Place {
    whole: TempDir,
}

/// Everything under a folder: what it is, its rights, what is in it, when it changed.
pub(crate) type Snapshot = BTreeMap<PathBuf, (u32, i64, i64, Vec<u8>)>;

impl Place {
    pub(crate) fn new() -> Self {
        let place = Self {
            whole: tempfile::tempdir().expect("a folder"),
        };
        fs::create_dir(place.root()).expect("the shelf");
        fs::create_dir(place.outside()).expect("what is outside");
        fs::write(place.outside().join("letter.txt"), "private").expect("a letter");
        fs::write(place.outside().join("empty.txt"), "").expect("an empty file");
        fs::create_dir(place.outside().join("folder")).expect("a folder");
        place.desk().adopt(&mark(1)).expect("a mark");
        place
    }

    pub(crate) fn root(&self) -> PathBuf {
        self.whole.path().join("shelf")
    }

    pub(crate) fn outside(&self) -> PathBuf {
        self.whole.path().join("outside")
    }

    /// A desk at the shelf.
    pub(crate) fn desk(&self) -> Arc<dyn Shelf> {
        let disk = Arc::new(RealDisk::default());
        Arc::new(Folder::new(disk, &self.root(), None))
    }

    pub(crate) fn snapshot(&self) -> Snapshot {
        snapshot(&self.outside())
    }
}

/// Everything under a folder.
pub(crate) fn snapshot(folder: &Path) -> Snapshot {
    let mut all = Snapshot::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            let about = fs::symlink_metadata(&path).expect("it is there");
            let content = if about.is_file() {
                fs::read(&path).expect("a file")
            } else if about.is_symlink() {
                let target = fs::read_link(&path).expect("a link");
                target.as_os_str().as_bytes().to_vec()
            } else {
                Vec::new()
            };
            if about.is_dir() {
                folders.push(path.clone());
            }
            let (changed, nanoseconds) = (about.mtime(), about.mtime_nsec());
            all.insert(path, (about.mode(), changed, nanoseconds, content));
        }
    }
    all
}

/// What somebody can put where a file of ours should be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Trap {
    /// A link to a file outside.
    LinkToFile,
    /// A link to an empty file outside.
    LinkToEmpty,
    /// A link to a name outside that nothing has yet.
    LinkToNothing,
    /// A link to a folder outside.
    LinkToFolder,
    Pipe,
    Socket,
    Folder,
}

impl Trap {
    pub(crate) const ALL: [Self; 7] = [
        Self::LinkToFile,
        Self::LinkToEmpty,
        Self::LinkToNothing,
        Self::LinkToFolder,
        Self::Pipe,
        Self::Socket,
        Self::Folder,
    ];

    pub(crate) const fn is_link(self) -> bool {
        matches!(
            self,
            Self::LinkToFile | Self::LinkToEmpty | Self::LinkToNothing | Self::LinkToFolder
        )
    }

    pub(crate) fn set(self, place: &Place, path: &Path) {
        let link = |to: &str| symlink(place.outside().join(to), path).expect("a link");
        match self {
            Self::LinkToFile => link("letter.txt"),
            Self::LinkToEmpty => link("empty.txt"),
            Self::LinkToNothing => link("not there"),
            Self::LinkToFolder => link("folder"),
            Self::Pipe => {
                let made = Command::new("mkfifo").arg(path).status();
                assert!(made.expect("mkfifo").success());
            }
            Self::Socket => drop(UnixListener::bind(path).expect("a socket")),
            Self::Folder => fs::create_dir(path).expect("a folder"),
        }
    }

    /// That it stands there still, and leads where it led.
    pub(crate) fn stands(self, path: &Path) -> bool {
        use std::os::unix::fs::FileTypeExt as _;
        let Ok(about) = fs::symlink_metadata(path) else {
            return false;
        };
        let kind = about.file_type();
        match self {
            Self::Pipe => kind.is_fifo(),
            Self::Socket => kind.is_socket(),
            Self::Folder => kind.is_dir(),
            _ => kind.is_symlink(),
        }
    }

    /// Takes it away again.
    pub(crate) fn take(self, path: &Path) {
        if self == Self::Folder {
            fs::remove_dir(path).expect("an empty folder");
        } else {
            fs::remove_file(path).expect("it is there");
        }
    }
}

/// Does something that must not take for ever.
pub(crate) fn in_time(what: impl FnOnce() + Send) {
    const PATIENCE: Duration = Duration::from_secs(60);
    let (done, wait) = mpsc::channel::<()>();
    std::thread::scope(|threads| {
        threads.spawn(move || {
            // Whoever waits does so no longer, also where this panics.
            let _done = done;
            what();
        });
        if wait.recv_timeout(PATIENCE) == Err(mpsc::RecvTimeoutError::Timeout) {
            // The thread can't be ended, so the whole test is.
            eprintln!("it hangs");
            std::process::abort();
        }
    });
}
