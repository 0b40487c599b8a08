//! The thread that follows the shelf, and how window and thread speak with each other.
//!
//! The window counts what it asks, the thread says how far it has come. So the window knows whether a
//! list that is told has the jobs that were saved meanwhile, and puts in those that it doesn't.

use std::collections::VecDeque;
use std::fmt;
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Weak};

use chrono::NaiveDate;

use super::kept;
use super::looked::{newest, opened, unreachable};
use crate::digest::{Follower, Index, ShelfLine};
use crate::names::JobKey;
use crate::shelf::Shelf;

/// What the thread is asked.
enum Asked {
    Look,
    Took(JobKey, Arc<ShelfLine>),
}

/// What the thread tells.
pub(super) struct Told {
    pub(super) index: Index,
    pub(super) newest: Option<NaiveDate>,
    /// Why the shelf could not be read at the last look.
    pub(super) failed: Option<String>,
    /// Looks that are done.
    looks: u64,
    /// Saved jobs that are in the index.
    saves: u64,
}

/// The window's side.
#[derive(Debug)]
pub(super) struct Beside {
    ask: Sender<Asked>,
    told: Receiver<Told>,
    looks: u64,
    looks_done: u64,
    saves: u64,
    /// Saved jobs that no list that was told has yet, each with its count.
    not_told: VecDeque<(u64, Arc<ShelfLine>)>,
    /// The thread stops reading once this is gone.
    _listens: Arc<()>,
}

impl Beside {
    pub(super) fn new(
        shelf: Arc<dyn Shelf>,
        cache: Option<PathBuf>,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let (ask, asked) = channel();
        let (tell, told) = channel();
        let listens = Arc::new(());
        let thread = Thread {
            shelf,
            cache,
            listens: Arc::downgrade(&listens),
            tell,
            wake,
            follower: Follower::default(),
            index: Index::default(),
            failed: None,
            looks: 0,
            saves: 0,
        };
        std::thread::spawn(move || thread.run(&asked));
        Self {
            ask,
            told,
            looks: 0,
            looks_done: 0,
            saves: 0,
            not_told: VecDeque::new(),
            _listens: listens,
        }
    }

    /// Asks for a look; whether anybody is there to do it.
    pub(super) fn look(&mut self) -> bool {
        self.looks += 1;
        self.ask.send(Asked::Look).is_ok()
    }

    /// Whether a look that was asked for is not done yet.
    pub(super) const fn is_busy(&self) -> bool {
        self.looks_done < self.looks
    }

    /// Tells the thread of a job that was saved.
    pub(super) fn took(&mut self, key: &JobKey, line: &Arc<ShelfLine>) {
        self.saves += 1;
        self.not_told.push_back((self.saves, Arc::clone(line)));
        // Without the thread nothing is told any more that could lack the job.
        let _ = self.ask.send(Asked::Took(key.clone(), Arc::clone(line)));
    }

    /// The newest that was told, with all jobs that were saved from here.
    pub(super) fn told(&mut self) -> Option<Told> {
        let mut told = self.told.try_iter().last()?;
        self.looks_done = told.looks;
        while self
            .not_told
            .front()
            .is_some_and(|(save, _)| *save <= told.saves)
        {
            self.not_told.pop_front();
        }
        for (_, line) in &self.not_told {
            told.index.put(Arc::clone(line));
            told.newest = told.newest.max(opened(line));
        }
        Some(told)
    }
}

/// The thread's side.
struct Thread<Wake> {
    shelf: Arc<dyn Shelf>,
    cache: Option<PathBuf>,
    listens: Weak<()>,
    tell: Sender<Told>,
    wake: Wake,
    follower: Follower,
    index: Index,
    failed: Option<String>,
    looks: u64,
    saves: u64,
}

impl<Wake: Fn()> Thread<Wake> {
    fn run(mut self, asked: &Receiver<Asked>) {
        self.follower = kept::read(self.cache.as_deref(), &self.shelf);
        self.index.follow(self.follower.lines());
        if !self.follower.is_empty() {
            self.tell();
        }
        while let Ok(first) = asked.recv() {
            let mut looks = 0;
            for asked in std::iter::once(first).chain(asked.try_iter()) {
                match asked {
                    Asked::Look => looks += 1,
                    Asked::Took(key, line) => {
                        self.follower.took_line(&key, &line);
                        self.index.put(line);
                        self.saves += 1;
                    }
                }
            }
            if looks > 0 {
                self.look(looks);
            } else if self.index.settle() {
                // The window's own list grows with every save until it gets this one.
                self.tell();
            }
        }
    }

    fn look(&mut self, looks: u64) {
        let shelf = Arc::clone(&self.shelf);
        let mut follower = std::mem::take(&mut self.follower);
        let mut told = follower.len();
        let looked = follower.look(shelf.as_ref(), &mut |so_far| {
            // A first start shows what it has, in steps that grow, so that telling costs little.
            if so_far.len() > told + told / 2 + 400 {
                told = so_far.len();
                self.index.follow(so_far.lines());
                self.tell();
            }
            self.listens.strong_count() > 0
        });
        self.follower = follower;
        self.failed = looked
            .err()
            .map(|error| unreachable(shelf.as_ref(), &error));
        self.looks += looks;
        self.index.follow(self.follower.lines());
        self.tell();
        if let Some(cache) = &self.cache
            && self.follower.has_news()
        {
            kept::keep(cache, &mut self.follower);
        }
    }

    /// Tells what is known now; nobody may be there to hear it.
    fn tell(&self) {
        let _ = self.tell.send(Told {
            index: self.index.clone(),
            newest: newest(&self.index.lines),
            failed: self.failed.clone(),
            looks: self.looks,
            saves: self.saves,
        });
        (self.wake)();
    }
}

impl fmt::Debug for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Told({} lines)", self.index.lines.len())
    }
}

impl fmt::Debug for Asked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Look => "Look",
            Self::Took(..) => "Took",
        })
    }
}
