//! Files beside jobs: new ones only, and on the medium before any document names them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use super::Files;
use crate::disk::Kind;
use crate::shelf::commit::LARGEST_ATTACHMENT;
use crate::shelf::commit::{Attachment, CommitError};
use crate::shelf::doc::Doc;
use crate::shelf::error::Step;
use crate::shelf::folder::put::Put;

impl Files {
    /// Writes new files beside jobs; `made` gets the paths of those that were not there before.
    pub(super) fn attach_all(
        &self,
        attachments: &[Attachment],
        made: &mut Vec<PathBuf>,
    ) -> Result<(), CommitError> {
        let taken =
            |file: &Attachment| CommitError::AttachmentTaken(file.job.clone(), file.name.clone());
        let mut folders = BTreeSet::new();
        let mut new: BTreeMap<PathBuf, &Attachment> = BTreeMap::new();
        // All names are looked at before the first file is written: what is refused leaves nothing behind.
        for attachment in attachments {
            // Also of one that is there already: whoever wrote it may have been cut off right after.
            folders.insert(self.folder(&Doc::Job(attachment.job.clone())));
            let path = self.beside_path(&attachment.job, &attachment.name);
            match self.kind(&path)? {
                // Twice the same is one.
                None => {
                    let same = new.insert(path, attachment);
                    if same.is_some_and(|same| same.bytes != attachment.bytes) {
                        return Err(taken(attachment));
                    }
                }
                Some(Kind::File) => {
                    let there = self.read_plain(&path, LARGEST_ATTACHMENT)?;
                    if there.as_deref() != Some(attachment.bytes.as_slice()) {
                        return Err(taken(attachment));
                    }
                }
                Some(Kind::Link | Kind::Folder | Kind::Other) => return Err(taken(attachment)),
            }
        }
        for (path, attachment) in new {
            let put = self.put_new(&path, &attachment.bytes);
            match put.map_err(self.step(Step::WriteNew, &path))? {
                Put::Placed => made.push(path),
                Put::Taken => return Err(taken(attachment)),
            }
        }
        for folder in &folders {
            self.settle(folder)?;
        }
        if !folders.is_empty() {
            // The folder beside a job may be new itself.
            self.settle(self.root())?;
        }
        Ok(())
    }
}
