//! Papers of the job on the desk: issued, reprinted, printed as previews.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::life::{self, Blocker};
use quillbore_job::results::{Results, results_now};
use quillbore_job::{Issued, Paper, words};
use quillbore_paper::Sheet;

use super::Desk;
use crate::commands::Failure;
use crate::print::{self, Sitting};
use crate::{files, issue};

impl Desk {
    /// What is in the way of issuing a paper of this job, by what was computed of it.
    #[must_use]
    pub fn blockers(&self, paper: Paper, results: &Results) -> Vec<Blocker> {
        let before = self.before().map(Arc::as_ref);
        life::blockers(paper, self.job(), &results.found(), before)
    }

    /// Issues a paper of this job, and of `others` with it where it is a quotation; the job is saved
    /// before and after. What was issued can't be undone. Gives the entry.
    pub fn issue(&mut self, paper: Paper, sheet: Sheet, others: &[Sitting<'_>]) -> Option<Issued> {
        // What is issued rests on every search and draw, never on a quick estimate.
        let settled = results_now(self.job(), &self.shop);
        let in_the_way = self.blockers(paper, &settled);
        if !in_the_way.is_empty() {
            let said: Vec<String> = in_the_way.iter().map(words::life::blocker).collect();
            self.notice = format!("Not issued: {}.", said.join("; "));
            return None;
        }
        if (self.file.is_none() || self.history.is_dirty()) && !self.save() {
            return None;
        }
        let own = Sitting {
            job: self.job(),
            results: &settled,
        };
        let sittings: Vec<Sitting<'_>> =
            std::iter::once(own).chain(others.iter().copied()).collect();
        let folder = self.papers_folder();
        let made = issue::ready(paper, &sittings, &self.shop, self.day, sheet)
            .and_then(|ready| Ok((issue::write(&ready, &folder)?, ready)));
        match made {
            Ok((path, ready)) => {
                self.history.put_issued(ready.issued.clone());
                self.refresh();
                if self.save() {
                    self.notice = format!("Issued: {}", files::shown(&path));
                } else {
                    self.notice = format!(
                        "{} is written, but the job that names it is not saved yet: save it again. {}",
                        ready.issued.number, self.notice
                    );
                }
                Some(ready.issued)
            }
            Err(failure) => {
                self.notice = failure.to_string();
                None
            }
        }
    }

    /// Takes in a paper that another job's folder keeps, and saves.
    pub fn take_in(&mut self, issued: Issued) -> bool {
        self.history.put_issued(issued);
        self.refresh();
        self.save()
    }

    /// Looks whether the stored PDF of an issued paper is the one that was issued; the notice tells.
    pub fn reprint(&mut self, number: &str) -> Option<PathBuf> {
        let issued = self
            .job()
            .issued
            .iter()
            .find(|paper| paper.number == number)?;
        let folder = match &issued.kept_by {
            Some(other) => self.shelf.join(format!("{other}.files")),
            None => self.papers_folder(),
        };
        match issue::stored(issued, &folder) {
            Ok((path, _)) => {
                self.notice = format!("As it was issued: {}", files::shown(&path));
                Some(path)
            }
            Err(failure) => {
                self.notice = failure.to_string();
                None
            }
        }
    }

    /// Prints papers into a folder; the notice tells their paths.
    pub fn print(&mut self, papers: &[Paper], sheet: Sheet, folder: &Path) {
        let sitting = Sitting {
            job: self.job(),
            results: &self.results,
        };
        let printed = print::print(sitting, &self.shop, self.day, sheet, papers)
            .and_then(|printed| self.put_papers(&printed, folder));
        self.notice = match printed {
            Ok(paths) => {
                let paths: Vec<_> = paths.iter().map(|path| files::shown(path)).collect();
                format!("Printed: {}", paths.join(", "))
            }
            Err(failure) => failure.to_string(),
        };
    }

    /// Writes previews beside those that are there: an earlier print is never overwritten.
    fn put_papers(
        &self,
        printed: &[print::Printed],
        folder: &Path,
    ) -> Result<Vec<PathBuf>, Failure> {
        const TRIES: u32 = 1_000;
        let name = self.file_name();
        let mut last = print::write(printed, folder, &name, false);
        for again in 2..TRIES {
            if last.is_ok() {
                break;
            }
            last = print::write(printed, folder, &format!("{name}-{again}"), false);
        }
        last
    }

    /// The name that files of this job begin with.
    #[must_use]
    pub fn file_name(&self) -> String {
        let number = &self.job().number;
        if number.is_empty() {
            "new-job".to_owned()
        } else {
            number.clone()
        }
    }

    /// The folder that papers of this job go to, unless another is named.
    #[must_use]
    pub fn papers_folder(&self) -> PathBuf {
        match &self.file {
            Some(opened) => opened.path.with_extension("files"),
            None => self.shelf.join("papers"),
        }
    }
}
