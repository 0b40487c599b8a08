//! A job under another name: a copy that does not carry the papers of the first as its own.

use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::Job;

use super::base::Office;
use crate::failure::Failure;
use crate::numbers;
use crate::save::{Opened, save};

/// A job saved under another name.
#[derive(Debug)]
pub struct SavedAs {
    /// The job under that name.
    pub job: Arc<Job>,
    /// Where it stands.
    pub opened: Opened,
    /// Numbers of papers that stay with the job that it was copied from.
    pub left_behind: Vec<String>,
}

impl Office {
    /// Saves a job under a path that no file has yet; it takes its number from the name, and where
    /// that is another one issued papers stay with the first.
    ///
    /// # Errors
    /// Where the name is taken or none of a job, or a step fails.
    pub fn save_as(&self, job: &Job, path: &Path, day: NaiveDate) -> Result<SavedAs, Failure> {
        let path = match path.extension() {
            Some(extension) if extension == "ron" => path.to_owned(),
            _ => {
                let mut name = path.file_name().unwrap_or_default().to_owned();
                name.push(".ron");
                path.with_file_name(name)
            }
        };
        let (shelf, key) = self.place(&path)?;
        let (mut copy, left_behind) = job.as_copy(key.as_str());
        copy.opened = copy.opened.or(Some(day));
        let copy = Arc::new(copy);
        let opened =
            save(&shelf, &key, &copy, None).map_err(|error| Failure::from(error).or_at(&path))?;
        Ok(SavedAs {
            job: copy,
            opened,
            left_behind,
        })
    }

    /// Saves a job as a new one under the next number of the shelf; issued papers stay with the first.
    ///
    /// # Errors
    /// Where there is no number, or a step fails.
    pub fn save_as_next(&self, job: &Job, day: NaiveDate) -> Result<SavedAs, Failure> {
        // A name that no job has: whatever number it gets is another one.
        let (copy, left_behind) = job.as_copy("");
        let opened = numbers::save_as_next(&self.shelf, &copy, day)?;
        Ok(SavedAs {
            job: Arc::clone(&opened.base),
            opened,
            left_behind,
        })
    }
}
