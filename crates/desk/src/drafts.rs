//! Work that is not saved yet, kept beside the shelf so that a crash or a power cut loses seconds
//! at most; and what an earlier run left behind.

use std::fs::{self, File, OpenOptions};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::file::{self, Hash, RealDisk, read_job, write_job};
use serde::{Deserialize, Serialize};

use crate::desk::Opened;

/// The draft of one job on the desk.
#[derive(Debug)]
pub struct Draft {
    path: PathBuf,
    /// Held as long as the program runs: whoever finds it free knows that the draft was left.
    lock: Option<File>,
    written: Option<u64>,
}

/// A draft that an earlier run left behind.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Its file.
    pub draft: PathBuf,
    /// The job.
    pub job: Job,
    /// The file that it came from.
    pub file: Option<Opened>,
}

#[derive(Serialize, Deserialize)]
struct DraftFile {
    job: String,
    path: Option<PathBuf>,
    hash: Option<String>,
    base: Option<String>,
}

impl Draft {
    /// A draft by the name of its place, which no other run has: `name` tells runs and jobs apart.
    #[must_use]
    pub fn new(folder: &Path, name: &str) -> Self {
        Self {
            path: folder.join(format!("{name}.draft")),
            lock: None,
            written: None,
        }
    }

    /// Keeps the job as it stands in this state of its history; nothing to do where that was kept.
    ///
    /// # Errors
    /// What the disk says; the job on the desk is not touched by it.
    pub fn keep(&mut self, state: u64, job: &Job, file: Option<&Opened>) -> std::io::Result<()> {
        if self.written == Some(state) {
            return Ok(());
        }
        if self.lock.is_none() {
            if let Some(folder) = self.path.parent() {
                fs::create_dir_all(folder)?;
            }
            let lock = file::lock_file(&self.path.with_extension("lock"))?;
            // Where the disk knows no locks the draft is offered once too often, never too seldom.
            let _ = lock.try_lock();
            self.lock = Some(lock);
        }
        let draft = DraftFile {
            job: write_job(job),
            path: file.map(|opened| opened.path.clone()),
            hash: file.map(|opened| opened.hash.to_string()),
            base: file.map(|opened| write_job(&opened.base)),
        };
        let text = serde_json::to_vec(&draft)?;
        file::write_whole(&RealDisk, &self.path, &text)
            .map_err(|error| std::io::Error::other(error.to_string()))?;
        self.written = Some(state);
        Ok(())
    }

    /// Throws the draft away: the job is saved, or was left on purpose.
    pub fn drop_it(&mut self) {
        if self.written.take().is_some() {
            let _ = fs::remove_file(&self.path);
        }
        if self.lock.take().is_some() {
            let _ = fs::remove_file(self.path.with_extension("lock"));
        }
    }
}

/// The drafts in a folder that no running program holds, oldest name first; what can't be read is
/// left where it is.
#[must_use]
pub fn left_behind(folder: &Path) -> Vec<Left> {
    free(folder)
        .into_iter()
        .filter_map(|path| read(&path))
        .collect()
}

/// The drafts in a folder that no running program holds and that can't be read.
#[must_use]
pub fn damaged(folder: &Path) -> Vec<PathBuf> {
    let mut paths = free(folder);
    paths.retain(|path| read(path).is_none());
    paths
}

fn free(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut paths: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|end| end == "draft"))
        .filter(|path| is_free(&path.with_extension("lock")))
        .collect();
    paths.sort();
    paths
}

/// Throws a draft away that was left behind.
pub fn forget(left: &Left) {
    let _ = fs::remove_file(&left.draft);
    let _ = fs::remove_file(left.draft.with_extension("lock"));
}

fn is_free(lock: &Path) -> bool {
    match OpenOptions::new().write(true).open(lock) {
        Ok(file) => file.try_lock().is_ok(),
        Err(_) => true,
    }
}

fn read(path: &Path) -> Option<Left> {
    let bytes = crate::files::read_capped(path).ok()?;
    let draft: DraftFile = serde_json::from_slice(&bytes).ok()?;
    let job = read_job(draft.job.as_bytes()).ok()?;
    let file = || {
        Some(Opened {
            path: draft.path?,
            hash: Hash::from_hex(&draft.hash?)?,
            base: Arc::new(read_job(draft.base?.as_bytes()).ok()?),
        })
    };
    Some(Left {
        draft: path.to_owned(),
        job,
        file: file(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_draft_is_offered_only_when_nobody_holds_it_any_more() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut draft = Draft::new(folder.path(), "1-0");
        let job = Job {
            number: "26-0107".to_owned(),
            ..Job::default()
        };
        let opened = Opened {
            path: folder.path().join("26-0107.ron"),
            hash: file::hash(b"as it was"),
            base: Arc::new(Job::default()),
        };
        draft.keep(3, &job, Some(&opened)).expect("kept");
        assert_eq!(left_behind(folder.path()), [], "it is held");
        // As if the program had ended in the middle.
        drop(draft);
        let left = left_behind(folder.path());
        assert_eq!(left.len(), 1);
        assert_eq!(left[0].job, job);
        assert_eq!(left[0].file.as_ref(), Some(&opened));
        fs::write(folder.path().join("torn.draft"), "{").expect("written");
        assert_eq!(
            left_behind(folder.path()).len(),
            1,
            "a torn one is no offer"
        );
        forget(&left[0]);
        assert_eq!(left_behind(folder.path()), []);
    }

    #[test]
    fn a_draft_of_a_saved_job_is_gone() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut draft = Draft::new(folder.path(), "1-0");
        draft.keep(1, &Job::default(), None).expect("kept");
        draft.drop_it();
        assert_eq!(fs::read_dir(folder.path()).expect("the folder").count(), 0);
        draft.keep(2, &Job::default(), None).expect("kept again");
        assert!(folder.path().join("1-0.draft").is_file());
    }
}
