//! What lies beside a job: drawings, mail and photos, by name, size and hash; its own papers aside.

use std::collections::BTreeSet;
use std::sync::Arc;

use quillbore_job::file::{Hash, hash};

use super::base::Office;
use crate::disk::{Disk, RealDisk};
use crate::failure::Failure;
use crate::names::{AttachmentName, JobKey};
use crate::places;
use crate::save::Opened;
use crate::shelf::Shelf;
use crate::shelf::folder::write_whole;
use crate::words::attach as words;

/// A file beside a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attached {
    /// What it is called.
    pub name: AttachmentName,
    /// Its size [bytes].
    pub bytes: u64,
    /// What its content is known by.
    pub hash: Hash,
}

impl Office {
    /// The files beside a job that are none of its issued papers, by their names.
    ///
    /// # Errors
    /// Where they can't be listed or read.
    pub fn beside(&self, opened: &Opened) -> Result<Vec<Attached>, Failure> {
        let issued = opened.base.issued.iter();
        let issued: BTreeSet<&str> = issued.map(|paper| paper.file.as_str()).collect();
        let names = opened.shelf.attachments(&opened.key)?;
        let mut beside = Vec::new();
        for name in names {
            if issued.contains(name.as_str()) {
                continue;
            }
            if let Some(bytes) = opened.shelf.attachment(&opened.key, &name)? {
                beside.push(Attached {
                    name,
                    bytes: bytes.len() as u64,
                    hash: hash(&bytes),
                });
            }
        }
        Ok(beside)
    }

    /// Where a file beside a job is, to be opened: only one that lies in the job's own folder and is a
    /// plain file, whatever somebody else wrote into the job.
    ///
    /// # Errors
    /// Where there is none of that name, or it is a link, a folder or a pipe.
    pub fn place_beside(&self, opened: &Opened, name: &AttachmentName) -> Result<String, Failure> {
        match opened.shelf.attachment(&opened.key, name)? {
            Some(bytes) => to_open(opened.shelf.as_ref(), &opened.key, name, &bytes),
            None => Err(words::gone(name.as_str())),
        }
    }
}

/// Where something beside a job can be opened: where it lies, or a copy in the user's own cache folder
/// where the shelf is on no disk. A copy is known by its content, so an older one is never shown.
///
/// # Errors
/// Where the copy can't be written.
pub(crate) fn to_open(
    shelf: &dyn Shelf,
    job: &JobKey,
    name: &AttachmentName,
    bytes: &[u8],
) -> Result<String, Failure> {
    if shelf.is_on_disk() {
        return Ok(shelf.place_of(job, name));
    }
    let folder = places::copies_folder().ok_or_else(words::no_copy)?;
    let folder = folder.join(&hash(bytes).to_string()[..16]);
    let path = folder.join(name.as_str());
    std::fs::create_dir_all(&folder).map_err(|error| words::not_copied(&error, &path))?;
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::private());
    write_whole(&disk, &path, bytes)?;
    Ok(path.to_string_lossy().into_owned())
}
