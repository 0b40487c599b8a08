//! Papers printed without being issued: beside their job, or into a folder that somebody names.

use std::path::{Path, PathBuf};

use quillbore_job::Paper;
use quillbore_paper::{BlankForm, Sheet};

use super::base::Office;
use super::beside::to_open;
use crate::blank;
use crate::failure::Failure;
use crate::names::AttachmentName;
use crate::print::{self, Printed, Sitting};
use crate::save::Opened;
use crate::shelf::{Attachment, Commit, CommitError};
use crate::threading;

/// How many prints of a paper may lie in one place.
const MOST: u32 = 1_000;

/// Where papers are printed to.
#[derive(Clone, Debug)]
pub enum Into {
    /// Into the job's own folder.
    Beside(Opened),
    /// Into this folder.
    Folder(PathBuf),
}

impl Office {
    /// Prints papers of a job as previews and gives their places; an earlier print is never
    /// overwritten, and a number behind the name tells them apart.
    ///
    /// # Errors
    /// Where a PDF can't be made or written; of a job's own folder, where the shelf has vanished.
    pub fn print(
        &self,
        sitting: Sitting<'_>,
        papers: &[Paper],
        sheet: Sheet,
        day: chrono::NaiveDate,
        into: &Into,
    ) -> Result<Vec<String>, Failure> {
        let shop = self.shop_on(day);
        let printed = print::print(sitting, &shop, day, sheet, papers)?;
        match into {
            Into::Beside(opened) => print_beside(opened, &printed),
            Into::Folder(folder) => self.print_there(&printed, folder, &name_of(sitting)),
        }
    }

    /// Prints a blank form beside its job and gives its place; an earlier print that says something else
    /// is never overwritten.
    ///
    /// # Errors
    /// Where the job has no rows of holes, the PDF can't be made, or it can't be written.
    pub fn blank(
        &self,
        form: BlankForm,
        sitting: Sitting<'_>,
        sheet: Sheet,
        day: chrono::NaiveDate,
        opened: &Opened,
    ) -> Result<String, Failure> {
        let shop = self.shop_on(day);
        let printed = blank::print(form, None, sitting, &shop, day, sheet)?;
        Ok(print_beside(opened, &[printed])?.concat())
    }

    /// Writes the threading list of a job beside it and gives its place, and what there is to say of it; an
    /// earlier list that says something else is never overwritten.
    ///
    /// # Errors
    /// Where no hole has a wire, or it can't be written.
    pub fn threading(
        &self,
        sitting: Sitting<'_>,
        opened: &Opened,
    ) -> Result<(String, Vec<String>), Failure> {
        let threading = threading::list(sitting)?;
        let place = print_beside(opened, &[threading.printed])?.concat();
        Ok((place, threading.told))
    }

    fn print_there(
        &self,
        printed: &[Printed],
        folder: &Path,
        name: &str,
    ) -> Result<Vec<String>, Failure> {
        // An empty mount point must not get folders of ours.
        if let Some(root) = &self.root
            && folder.starts_with(root)
            && self.shelf.mark()?.is_none()
        {
            let place = self.shelf.place();
            return Err(crate::shelf::ShelfError::NotMarked { place }.into());
        }
        let mut last = print::write(&self.disk, printed, folder, name, false);
        for again in 2..MOST {
            if last.is_ok() {
                break;
            }
            let name = format!("{name}-{again}");
            last = print::write(&self.disk, printed, folder, &name, false);
        }
        let shown = |paths: Vec<PathBuf>| {
            let shown = paths.iter().map(|path| path.to_string_lossy().into_owned());
            shown.collect()
        };
        last.map(shown)
    }
}

fn name_of(sitting: Sitting<'_>) -> String {
    match sitting.job.number.as_str() {
        "" => "new-job".to_owned(),
        number => {
            AttachmentName::new(number).map_or_else(|_| "job".to_owned(), |_| number.to_owned())
        }
    }
}

fn print_beside(opened: &Opened, printed: &[Printed]) -> Result<Vec<String>, Failure> {
    let mut last = CommitError::Gone(crate::shelf::Doc::Job(opened.key.clone()));
    for again in 1..MOST {
        let name = match again {
            1 => opened.key.as_str().to_owned(),
            _ => format!("{}-{again}", opened.key),
        };
        let mut commit = Commit::default();
        for paper in printed {
            commit.attachments.push(Attachment {
                job: opened.key.clone(),
                name: AttachmentName::new(&print::file_name(&name, paper))?,
                bytes: paper.bytes.clone(),
            });
        }
        match opened.shelf.commit(&commit) {
            Ok(_) => {
                let files = commit.attachments.iter();
                let place = |file: &Attachment| {
                    to_open(opened.shelf.as_ref(), &file.job, &file.name, &file.bytes)
                };
                return files.map(place).collect();
            }
            Err(CommitError::AttachmentTaken(job, name)) => {
                last = CommitError::AttachmentTaken(job, name);
            }
            Err(error) => return Err(error.into()),
        }
    }
    Err(last.into())
}

impl Into {
    /// The folder, or the job's own where its path is meant, so that its prints go through the shelf.
    #[must_use]
    pub fn of(folder: &Path, opened: Option<&Opened>) -> Self {
        match opened {
            Some(opened) if opened.folder() == folder => Self::Beside(opened.clone()),
            _ => Self::Folder(folder.to_owned()),
        }
    }
}
