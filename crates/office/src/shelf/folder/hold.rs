//! Which desk has a job open: a lock of the system, gone with the program that holds it, and a
//! note that says whose it is.

use std::fmt;
use std::io;
use std::path::PathBuf;
use std::sync::Arc;

use super::Files;
use crate::disk::{Disk, Kind, Lock};
use crate::names::JobKey;
use crate::shelf::doc::Doc;
use crate::shelf::held::{Held, desk_name};

/// Most bytes of a note that are read.
const LARGEST_NOTE: u64 = 4_000;

impl Files {
    pub(in crate::shelf) fn hold(&self, job: &JobKey, by: &str) -> Held {
        let doc = Doc::Job(job.clone());
        if self.make_folder(&doc).is_err() {
            return Held::Unknown;
        }
        let folder = self.folder(&doc);
        let (path, note) = (folder.join("open.lock"), folder.join("open-at.txt"));
        if !matches!(self.kind(&path), Ok(None | Some(Kind::File))) {
            return Held::Unknown;
        }
        match self.disk.hold_now(&path) {
            Ok(lock) if lock.is_real() => {
                // Without the note the lock still holds; the other desk then can't be named. What
                // stands there is taken away, never written through: it could be a link.
                let _ = self.disk.remove(&note);
                let _ = self.disk.write_new(&note, desk_name(by).as_bytes());
                Held::Here(Box::new(HeldHere {
                    disk: Arc::clone(&self.disk),
                    lock: Some(lock),
                    note,
                }))
            }
            Ok(_) => Held::NoLocks,
            Err(error) if error.kind() == io::ErrorKind::WouldBlock => {
                let named = self.disk.read(&note, LARGEST_NOTE).unwrap_or_default();
                Held::Elsewhere(desk_name(&String::from_utf8_lossy(&named)))
            }
            Err(_) => Held::Unknown,
        }
    }
}

/// A job held by this desk.
struct HeldHere {
    disk: Arc<dyn Disk>,
    lock: Option<Lock>,
    note: PathBuf,
}

impl Drop for HeldHere {
    fn drop(&mut self) {
        // A note left behind says nothing as long as nobody holds the lock.
        let _ = self.disk.remove(&self.note);
        self.lock = None;
    }
}

impl fmt::Debug for HeldHere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "HeldHere({})", self.note.display())
    }
}
