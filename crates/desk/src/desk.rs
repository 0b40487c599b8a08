//! The state of the desk: the open job, its history, its file, its results. No drawing here.

mod papers;
mod saving;

use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::assemble::{self, Answers, Questions};
use quillbore_job::file::Hash;
use quillbore_job::history::{Doing, History};
use quillbore_job::results::{Results, questions, results};
use quillbore_job::shelf::Held;
use quillbore_job::{Edit, Field, Job, Shop};

use crate::files;
use crate::grid::CellAt;
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
    /// What this desk calls itself, for the other desks.
    pub name: String,
    /// What the last open, save or print said.
    pub notice: String,
    /// The file was changed by another desk since it was opened: a save was refused.
    pub changed_elsewhere: bool,
    /// For each merge that is on no disk yet the file that a job without it rests on; once the merge
    /// is taken back, the one that a job with it rests on.
    across_merges: Vec<Option<Opened>>,
    results: Arc<Results>,
    worker: Worker<Questions, Answers>,
    held: Held,
    before: Option<Before>,
}

/// A job's file as it was opened or saved.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// Where it stands.
    pub path: PathBuf,
    /// What its content is known by.
    pub hash: Hash,
    /// What was in it.
    pub base: Arc<Job>,
}

/// The job that this one does again, by its number.
#[derive(Clone, Debug)]
struct Before {
    number: String,
    job: Option<Arc<Job>>,
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
            name: String::new(),
            notice: String::new(),
            changed_elsewhere: false,
            across_merges: Vec::new(),
            results,
            worker,
            held: Held::Unknown,
            before: None,
        };
        desk.refresh();
        desk
    }

    /// A desk whose searches are done where they are asked: for tests.
    #[must_use]
    pub fn at_once(shop: Shop, day: NaiveDate, shelf: PathBuf) -> Self {
        Self::new(shop, day, shelf, Worker::at_once(assemble::answer))
    }

    /// The other desk that has this job open, in its own words.
    #[must_use]
    pub fn held_elsewhere(&self) -> Option<&str> {
        match &self.held {
            Held::Elsewhere(name) => Some(name),
            Held::Here(_) | Held::Unknown => None,
        }
    }

    /// The job that this one does again, where the shelf has it.
    #[must_use]
    pub fn before(&self) -> Option<&Arc<Job>> {
        self.before.as_ref()?.job.as_ref()
    }

    /// True where nothing was typed and there is no file: another job may take this place.
    #[must_use]
    pub fn is_untouched(&self) -> bool {
        self.file.is_none() && !self.history.is_dirty()
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
        let merges = self.history.merges();
        let at = self.history.undo();
        self.file_goes_with(merges);
        self.refresh();
        at
    }

    /// Does the last step taken back again; where the cursor was after it.
    pub fn redo(&mut self) -> Option<CellAt> {
        let merges = self.history.merges();
        let at = self.history.redo();
        self.file_goes_with(merges);
        self.refresh();
        at
    }

    /// Takes in what the worker has found meanwhile.
    pub fn poll(&mut self) {
        if self.worker.poll() {
            self.refresh();
        }
    }

    /// Computes everything anew; what rests on searches follows when they are done.
    fn refresh(&mut self) {
        let question = questions(self.history.now(), &self.shop);
        self.worker.ask(question.clone());
        let answers = self.worker.answer_to(&question);
        self.results = Arc::new(results(self.history.now(), &self.shop, answers));
        self.look_before();
    }

    /// Reads the job that this one does again, when its number is new.
    fn look_before(&mut self) {
        let number = self.job().text(Field::Again).trim().to_owned();
        if self.before.as_ref().is_some_and(|b| b.number == number) {
            return;
        }
        // The number is typed: it may name a file on the shelf, and nothing else.
        let names_one = !number.is_empty() && !number.contains(['/', '\\']);
        let path = self.shelf.join(format!("{number}.ron"));
        let job = names_one.then(|| files::open_job(&path).ok()).flatten();
        let job = job.map(Arc::new);
        self.before = Some(Before { number, job });
    }
}

/// A message with its hint, as one sentence.
#[must_use]
pub fn sentence(message: &str, hint: &str) -> String {
    format!("{}; {hint}", message.trim_end_matches('.'))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

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
        assert!(desk.history.is_dirty() && desk.file.is_none());
        assert!(
            desk.save_as(&folder.path().join("26-0001")),
            "{}",
            desk.notice
        );
        assert!(!desk.history.is_dirty());
        assert_eq!(desk.job().number, "26-0001");
        desk.edit(&customer("Finch"), at, at);
        assert!(desk.save(), "{}", desk.notice);
        desk.put(Job::default());
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
