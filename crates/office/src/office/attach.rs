//! Photos and papers of others, taken into a job's folder.

use std::path::Path;

use super::base::Office;
use crate::failure::Failure;
use crate::names::AttachmentName;
use crate::save::Opened;
use crate::shelf::{Attachment, Commit, CommitError};

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
        let failed = |error: &std::io::Error| {
            let said = match error.kind() {
                std::io::ErrorKind::FileTooLarge => {
                    std::io::Error::other("it is larger than 200 MB")
                }
                _ => std::io::Error::new(error.kind(), error.to_string()),
            };
            Failure::io("The file can't be taken in", &said, from)
        };
        let real = std::fs::canonicalize(from).map_err(|error| failed(&error))?;
        let bytes = self
            .disk
            .read(&real, LARGEST)
            .map_err(|error| failed(&error))?;
        let plain = |sign: char| {
            if sign.is_control() || "/\\:*?\"<>|".contains(sign) {
                '-'
            } else {
                sign
            }
        };
        let text = |part: Option<&std::ffi::OsStr>| -> String {
            let text = part.unwrap_or_default().to_string_lossy();
            text.chars().map(plain).collect()
        };
        let stem = text(from.file_stem()).trim_matches(['.', ' ']).to_owned();
        let end = match text(from.extension()) {
            end if end.is_empty() => end,
            end => format!(".{end}"),
        };
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
        Err(last.map_or_else(
            || Failure::new("Too many files have that name", "give it another name"),
            Failure::from,
        ))
    }
}
