//! What the clerk told: taken into the job on the desk, which may have been edited meanwhile.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::history::Doing;
use quillbore_job::merge::{Clash, merge};
use quillbore_office::Failure;
use quillbore_office::clerk::Reply;
use quillbore_office::issue::{IssuedNow, NotIssued};
use quillbore_office::office::{MergedWork, SavedAs};
use quillbore_office::save::{Opened, SaveError};
use quillbore_office::shelf::{CommitError, Held};
use quillbore_office::words::{issue as issue_words, office as office_words};

use super::errand::{Errand, Then};
use super::news::News;
use super::state::{Desk, Made};
use crate::words::desk as words;

impl Desk {
    /// Takes in what the clerk has done, and goes on with what comes next.
    pub(super) fn take_replies(&mut self) {
        loop {
            let replies = self.clerk.replies();
            let none = replies.is_empty();
            for reply in replies {
                self.take(reply);
            }
            // What is asked now may be done at once, and a reply may ask for more.
            if !self.next_errand() && none {
                return;
            }
        }
    }

    fn take(&mut self, reply: Reply) {
        match reply {
            Reply::Held(held) => self.held = held,
            Reply::Before { number, job } => {
                if let Some(before) = self.before.as_mut().filter(|b| b.number == number) {
                    before.job = job;
                }
            }
            Reply::Records(pool) => {
                // Told once: what was told since, such as that a save failed, is not covered up.
                let is_told = self
                    .pool
                    .as_ref()
                    .is_some_and(|pool| pool.not_read().is_some());
                if let Some(why) = pool.not_read()
                    && !is_told
                {
                    let why = words::records_not_read(why);
                    let before = self.notice.trim_end_matches('.');
                    self.notice = match before.is_empty() {
                        true => why,
                        false => format!("{before}. {why}"),
                    };
                }
                self.pool = Some(pool);
                self.refresh();
            }
            Reply::Queue { jobs, queue } => self.take_queue(&jobs, queue),
            // The window opens jobs and makes shelves, not the desk of one job.
            Reply::Opened { .. }
            | Reply::Learned(_)
            | Reply::Shop { .. }
            | Reply::PrintedOut { .. }
            | Reply::Printers(_)
            | Reply::HoursEach(_)
            | Reply::Done(_)
            | Reply::ShopSaved { .. }
            | Reply::Logo(_)
            | Reply::ListWritten(..)
            | Reply::ListRead(..)
            | Reply::SamplesRemoved(_)
            | Reply::Adopted(_)
            | Reply::Folder { .. }
            | Reply::ShelfServer { .. } => {}
            Reply::Saved(result) => {
                let state = self.done();
                self.take_saved(result, state);
            }
            Reply::SavedAs { path, result } => {
                let state = self.done();
                self.take_saved_as(&path, result, state);
            }
            Reply::Merged { ours, result } => {
                let state = self.done();
                self.take_merged(&ours, result, state);
            }
            Reply::Issued(result) => {
                let state = self.done();
                self.issuing = None;
                match result {
                    Ok(issued) => self.take_issued(*issued, state),
                    Err(not) => self.take_not_issued(not, state),
                }
            }
            Reply::Reprint(result) => {
                self.done();
                match result {
                    Ok(place) => {
                        let then = std::mem::replace(&mut self.then, Then::Tell);
                        let file = PathBuf::from(&place);
                        self.tell_made(words::reprint(&place), None, file.clone());
                        self.news.push(News::FileThere(file, then));
                    }
                    Err(failure) => self.notice = failure.to_string(),
                }
            }
            Reply::Blank(result) => {
                self.done();
                match result {
                    Ok(place) => {
                        let file = PathBuf::from(&place);
                        self.tell_made(words::printed(&[place]), None, file.clone());
                        self.look_beside();
                        self.news.push(News::FileThere(file, Then::Open));
                    }
                    Err(failure) => self.notice = failure.to_string(),
                }
            }
            Reply::Threading(result) => {
                self.done();
                match result {
                    Ok((place, told)) => {
                        let file = PathBuf::from(&place);
                        let said = [words::printed(&[place])].into_iter().chain(told);
                        let said: Vec<String> = said.collect();
                        self.tell_made(said.join(" "), None, file.clone());
                        self.look_beside();
                        self.news.push(News::FileThere(file, Then::Open));
                    }
                    Err(failure) => self.notice = failure.to_string(),
                }
            }
            Reply::PlaceBeside(result) => {
                self.done();
                match result {
                    Ok(place) => self.news.push(News::FileThere(place.into(), Then::Open)),
                    Err(failure) => self.notice = failure.to_string(),
                }
            }
            Reply::Beside(result) => {
                // Where they can't be read the sheet shows none; whoever opens one is told why.
                self.beside = result.unwrap_or_default();
            }
            Reply::Printed(result) => {
                self.done();
                match result {
                    Ok(places) => {
                        let first = places.first().map(PathBuf::from).unwrap_or_default();
                        self.tell_made(words::printed(&places), None, first);
                    }
                    Err(failure) => self.notice = failure.to_string(),
                }
            }
            Reply::Attached(result) => {
                self.done();
                match result {
                    Ok(name) => {
                        self.look_beside();
                        self.news.push(News::Attached(name.as_str().to_owned()));
                    }
                    Err(failure) => self.notice = failure.to_string(),
                }
            }
        }
    }

    /// Notes that nothing is under way any more; the state of the history for which it was.
    fn done(&mut self) -> u64 {
        let now = self.history.state();
        self.busy.take().unwrap_or(now)
    }

    fn take_saved(&mut self, result: Result<Opened, SaveError>, state: u64) {
        match result {
            Ok(opened) => {
                self.now_stands(opened, state);
                self.notice = office_words::saved(&self.place());
                self.news.push(News::Saved);
            }
            Err(error) => {
                self.changed_elsewhere = error.is_changed();
                if error.is_no_shelf() {
                    self.news.push(News::NoShelf);
                }
                // The new content stands there all the same: the next save starts from it.
                if let SaveError::Commit(CommitError::NotSettled { versions, .. }) = &error
                    && let (Some(opened), [version]) = (&mut self.opened, versions.as_slice())
                {
                    opened.version = *version;
                    self.history.settle_merges();
                    self.across_merges.clear();
                }
                let place = self.place();
                let is_of_shelf = matches!(error, SaveError::Commit(CommitError::Shelf(_)));
                let why = Failure::from(error).or_at(Path::new(&place)).to_string();
                self.notice = match is_of_shelf {
                    true => words::not_saved(&why),
                    false => why,
                };
                self.give_up();
            }
        }
    }

    fn take_saved_as(&mut self, path: &Path, result: Result<Box<SavedAs>, Failure>, state: u64) {
        let saved = match result {
            Ok(saved) => *saved,
            Err(failure) => {
                self.notice = failure.or_at(path).to_string();
                self.give_up();
                return;
            }
        };
        let mut state = state;
        if !saved.left_behind.is_empty() {
            // The copy carries no papers of the other job: that is no edit that undo takes back.
            let unchanged = self.history.state() == state;
            let (copy, _) = self.job().as_copy(&saved.job.number);
            self.history.put_for_good(copy);
            if unchanged {
                state = self.history.state();
            }
        }
        // Another desk may hold it under its new name, and it holds the old one no more.
        self.held = Held::Unknown;
        self.opened = None;
        self.now_stands(saved.opened, state);
        self.notice = office_words::saved_as(&self.place(), &saved.left_behind);
        self.news.push(News::Saved);
    }

    fn take_merged(
        &mut self,
        ours: &Arc<Job>,
        result: Result<Box<MergedWork>, Failure>,
        state: u64,
    ) {
        let merged = match result {
            Ok(merged) => *merged,
            Err(failure) => {
                self.notice = failure.to_string();
                self.give_up();
                return;
            }
        };
        let unchanged = self.history.state() == state;
        let mut clashes = merged.clashes;
        let job = if unchanged {
            Ok(merged.job.as_ref().clone())
        } else {
            self.typed_on_top(ours, &merged.job, &mut clashes)
        };
        let job = match job {
            Ok(job) => job,
            Err(why) => {
                self.notice = why;
                self.give_up();
                return;
            }
        };
        self.across_merges.truncate(self.history.merges());
        self.across_merges.push(self.opened.replace(merged.theirs));
        let at = self.cursor;
        self.history.put_merged(
            job,
            Doing {
                gesture: None,
                before: at,
                after: at,
            },
        );
        match merged.saved {
            Ok(opened) => {
                let state = if unchanged {
                    self.history.state()
                } else {
                    state
                };
                self.now_stands(opened, state);
                self.notice = office_words::merged(self.job(), &clashes, self.shop.form);
                self.news.push(News::Saved);
            }
            Err(error) => {
                self.changed_elsewhere = error.is_changed();
                self.refresh();
                let why = Failure::from(error).to_string();
                self.notice =
                    office_words::merged_unsaved(self.job(), &clashes, &why, self.shop.form);
                self.give_up();
            }
        }
    }

    /// What was typed while both were put together, put on top of the merged job; why it can't be.
    fn typed_on_top(
        &self,
        ours: &Job,
        merged: &Job,
        clashes: &mut Vec<Clash>,
    ) -> Result<Job, String> {
        let again = merge(ours, self.job(), merged);
        let again =
            again.map_err(|refused| words::with_hint(&refused.to_string(), refused.hint()))?;
        clashes.extend(again.clashes);
        Ok(again.job)
    }

    /// Says what was done, and what it made.
    fn tell_made(&mut self, said: String, paper: Option<String>, file: PathBuf) {
        self.notice.clone_from(&said);
        self.made = Some(Made { said, paper, file });
    }

    fn take_issued(&mut self, now: IssuedNow, state: u64) {
        let unchanged = self.history.state() == state;
        let notice = issue_words::issued(&now);
        let number = now.issued.number.clone();
        let file = PathBuf::from(&now.place);
        self.history.put_issued(now.issued);
        let state = if unchanged {
            self.history.state()
        } else {
            state
        };
        self.now_stands(now.opened, state);
        self.tell_made(notice, Some(number), file);
        if !now.others.is_empty() {
            self.news.push(News::OthersIssued(now.others));
        }
    }

    fn take_not_issued(&mut self, not: NotIssued, state: u64) {
        let notice = issue_words::not_issued(&not);
        let (numbered, changed) = match not {
            NotIssued::InTheWay { .. } => (None, false),
            NotIssued::Failed { numbered, .. } => (numbered, false),
            NotIssued::RecordsRead => {
                self.look_at_records();
                (None, false)
            }
            NotIssued::ShopChanged { numbered } => {
                self.reckon_by_shop();
                self.look_at_records();
                (numbered, false)
            }
            NotIssued::SavedMeanwhile { jobs, numbered } => {
                let own = self.opened.as_ref().map(|opened| &opened.key);
                let changed = own.is_some_and(|own| jobs.contains(own));
                (numbered, changed)
            }
        };
        if let Some(opened) = numbered {
            self.now_stands(*opened, state);
        }
        self.changed_elsewhere |= changed;
        self.notice = notice;
        if changed {
            self.news.push(News::NotSaved);
        }
    }

    /// Notes where the job stands now; it is saved as far as it was in a state of its history.
    fn now_stands(&mut self, opened: Opened, state: u64) {
        let base = &opened.base;
        self.history.put_number(base.number.clone(), base.opened);
        let is_new = self.opened.is_none();
        self.changed_elsewhere = false;
        self.history.mark_saved_in(state);
        self.across_merges.clear();
        self.news.push(News::Stands(opened.clone()));
        self.opened = Some(opened);
        if is_new {
            self.hold();
        }
        self.refresh();
    }

    /// What waited for a save is given up.
    fn give_up(&mut self) {
        self.todo
            .retain(|errand| !matches!(errand, Errand::Attach(_)));
        self.news.push(News::NotSaved);
    }
}
