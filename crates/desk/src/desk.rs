//! The state of the desk: the open job, its history, its file, its results. No drawing here.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::assemble::{self, Answers, Questions};
use quillbore_job::file::{self, Hash, RealDisk, SaveError};
use quillbore_job::history::{Doing, History};
use quillbore_job::results::{Results, questions, results};
use quillbore_job::{Edit, Job, Shop};
use quillbore_paper::Sheet;

use crate::commands::Failure;
use crate::files;
use crate::grid::CellAt;
use crate::print::{self, Kind};
use crate::worker::Worker;

/// The desk with one job on it.
pub struct Desk {
    /// The job and the way it came about.
    pub history: History<CellAt>,
    /// The file it was opened from or last saved to.
    pub file: Option<Opened>,
    /// The shop.
    pub shop: Shop,
    /// Today.
    pub day: NaiveDate,
    /// The folder of jobs.
    pub shelf: PathBuf,
    /// What the last open, save or print said.
    pub notice: String,
    results: Arc<Results>,
    worker: Worker<Questions, Answers>,
}

/// A job's file as it was opened or saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened {
    /// Where it stands.
    pub path: PathBuf,
    /// What its content is known by.
    pub hash: Hash,
}

impl Desk {
    /// A desk with a new, empty job.
    #[must_use]
    pub fn new(
        shop: Shop,
        day: NaiveDate,
        shelf: PathBuf,
        worker: Worker<Questions, Answers>,
    ) -> Self {
        let job = Job {
            opened: Some(day),
            ..Job::default()
        };
        let results = Arc::new(results(&job, &shop, None));
        let mut desk = Self {
            history: History::new(job, true),
            file: None,
            shop,
            day,
            shelf,
            notice: String::new(),
            results,
            worker,
        };
        desk.refresh();
        desk
    }

    /// A desk whose searches are done where they are asked: for tests.
    #[must_use]
    pub fn at_once(shop: Shop, day: NaiveDate, shelf: PathBuf) -> Self {
        Self::new(shop, day, shelf, Worker::at_once(assemble::answer))
    }

    /// The job as it stands.
    #[must_use]
    pub fn job(&self) -> &Arc<Job> {
        self.history.now()
    }

    /// What was computed of it.
    #[must_use]
    pub const fn results(&self) -> &Arc<Results> {
        &self.results
    }

    /// Does an edit; a refusal is told in the notice and changes nothing.
    pub fn edit(&mut self, edit: &Edit, before: CellAt, after: CellAt) {
        match self.history.do_edit(
            edit,
            Doing {
                gesture: None,
                before,
                after,
            },
        ) {
            Ok(_) => {
                self.notice.clear();
                self.refresh();
            }
            Err(refused) => self.notice = sentence(&refused.to_string(), refused.hint()),
        }
    }

    /// Takes the last step back; where the cursor was before it.
    pub fn undo(&mut self) -> Option<CellAt> {
        let at = self.history.undo();
        self.refresh();
        at
    }

    /// Does the last step taken back again; where the cursor was after it.
    pub fn redo(&mut self) -> Option<CellAt> {
        let at = self.history.redo();
        self.refresh();
        at
    }

    /// Takes in what the worker has found meanwhile.
    pub fn poll(&mut self) {
        if self.worker.poll() {
            self.refresh();
        }
    }

    /// Puts a new, empty job on the desk.
    pub fn new_job(&mut self) {
        let unit = self.job().unit;
        let job = Job {
            opened: Some(self.day),
            unit,
            ..Job::default()
        };
        self.history = History::new(job, true);
        self.file = None;
        self.notice.clear();
        self.refresh();
    }

    /// Opens a job's file; what was on the desk is gone only where that worked.
    pub fn open(&mut self, path: &Path) {
        match self.read(path) {
            Ok((job, hash)) => {
                self.history = History::new(job, true);
                self.file = Some(Opened {
                    path: path.to_owned(),
                    hash,
                });
                self.notice.clear();
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

    /// Saves where the job was opened; false where it has no file yet or that failed.
    pub fn save(&mut self) -> bool {
        match self.file.clone() {
            Some(opened) => self.save_to(&opened.path, Some(opened.hash)),
            None => false,
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
        if !saved {
            self.history.put_number(before, opened);
        }
        self.refresh();
        saved
    }

    fn save_to(&mut self, path: &Path, hash: Option<Hash>) -> bool {
        match file::save(&RealDisk, path, self.job(), hash) {
            Ok(hash) => {
                self.file = Some(Opened {
                    path: path.to_owned(),
                    hash,
                });
                self.history.mark_saved();
                self.notice = format!("Saved: {}", path.display());
                true
            }
            Err(error) => {
                self.notice = said(&error, path);
                // The new content stands there all the same: the next save starts from it.
                if let SaveError::NotSettled { hash, .. } = error {
                    self.file = Some(Opened {
                        path: path.to_owned(),
                        hash,
                    });
                }
                false
            }
        }
    }

    /// Prints papers into a folder; the notice tells their paths.
    pub fn print(&mut self, kinds: &[Kind], sheet: Sheet, folder: &Path) {
        let printed = print::print(
            self.job(),
            &self.results,
            &self.shop,
            self.day,
            sheet,
            kinds,
        )
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

    /// Computes everything anew; what rests on searches follows when they are done.
    fn refresh(&mut self) {
        let question = questions(self.history.now(), &self.shop);
        self.worker.ask(question.clone());
        let answers = self.worker.answer_to(&question);
        self.results = Arc::new(results(self.history.now(), &self.shop, answers));
    }
}

/// A message with its hint, as one sentence.
#[must_use]
pub fn sentence(message: &str, hint: &str) -> String {
    format!("{}; {hint}", message.trim_end_matches('.'))
}

fn said(error: &SaveError, path: &Path) -> String {
    Failure::new(error.to_string(), error.hint())
        .at(path)
        .to_string()
}

#[cfg(test)]
mod tests {
    use quillbore_job::Field;

    use super::*;

    fn desk(folder: &Path) -> Desk {
        let shop = Shop::embedded().expect("the shop").clone();
        let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
        Desk::at_once(shop, day, folder.to_owned())
    }

    fn customer(text: &str) -> Edit {
        Edit::SetField {
            field: Field::Customer,
            text: text.to_owned(),
            unit: quillbore_job::Unit::Mm,
        }
    }

    #[test]
    fn a_job_is_saved_changed_saved_again_and_opened() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut desk = desk(folder.path());
        let at = CellAt::default();
        desk.edit(&customer("Alder"), at, at);
        assert!(
            desk.history.is_dirty() && !desk.save(),
            "it has no file yet"
        );
        assert!(
            desk.save_as(&folder.path().join("26-0001")),
            "{}",
            desk.notice
        );
        assert!(!desk.history.is_dirty());
        assert_eq!(desk.job().number, "26-0001");
        desk.edit(&customer("Finch"), at, at);
        assert!(desk.save(), "{}", desk.notice);
        desk.new_job();
        assert_eq!(desk.job().text(Field::Customer), "");
        desk.open(&folder.path().join("26-0001.ron"));
        assert_eq!(desk.job().text(Field::Customer), "Finch");
        desk.open(&folder.path().join("nothing.ron"));
        assert_eq!(desk.job().text(Field::Customer), "Finch", "{}", desk.notice);
        assert!(desk.notice.contains("can't be read"), "{}", desk.notice);
    }

    #[test]
    fn a_file_that_another_desk_changed_is_not_overwritten() {
        let folder = tempfile::tempdir().expect("a folder");
        let at = CellAt::default();
        let mut ours = desk(folder.path());
        ours.edit(&customer("ours"), at, at);
        assert!(ours.save_as(&folder.path().join("26-0001.ron")));
        let mut theirs = desk(folder.path());
        theirs.open(&folder.path().join("26-0001.ron"));
        theirs.edit(&customer("theirs"), at, at);
        assert!(theirs.save());
        ours.edit(&customer("ours again"), at, at);
        assert!(
            !ours.save() && ours.notice.contains("changed by somebody else"),
            "{}",
            ours.notice
        );
        assert!(
            !ours.save_as(&folder.path().join("26-0001.ron")),
            "nor by another way"
        );
        assert!(
            ours.save_as(&folder.path().join("26-0001-ours.ron")),
            "{}",
            ours.notice
        );
    }
}
