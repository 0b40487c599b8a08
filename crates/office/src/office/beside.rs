//! What lies beside a job: drawings, mail and photos, by name, size and hash; its own papers aside.

use std::collections::BTreeSet;

use quillbore_job::file::{Hash, hash};

use super::base::Office;
use crate::failure::Failure;
use crate::names::AttachmentName;
use crate::save::Opened;
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
            Some(_) => Ok(opened.shelf.place_of(&opened.key, name)),
            None => Err(words::gone(name.as_str())),
        }
    }
}
