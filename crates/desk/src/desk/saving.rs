//! Opening and saving, and what happens when another desk saved meanwhile.

use std::path::Path;
use std::sync::Arc;

use quillbore_job::file::{self, Hash, RealDisk, SaveError};
use quillbore_job::history::{Doing, History};
use quillbore_job::merge::merge;
use quillbore_job::shelf::{Held, hold, save_under_next_number};
use quillbore_job::{Job, words};

use super::{Desk, Opened};
use crate::commands::Failure;
use crate::files;
use crate::grid::CellAt;

impl Desk {
    /// Puts a job without a file on the desk, such as one that is to be done again.
    pub fn put(&mut self, job: Job) {
        self.history = History::new(job, false);
        self.across_merges.clear();
        self.file = None;
        self.held = Held::Unknown;
        self.notice.clear();
        self.refresh();
    }

    /// Puts back a job that was not saved, over the file it came from.
    pub fn put_back(&mut self, job: Job, file: Option<Opened>) {
        self.put(job);
        if let Some(opened) = &file {
            self.held = hold(&opened.path, &self.name);
        }
        self.file = file;
    }

    /// Opens a job's file; what was on the desk is gone only where that worked.
    pub fn open(&mut self, path: &Path) {
        match self.read(path) {
            Ok((job, hash)) => {
                self.held = Held::Unknown;
                self.held = hold(path, &self.name);
                self.file = Some(Opened {
                    path: path.to_owned(),
                    hash,
                    base: Arc::new(job.clone()),
                });
                self.changed_elsewhere = false;
                self.notice = renamed(path, &job);
                self.history = History::new(job, true);
                self.across_merges.clear();
                self.refresh();
            }
            Err(failure) => self.notice = failure.to_string(),
        }
    }

    fn read(&self, path: &Path) -> Result<(Job, Hash), Failure> {
        let bytes = files::read_capped(path)?;
        let job = file::read_job(&bytes)
            .map_err(|error| Failure::new(error.to_string(), error.hint()).at(path))?;
        Ok((job, file::hash(&bytes)))
    }

    /// Saves where the job was opened, or on the shelf under the next number; false where that
    /// failed.
    pub fn save(&mut self) -> bool {
        match self.file.clone() {
            Some(opened) => self.save_to(&opened.path, Some(opened.hash)),
            None => self.save_on_shelf(),
        }
    }

    fn save_on_shelf(&mut self) -> bool {
        match save_under_next_number(&RealDisk, &self.shelf, self.job(), self.day) {
            Ok((path, job, hash)) => {
                self.history.put_number(job.number, job.opened);
                self.saved(&path, hash);
                self.held = hold(&path, &self.name);
                self.refresh();
                true
            }
            Err(error) => {
                self.notice = said(&error, &self.shelf.clone());
                false
            }
        }
    }

    /// Saves under a name that no file has yet; the job takes its number from it.
    pub fn save_as(&mut self, path: &Path) -> bool {
        let path = match path.extension() {
            Some(extension) if extension == "ron" => path.to_owned(),
            _ => {
                let mut name = path.file_name().unwrap_or_default().to_owned();
                name.push(".ron");
                path.with_file_name(name)
            }
        };
        let before = self.job().number.clone();
        let number = path
            .file_stem()
            .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
        let opened = self.job().opened.or(Some(self.day));
        self.history.put_number(number, opened);
        let saved = self.save_to(&path, None);
        if saved {
            self.held = Held::Unknown;
            self.held = hold(&path, &self.name);
        } else {
            self.history.put_number(before, opened);
        }
        self.refresh();
        saved
    }

    fn save_to(&mut self, path: &Path, hash: Option<Hash>) -> bool {
        match file::save(&RealDisk, path, self.job(), hash) {
            Ok(hash) => {
                self.saved(path, hash);
                true
            }
            Err(error) => {
                self.notice = said(&error, path);
                self.changed_elsewhere = matches!(error, SaveError::Changed);
                // The new content stands there all the same: the next save starts from it.
                if let SaveError::NotSettled { hash, .. } = error {
                    self.file = Some(Opened {
                        path: path.to_owned(),
                        hash,
                        base: self.job().clone(),
                    });
                    self.history.settle_merges();
                    self.across_merges.clear();
                }
                false
            }
        }
    }

    fn saved(&mut self, path: &Path, hash: Hash) {
        self.file = Some(Opened {
            path: path.to_owned(),
            hash,
            base: self.job().clone(),
        });
        self.changed_elsewhere = false;
        self.history.mark_saved();
        self.across_merges.clear();
        self.notice = format!("Saved: {}", path.display());
    }

    /// Where a merge was taken back or done again since there were `merges`, the job rests on another
    /// file: one without the other desk's work must not be saved over it.
    pub(super) fn file_goes_with(&mut self, merges: usize) {
        let now = self.history.merges();
        if now != merges
            && let Some(other) = self.across_merges.get_mut(now.min(merges))
        {
            std::mem::swap(&mut self.file, other);
        }
    }

    /// Puts the other desk's work and this one's together and saves them; the notice tells what does
    /// not stand. Until that is on disk it can be undone.
    pub fn merge(&mut self, at: CellAt) -> bool {
        let Some(opened) = self.file.clone() else {
            return false;
        };
        let (theirs, hash) = match self.read(&opened.path) {
            Ok(read) => read,
            Err(failure) => {
                self.notice = failure.to_string();
                return false;
            }
        };
        let merged = match merge(&opened.base, self.job(), &theirs) {
            Ok(merged) => merged,
            Err(refused) => {
                let failure = Failure::new(refused.to_string(), refused.hint());
                self.notice = failure.at(&opened.path).to_string();
                return false;
            }
        };
        let met = merged.clashes.iter();
        let met: Vec<String> = met
            .map(|clash| words::merge::clash(&merged.job, clash))
            .collect();
        self.across_merges.truncate(self.history.merges());
        self.across_merges.push(self.file.replace(Opened {
            hash,
            base: Arc::new(theirs),
            ..opened
        }));
        let doing = Doing {
            gesture: None,
            before: at,
            after: at,
        };
        self.history.put_merged(merged.job, doing);
        self.refresh();
        let saved = self.save();
        let met = match met.as_slice() {
            [] => "the two nowhere met".to_owned(),
            met => format!("look these over: {}", met.join("; ")),
        };
        self.notice = if saved {
            format!("Saved, merged with the other desk's work; {met}.")
        } else {
            format!(
                "Merged with the other desk's work, but not saved; {met}. {}",
                self.notice
            )
        };
        saved
    }
}

/// What is said where a file was renamed by hand, so that its name is not the number in it.
fn renamed(path: &Path, job: &Job) -> String {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    if job.number.is_empty() || stem == job.number.as_str() {
        return String::new();
    }
    format!(
        "The file is called {stem}, but the job in it is {}: papers carry the job's number; save as \
         gives it the file's",
        job.number
    )
}

fn said(error: &SaveError, path: &Path) -> String {
    Failure::new(error.to_string(), error.hint())
        .at(path)
        .to_string()
}
