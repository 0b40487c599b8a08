//! Following a shelf: what did not change since the last look is taken as it was known.
//!
//! The cursor says which changes the shelf need not name again. A job that it named is owed until it
//! was read, and what is owed is kept beside the cursor, also in the cache: whatever stops a look, the
//! next one reads on where this one was.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::Job;
use quillbore_job::file::read_job;

use super::cache::kind;
use super::line::ShelfLine;
use super::of_job::Digest;
use crate::names::JobKey;
use crate::shelf::{Changes, Cursor, Doc, Mark, Shelf, ShelfError, Unusable};
use crate::words;

/// How many jobs are read between two tellings; a multiple of [`TOGETHER`].
const TELL_EVERY: usize = 500;

/// So many owed jobs are asked for together.
const MANY: usize = 20;

/// So many are read together where the shelf can do that.
const TOGETHER: usize = 100;

/// What is known of a shelf, and how far it was followed.
#[derive(Clone, Debug, Default)]
pub struct Follower {
    /// What told the shelf from others when it was seen last.
    pub(super) mark: Option<Mark>,
    pub(super) cursor: Cursor,
    pub(super) jobs: BTreeMap<JobKey, Arc<ShelfLine>>,
    pub(super) unusable: Vec<Arc<ShelfLine>>,
    /// Jobs that the next look has to read, whether the shelf names them or not.
    pub(super) owed: BTreeSet<JobKey>,
    /// Something is known that no cache has.
    pub(super) has_news: bool,
}

/// What a look at the shelf came to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looked {
    /// Jobs that were read.
    pub read: usize,
    /// Whether all was read that had to be, and nobody stopped it before.
    pub done: bool,
}

impl Follower {
    /// All lines, the newest number first and then what can't be a job.
    #[must_use]
    pub fn lines(&self) -> Vec<Arc<ShelfLine>> {
        let jobs = self.jobs.values().rev();
        jobs.chain(&self.unusable).cloned().collect()
    }

    /// How many lines there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.jobs.len() + self.unusable.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Whether anything is known that the last cache doesn't have.
    #[must_use]
    pub const fn has_news(&self) -> bool {
        self.has_news
    }

    /// Whether what is known may be of the shelf with a mark; before it was marked it may be of any.
    pub(crate) fn may_be_of(&self, mark: &Mark) -> bool {
        self.mark.as_ref().is_none_or(|known| known == mark)
    }

    /// Reads what changed since the last look, and what that one could not read. `tell` hears before
    /// the first job and then every few hundred what is known so far, and stops the look by saying
    /// false; the next one goes on from there.
    ///
    /// # Errors
    /// Where the shelf can't be reached or another one stands in its place; what was known, and what
    /// was read until then, stays.
    pub fn look(
        &mut self,
        shelf: &dyn Shelf,
        tell: &mut dyn FnMut(&Self) -> bool,
    ) -> Result<Looked, ShelfError> {
        self.recognize(shelf)?;
        let changes = shelf.changes(&self.cursor)?;
        self.take_in(changes);
        self.take_kept(shelf)?;
        // The newest first: they are what somebody looks for.
        let owed: Vec<JobKey> = self.owed.iter().rev().cloned().collect();
        let mut looked = Looked::default();
        let mut makes = owed.len() >= MANY;
        for some in owed.chunks(TOGETHER) {
            if looked.read.is_multiple_of(TELL_EVERY) && !tell(self) {
                return Ok(looked);
            }
            makes = makes && self.take_made(shelf, some)?;
            for key in some {
                if self.owed.contains(key) {
                    self.read(shelf, key)?;
                }
                looked.read += 1;
            }
        }
        looked.done = true;
        Ok(looked)
    }

    /// Takes in a job that this desk itself just saved, without reading the shelf; the line that it
    /// got. Another desk may have saved it since, so the next look reads it all the same.
    pub fn took(&mut self, key: &JobKey, job: &Job) -> Arc<ShelfLine> {
        let line = Arc::new(ShelfLine::of(key, job));
        self.took_line(key, &line);
        line
    }

    /// As [`Follower::took`], where the line is there already.
    pub(crate) fn took_line(&mut self, key: &JobKey, line: &Arc<ShelfLine>) {
        self.owed.insert(key.clone());
        self.jobs.insert(key.clone(), Arc::clone(line));
        self.has_news = true;
    }

    /// Sees to it that this is the shelf that is known, or begins anew.
    fn recognize(&mut self, shelf: &dyn Shelf) -> Result<(), ShelfError> {
        let mark = shelf.mark()?;
        if mark == self.mark {
            return Ok(());
        }
        match (&self.mark, &mark) {
            // An empty mount point would make every job seem gone.
            (Some(_), None) => return Err(vanished(shelf)),
            // Most likely the same one, marked since: all of it is read anew, and listed meanwhile.
            (None, _) => self.cursor = Cursor::default(),
            (Some(_), Some(_)) => *self = Self::default(),
        }
        self.mark = mark;
        self.has_news = true;
        Ok(())
    }

    fn take_in(&mut self, changes: Changes) {
        let keys = |docs: Vec<Doc>| docs.into_iter().filter_map(job_of);
        let there: BTreeSet<JobKey> = keys(changes.there).collect();
        if changes.all {
            self.jobs.retain(|key, _| there.contains(key));
            self.owed.retain(|key| there.contains(key));
        }
        for key in keys(changes.gone) {
            self.jobs.remove(&key);
            self.owed.remove(&key);
        }
        self.owed.extend(there);
        let unusable: BTreeSet<Unusable> = changes.unusable.into_iter().collect();
        let unusable: Vec<ShelfLine> = unusable.into_iter().map(unusable_line).collect();
        if !self.unusable.iter().map(Arc::as_ref).eq(&unusable) {
            self.unusable = unusable.into_iter().map(Arc::new).collect();
            self.has_news = true;
        }
        if self.cursor != changes.cursor {
            self.cursor = changes.cursor;
            self.has_news = true;
        }
    }

    /// Takes what the shelf itself keeps of jobs, where many are owed; all others are read.
    fn take_kept(&mut self, shelf: &dyn Shelf) -> Result<(), ShelfError> {
        if self.owed.len() < MANY {
            return Ok(());
        }
        for (key, text) in shelf.digests(&kind())? {
            if self.owed.contains(&key)
                && let Ok(digest) = serde_json::from_str(&text)
            {
                self.settle(&key, Ok(digest));
            }
        }
        Ok(())
    }

    /// Has the shelf make anew what it should keep of these jobs: an older program saved them. Says whether
    /// it made any.
    fn take_made(&mut self, shelf: &dyn Shelf, jobs: &[JobKey]) -> Result<bool, ShelfError> {
        let made = shelf.make_digests(jobs)?;
        let has_made = !made.is_empty();
        for (key, text) in made {
            if let Ok(digest) = serde_json::from_str(&text) {
                self.settle(&key, Ok(digest));
            }
        }
        Ok(has_made)
    }

    /// Reads a job that is owed. It stays owed where that failed for a reason that may pass.
    fn read(&mut self, shelf: &dyn Shelf, key: &JobKey) -> Result<(), ShelfError> {
        match shelf.read(&Doc::Job(key.clone())) {
            Ok(Some(stored)) => {
                let says = read_job(&stored.bytes).map(|job| Digest::of(&job));
                self.settle(key, says.map_err(|error| words::digest::no_job(&error)));
            }
            Ok(None) => {
                self.check_there(shelf)?;
                // It can come back as the same that it was, and then it is not named again: it stays
                // owed until the shelf says that it is gone.
                self.has_news |= self.jobs.remove(key).is_some();
            }
            Err(ShelfError::TooLarge { .. }) => {
                self.settle(key, Err(words::digest::too_large()));
            }
            Err(error) if !error.is_of_one() => return Err(error),
            Err(error) => {
                self.check_there(shelf)?;
                self.list(key, Err(words::digest::not_read(&error)));
            }
        }
        Ok(())
    }

    fn settle(&mut self, key: &JobKey, says: Result<Digest, String>) {
        self.has_news |= self.owed.remove(key);
        self.list(key, says);
    }

    fn list(&mut self, key: &JobKey, says: Result<Digest, String>) {
        let line = ShelfLine::job(key, says);
        // The same line stays the same in memory, so that an index need not read it.
        if self.jobs.get(key).is_none_or(|there| **there != line) {
            self.jobs.insert(key.clone(), Arc::new(line));
            self.has_news = true;
        }
    }

    /// That one job alone can't be read, and not the whole shelf.
    fn check_there(&self, shelf: &dyn Shelf) -> Result<(), ShelfError> {
        if shelf.mark()? == self.mark {
            return Ok(());
        }
        Err(vanished(shelf))
    }
}

fn job_of(doc: Doc) -> Option<JobKey> {
    match doc {
        Doc::Job(key) => Some(key),
        Doc::Shop => None,
    }
}

fn unusable_line(unusable: Unusable) -> ShelfLine {
    ShelfLine {
        says: Err(words::shelf::why(&unusable.why).to_owned()),
        name: unusable.name,
        job: None,
    }
}

fn vanished(shelf: &dyn Shelf) -> ShelfError {
    ShelfError::Vanished {
        place: shelf.place(),
    }
}
