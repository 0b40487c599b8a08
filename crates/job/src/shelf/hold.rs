//! Which desk has a job open: a lock of the system, gone with the program that holds it, and a
//! note that says whose it is.
//!
//! It only tells; what keeps two desks from losing work is that saving refuses over a changed file.

use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};

use crate::file::lock_file;

/// Whether a job could be held.
#[derive(Debug)]
pub enum Held {
    /// By this desk, until this is dropped.
    Here(HeldHere),
    /// By another desk, in its own words.
    Elsewhere(String),
    /// By nobody: the folder can't be written to, or knows no locks.
    Unknown,
}

/// A job held by this desk.
#[derive(Debug)]
pub struct HeldHere {
    lock: File,
    note: PathBuf,
}

impl Drop for HeldHere {
    fn drop(&mut self) {
        // A note left behind says nothing as long as nobody holds the lock.
        let _ = fs::remove_file(&self.note);
        let _ = self.lock.unlock();
    }
}

/// Holds a job's file for a desk that calls itself `desk`.
#[must_use]
pub fn hold(job: &Path, desk: &str) -> Held {
    let folder = job.with_extension("files");
    let (lock, note) = (folder.join("open.lock"), folder.join("open-at.txt"));
    if fs::create_dir_all(&folder).is_err() {
        return Held::Unknown;
    }
    let Ok(lock) = lock_file(&lock) else {
        return Held::Unknown;
    };
    match lock.try_lock() {
        Ok(()) => {
            // Without the note the lock still holds; the other desk then can't be named.
            let _ = fs::write(&note, desk);
            Held::Here(HeldHere { lock, note })
        }
        Err(TryLockError::WouldBlock) => {
            let named = fs::read_to_string(&note).unwrap_or_default();
            let named = named.trim();
            Held::Elsewhere(if named.is_empty() {
                "another desk".to_owned()
            } else {
                named.chars().take(80).collect()
            })
        }
        Err(TryLockError::Error(_)) => Held::Unknown,
    }
}
