//! Photos and papers of others, taken into a job's folder.

use std::ffi::OsStr;
use std::io;
use std::path::Path;

use super::base::Office;
use crate::failure::Failure;
use crate::names::AttachmentName;
use crate::save::Opened;
use crate::shelf::{Attachment, Commit, CommitError};
use crate::words::attach as words;

/// Largest photo or paper that is taken in [bytes].
const LARGEST: u64 = 200_000_000;

/// How many files of one name a job may have.
const MOST: u32 = 1_000;

impl Office {
    /// Copies a file into a job's folder under its name, or one with a number where that is taken;
    /// gives the name.
    ///
    /// # Errors
    /// Where the file can't be read, is too large, or can't be written there.
    pub fn attach(&self, opened: &Opened, from: &Path) -> Result<AttachmentName, Failure> {
        let bytes = self.bytes_to_attach(from)?;
        let (stem, end) = plain_name(from);
        let taken = opened.shelf.attachments(&opened.key)?;
        let mut last = None;
        for again in 1..MOST {
            let name = match again {
                1 => format!("{stem}{end}"),
                _ => format!("{stem}-{again}{end}"),
            };
            let name = AttachmentName::new(&name)?;
            // One of the same content would pass for this one: only a free name is taken.
            if taken.contains(&name) {
                continue;
            }
            let commit = Commit {
                attachments: vec![Attachment {
                    job: opened.key.clone(),
                    name: name.clone(),
                    bytes: bytes.clone(),
                }],
                documents: Vec::new(),
            };
            match opened.shelf.commit(&commit) {
                Ok(_) => return Ok(name),
                Err(CommitError::AttachmentTaken(job, name)) => {
                    last = Some(CommitError::AttachmentTaken(job, name));
                }
                Err(error) => return Err(error.into()),
            }
        }
        Err(last.map_or_else(words::too_many, Failure::from))
    }

    fn bytes_to_attach(&self, from: &Path) -> Result<Vec<u8>, Failure> {
        let real = std::fs::canonicalize(from);
        let bytes = real.and_then(|real| self.disk.read(&real, LARGEST));
        bytes.map_err(|error| match error.kind() {
            io::ErrorKind::FileTooLarge => words::too_large(LARGEST, from),
            _ => words::not_read(&error, from),
        })
    }
}

/// The name of a file and its ending, of signs that every disk takes.
fn plain_name(from: &Path) -> (String, String) {
    let plain = |sign: char| {
        if sign.is_control() || "/\\:*?\"<>|".contains(sign) {
            '-'
        } else {
            sign
        }
    };
    let text = |part: Option<&OsStr>| -> String {
        let text = part.unwrap_or_default().to_string_lossy();
        text.chars().map(plain).collect()
    };
    let stem = text(from.file_stem()).trim_matches(['.', ' ']).to_owned();
    let end = match text(from.extension()) {
        end if end.is_empty() => end,
        end => format!(".{end}"),
    };
    (stem, end)
}
