//! A shelf in memory that can be made to fail at any call: for tests of what stands above a shelf.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};

use super::changes::{Changes, Cursor};
use super::commit::{Commit, CommitError, Committed, Write};
use super::doc::{Doc, Stored, Version};
use super::error::{ShelfError, Step};
use super::form::Shelf;
use super::held::{Held, desk_name};
use super::mark::Mark;
use crate::names::{AttachmentName, JobKey};

/// What goes wrong at a call.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Nothing is done.
    Refused,
    /// A commit is done, and then told as not confirmed.
    NotConfirmed,
    /// A commit stops when it has written so many documents and would write one more: none of it is
    /// done where that is the first, else the attachments are written too.
    After(usize),
    /// The shelf is gone from now on, until [`Memory::mend`].
    Gone,
}

/// A shelf in memory.
#[derive(Debug, Default)]
pub struct Memory {
    state: Mutex<State>,
}

#[derive(Debug, Default)]
struct State {
    mark: Option<Mark>,
    docs: BTreeMap<Doc, Vec<u8>>,
    /// What was replaced last.
    before: BTreeMap<Doc, Vec<u8>>,
    beside: BTreeMap<JobKey, BTreeMap<AttachmentName, Vec<u8>>>,
    /// Every document that was written or taken away, in order.
    log: Vec<Doc>,
    holds: BTreeMap<JobKey, (String, Weak<Token>)>,
    calls: u64,
    faults: BTreeMap<u64, Fault>,
    gone: bool,
}

/// What holds a job as long as it is there.
#[derive(Debug)]
struct Token;

impl Memory {
    /// An empty shelf with a mark.
    #[must_use]
    pub fn marked(mark: Mark) -> Self {
        let memory = Self::default();
        memory.state().mark = Some(mark);
        memory
    }

    /// Calls so far.
    #[must_use]
    pub fn calls(&self) -> u64 {
        self.state().calls
    }

    /// Makes the call with a number, counted from 0, go wrong.
    pub fn break_at(&self, call: u64, fault: Fault) {
        self.state().faults.insert(call, fault);
    }

    /// Brings a shelf back that was gone.
    pub fn mend(&self) {
        let mut state = self.state();
        state.gone = false;
        state.faults.clear();
    }

    /// Takes a document away, as somebody does who takes a file out of a folder.
    pub fn take_away(&self, doc: &Doc) {
        let mut state = self.state();
        if state.docs.remove(doc).is_some() {
            state.log.push(doc.clone());
        }
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Counts a call; what goes wrong at it.
    fn call(&self) -> Result<(MutexGuard<'_, State>, Option<Fault>), ShelfError> {
        let mut state = self.state();
        let now = state.calls;
        state.calls += 1;
        let fault = state.faults.remove(&now);
        if fault == Some(Fault::Gone) {
            state.gone = true;
        }
        if state.gone {
            return Err(ShelfError::Vanished {
                place: self.place(),
            });
        }
        Ok((state, fault))
    }

    /// A call that reads: it fails whole or not at all.
    fn look(&self) -> Result<MutexGuard<'_, State>, ShelfError> {
        match self.call()? {
            (_, Some(Fault::Refused)) => Err(self.broken(Step::Read)),
            // What only a commit can come to is none of a reader's business.
            (state, _) => Ok(state),
        }
    }

    fn broken(&self, step: Step) -> ShelfError {
        ShelfError::Step {
            step,
            kind: io::ErrorKind::Other,
            says: "the test's shelf fails here".to_owned(),
            place: self.place(),
        }
    }
}

impl State {
    fn check(&self, commit: &Commit) -> Result<(), CommitError> {
        let mut changed = Vec::new();
        for write in &commit.documents {
            match (self.docs.get(&write.doc), write.expected) {
                (None, Some(_)) => return Err(CommitError::Gone(write.doc.clone())),
                (Some(_), None) => return Err(CommitError::Taken(write.doc.clone())),
                (Some(now), Some(expected)) => {
                    if *now != write.bytes && Version::of(now) != expected {
                        changed.push(write.doc.clone());
                    }
                }
                (None, None) => {}
            }
        }
        if !changed.is_empty() {
            return Err(CommitError::Changed(changed));
        }
        for file in &commit.attachments {
            let there = self.beside.get(&file.job);
            let there = there.and_then(|files| files.get(&file.name));
            if there.is_some_and(|there| *there != file.bytes) {
                let (job, name) = (file.job.clone(), file.name.clone());
                return Err(CommitError::AttachmentTaken(job, name));
            }
        }
        Ok(())
    }

    fn write(&mut self, doc: &Doc, bytes: &[u8]) {
        if let Some(before) = self.docs.insert(doc.clone(), bytes.to_vec()) {
            self.before.insert(doc.clone(), before);
        }
        self.log.push(doc.clone());
    }

    /// What the log has from a cursor on; `None` for the first cursor, or one that was damaged.
    fn log_since(&self, since: &Cursor) -> Option<&[Doc]> {
        let from = u64::from_le_bytes(since.opened()?.try_into().ok()?);
        self.log.get(usize::try_from(from).ok()?..)
    }
}

impl Shelf for Memory {
    fn place(&self) -> String {
        "memory".to_owned()
    }

    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        format!("{job}.files/{name}")
    }

    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        Ok(self.look()?.mark.clone())
    }

    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError> {
        let mut state = self.look()?;
        state.mark.get_or_insert_with(|| mark.clone());
        Ok(())
    }

    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        let state = self.look()?;
        Ok(state.docs.get(doc).cloned().map(Stored::new))
    }

    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        let state = self.look()?;
        Ok(state.before.get(doc).cloned().map(Stored::new))
    }

    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        let state = self.look()?;
        let since = state.log_since(since);
        let all = || state.docs.keys().collect();
        let touched: BTreeSet<&Doc> = since.map_or_else(all, |log| log.iter().collect());
        let (there, gone) = touched
            .into_iter()
            .cloned()
            .partition(|doc| state.docs.contains_key(doc));
        let now = u64::try_from(state.log.len()).unwrap_or(u64::MAX);
        Ok(Changes {
            there,
            gone,
            all: since.is_none(),
            unusable: Vec::new(),
            cursor: Cursor::sealed(&now.to_le_bytes()),
        })
    }

    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        let (mut state, fault) = self.call()?;
        if fault == Some(Fault::Refused) {
            return Err(self.broken(Step::WriteNew).into());
        }
        if state.mark.is_none() {
            let place = self.place();
            return Err(ShelfError::NotMarked { place }.into());
        }
        commit.check(|doc, name| match (doc, name) {
            (Doc::Job(job), Some(name)) => self.place_of(job, name),
            _ => self.place(),
        })?;
        state.check(commit)?;
        let stop = match fault {
            Some(Fault::After(documents)) => documents,
            _ => usize::MAX,
        };
        let to_write = commit.documents.iter();
        let to_write = to_write.filter(|write| state.docs.get(&write.doc) != Some(&write.bytes));
        let to_write: Vec<&Write> = to_write.collect();
        // A commit of one document is done or not: there is nothing between.
        if stop == 0 && !to_write.is_empty() {
            return Err(self.broken(Step::PutInPlace).into());
        }
        for file in &commit.attachments {
            let files = state.beside.entry(file.job.clone()).or_default();
            files.insert(file.name.clone(), file.bytes.clone());
        }
        let mut done = Vec::new();
        for write in to_write {
            if done.len() == stop {
                return Err(CommitError::HalfDone {
                    done,
                    left: write.doc.clone(),
                    error: self.broken(Step::PutInPlace),
                });
            }
            state.write(&write.doc, &write.bytes);
            done.push((write.doc.clone(), Version::of(&write.bytes)));
        }
        let documents = commit.documents.iter();
        let versions = documents.map(|write| Version::of(&write.bytes)).collect();
        if fault == Some(Fault::NotConfirmed) {
            let error = self.broken(Step::Settle);
            return Err(CommitError::NotSettled { versions, error });
        }
        Ok(Committed {
            versions,
            locked: true,
        })
    }

    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        let state = self.look()?;
        let jobs = state.docs.keys().filter_map(|doc| match doc {
            Doc::Job(key) => Some(key),
            Doc::Shop => None,
        });
        let numbers = jobs.chain(state.beside.keys());
        Ok(numbers.filter_map(|key| key.number_of(year)).max())
    }

    fn hold(&self, job: &JobKey, by: &str) -> Held {
        let Ok(mut state) = self.look() else {
            return Held::Unknown;
        };
        if state.mark.is_none() {
            return Held::Unknown;
        }
        if let Some((name, token)) = state.holds.get(job)
            && token.strong_count() > 0
        {
            return Held::Elsewhere(name.clone());
        }
        let token = Arc::new(Token);
        let held = (desk_name(by), Arc::downgrade(&token));
        state.holds.insert(job.clone(), held);
        Held::Here(Box::new(token))
    }

    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        let state = self.look()?;
        let files = state.beside.get(job);
        Ok(files.and_then(|files| files.get(name)).cloned())
    }

    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        let state = self.look()?;
        let files = state.beside.get(job);
        Ok(files.map_or_else(Vec::new, |files| files.keys().cloned().collect()))
    }
    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        Ok(self.look()?.beside.keys().cloned().collect())
    }
}
