//! A draft as a file: readable by the user alone, held by a lock as long as its run lives.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::file::{Hash, LARGEST_FILE, read_job, write_job};
use serde::{Deserialize, Serialize};

use crate::disk::{Disk, Kind, Lock, RealDisk};
use crate::names::JobKey;
use crate::office::{Office, Wanted};
use crate::save::Opened;
use crate::shelf::{Loose, Mark, Shelf, Version, folder};

/// A draft that an earlier run left behind.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Its file.
    pub draft: PathBuf,
    /// The job.
    pub job: Arc<Job>,
    /// What it was opened from.
    pub opened: Option<Opened>,
}

/// A draft on the disk.
#[derive(Serialize, Deserialize)]
struct DraftFile {
    job: String,
    #[serde(default)]
    from: Option<From>,
}

/// What a draft's job was opened from.
#[derive(Serialize, Deserialize)]
struct From {
    /// The mark of the shelf, where it lies on one.
    mark: Option<String>,
    /// Its name there, or the path of its file.
    at: String,
    /// The hash of what was opened.
    version: String,
    /// What was opened.
    base: String,
}

/// The file of one draft that is being kept.
#[derive(Debug)]
pub(super) struct Draft {
    path: PathBuf,
    /// Held as long as the program runs: whoever finds it free knows that the draft was left.
    lock: Option<Lock>,
}

impl Draft {
    pub(super) fn new(folder: &Path, name: &str) -> Self {
        Self {
            path: folder.join(format!("{name}.draft")),
            lock: None,
        }
    }

    pub(super) fn keep(&mut self, job: &Job, opened: Option<&Opened>) -> std::io::Result<()> {
        let disk = RealDisk::private();
        if self.lock.is_none() {
            if let Some(folder) = self.path.parent() {
                make_private(disk, folder)?;
            }
            // Where the disk knows no locks the draft is offered once too often, never too seldom.
            self.lock = Some(disk.hold_now(&self.path.with_extension("lock"))?);
        }
        let draft = DraftFile {
            job: write_job(job),
            from: opened.map(from),
        };
        let text = serde_json::to_vec(&draft)?;
        let disk: Arc<dyn Disk> = Arc::new(disk);
        folder::write_whole(&disk, &self.path, &text)
            .map_err(|error| std::io::Error::other(error.to_string()))
    }

    /// Throws the draft away: the job is saved, or was left on purpose.
    pub(super) fn drop_it(&mut self) {
        let disk = RealDisk::private();
        if self.lock.take().is_some() {
            let _ = disk.remove(&self.path);
            let _ = disk.remove(&self.path.with_extension("lock"));
        }
    }
}

/// The folder of drafts: the user's alone, also where an earlier version made it open to others.
fn make_private(disk: RealDisk, folder: &Path) -> std::io::Result<()> {
    if let Some(above) = folder.parent() {
        std::fs::create_dir_all(above)?;
    }
    disk.make_folder(folder)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o700))?;
    }
    Ok(())
}

fn from(opened: &Opened) -> From {
    let at = match &opened.mark {
        Some(_) => opened.key.as_str().to_owned(),
        None => opened.shelf.place(),
    };
    From {
        mark: opened.mark.as_ref().map(|mark| mark.as_str().to_owned()),
        at,
        version: opened.version.0.to_string(),
        base: write_job(&opened.base),
    }
}

/// The drafts in a folder that no running program holds, by name, and the files of those that can't
/// be read; those of another shelf are left for the day it is there again.
#[must_use]
pub fn left_behind(folder: &Path, office: &Office) -> (Vec<Left>, Vec<PathBuf>) {
    let disk = RealDisk::private();
    let Ok(found) = disk.list(folder) else {
        return (Vec::new(), Vec::new());
    };
    let plain = found
        .into_iter()
        .filter(|found| found.look.kind == Kind::File);
    let mut paths: Vec<PathBuf> = plain.map(|found| folder.join(found.name)).collect();
    paths.retain(|path| path.extension().is_some_and(|end| end == "draft"));
    paths.retain(|path| is_free(disk, &path.with_extension("lock")));
    paths.sort();
    let (mut left, mut damaged) = (Vec::new(), Vec::new());
    for path in paths {
        match read(disk, &path, office) {
            Some(Read::Offered(draft)) => left.push(*draft),
            Some(Read::OfAnotherShelf) => {}
            None => damaged.push(path),
        }
    }
    (left, damaged)
}

/// Throws a draft away that was left behind.
pub fn forget(left: &Left) {
    let disk = RealDisk::private();
    let _ = disk.remove(&left.draft);
    let _ = disk.remove(&left.draft.with_extension("lock"));
}

fn is_free(disk: RealDisk, lock: &Path) -> bool {
    match disk.look(lock) {
        Ok(_) => disk.hold_now(lock).is_ok(),
        Err(_) => true,
    }
}

enum Read {
    Offered(Box<Left>),
    OfAnotherShelf,
}

fn read(disk: RealDisk, path: &Path, office: &Office) -> Option<Read> {
    // Job and base, each as text within text.
    let bytes = disk.read(path, 4 * LARGEST_FILE).ok()?;
    let draft: DraftFile = serde_json::from_slice(&bytes).ok()?;
    let job = Arc::new(read_job(draft.job.as_bytes()).ok()?);
    let opened = match draft.from {
        None => None,
        Some(from) => {
            let Some((shelf, key)) = place(&from, office)? else {
                return Some(Read::OfAnotherShelf);
            };
            Some(Opened {
                mark: from.mark.as_deref().and_then(Mark::read),
                shelf,
                key,
                version: Version(Hash::from_hex(&from.version)?),
                base: Arc::new(read_job(from.base.as_bytes()).ok()?),
            })
        }
    };
    Some(Read::Offered(Box::new(Left {
        draft: path.to_owned(),
        job,
        opened,
    })))
}

/// Where a draft's job was opened from; nothing inside where that shelf isn't the one at hand.
fn place(from: &From, office: &Office) -> Option<Option<(Arc<dyn Shelf>, JobKey)>> {
    match (&from.mark, Wanted::read(&from.at)) {
        (Some(mark), Wanted::Key(key)) => {
            let here = office.shelf.mark().ok().flatten();
            let same = here.is_some_and(|here| here.as_str() == mark.as_str());
            Some(same.then(|| (Arc::clone(&office.shelf), key)))
        }
        (None, _) => {
            let path = Path::new(&from.at);
            // A folder that had no mark yet is named by itself, not by a file in it.
            if path.is_dir() {
                return Some(None);
            }
            let loose = Loose::new(Arc::clone(&office.disk), path).ok()?;
            let key = loose.key().clone();
            Some(Some((Arc::new(loose), key)))
        }
        (Some(_), Wanted::Path(_)) => None,
    }
}
