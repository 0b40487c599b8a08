//! Keeps the drafts of a run on a thread of its own: neither the window nor a shelf that hangs ever
//! holds them up.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

use quillbore_job::Job;

use super::file::{Draft, Left, forget, left_behind};
use crate::office::Office;
use crate::save::Opened;

/// How long the end of the program waits for the last drafts to be written or thrown away.
const LAST: Duration = Duration::from_secs(3);

/// Keeps the drafts of a run.
pub struct Keeper {
    ask: Option<Sender<Do>>,
    told: Receiver<Told>,
    /// Closed once the thread has done all that it was asked.
    ended: Option<Receiver<()>>,
    /// Which state of each job was kept last.
    kept: BTreeMap<u64, u64>,
    /// The thread's own part, where everything is done at once.
    at_once: Option<(Receiver<Do>, Sender<Told>, Hand)>,
}

/// What the keeper tells.
#[derive(Debug)]
pub enum Told {
    /// What earlier runs left behind, and the files of what can't be read of it.
    LeftBehind(Vec<Left>, Vec<PathBuf>),
    /// A draft could not be kept.
    NotKept(String),
}

enum Do {
    Look(Arc<Office>),
    Keep {
        sheet: u64,
        job: Arc<Job>,
        opened: Option<Opened>,
    },
    Drop(u64),
    DropAll,
    Forget(Box<Left>),
}

/// Who writes.
struct Hand {
    folder: PathBuf,
    run: String,
    drafts: BTreeMap<u64, Draft>,
}

impl Keeper {
    /// A keeper on a thread, which calls `wake` when it has something to tell; `run` is what tells
    /// this run's drafts from those of all others.
    #[must_use]
    pub fn on_thread(folder: &Path, run: &str, wake: impl Fn() + Send + 'static) -> Self {
        let (ask, asked) = channel();
        let (tell, told) = channel();
        let (end, ended) = channel::<()>();
        let mut hand = Hand::new(folder, run);
        std::thread::spawn(move || {
            let _end = end;
            while let Ok(what) = asked.recv() {
                if let Some(said) = hand.done(what) {
                    let _ = tell.send(said);
                    wake();
                }
            }
        });
        Self {
            ask: Some(ask),
            told,
            ended: Some(ended),
            kept: BTreeMap::new(),
            at_once: None,
        }
    }

    /// A keeper that writes where it is asked: for tests.
    #[must_use]
    pub fn at_once(folder: &Path, run: &str) -> Self {
        let (ask, asked) = channel();
        let (tell, told) = channel();
        Self {
            ask: Some(ask),
            told,
            ended: None,
            kept: BTreeMap::new(),
            at_once: Some((asked, tell, Hand::new(folder, run))),
        }
    }

    /// Looks for what earlier runs left behind.
    pub fn look(&mut self, office: Arc<Office>) {
        self.send(Do::Look(office));
    }

    /// Whether this state of a job is not kept yet.
    #[must_use]
    pub fn wants(&self, sheet: u64, state: u64) -> bool {
        self.kept.get(&sheet) != Some(&state)
    }

    /// Keeps a job as it stands in a state of its history.
    pub fn keep(&mut self, sheet: u64, state: u64, job: &Arc<Job>, opened: Option<&Opened>) {
        if self.wants(sheet, state) {
            self.kept.insert(sheet, state);
            self.send(Do::Keep {
                sheet,
                job: Arc::clone(job),
                opened: opened.cloned(),
            });
        }
    }

    /// Throws the draft of a job away: it is saved, or was left on purpose.
    pub fn drop_draft(&mut self, sheet: u64) {
        if self.kept.remove(&sheet).is_some() {
            self.send(Do::Drop(sheet));
        }
    }

    /// Throws all drafts of this run away.
    pub fn drop_all(&mut self) {
        self.kept.clear();
        self.send(Do::DropAll);
    }

    /// Throws away what an earlier run left behind.
    pub fn forget(&mut self, left: Left) {
        self.send(Do::Forget(Box::new(left)));
    }

    /// What has been told since the last look.
    pub fn told(&mut self) -> Vec<Told> {
        self.told.try_iter().collect()
    }

    fn send(&mut self, what: Do) {
        // The thread ends only with the program.
        if let Some(ask) = &self.ask {
            let _ = ask.send(what);
        }
        if let Some((asked, tell, hand)) = &mut self.at_once {
            for what in asked.try_iter() {
                if let Some(said) = hand.done(what) {
                    let _ = tell.send(said);
                }
            }
        }
    }
}

impl Drop for Keeper {
    /// A draft that was to be thrown away must not be offered at the next start.
    fn drop(&mut self) {
        self.ask = None;
        if let Some(ended) = &self.ended {
            let _ = ended.recv_timeout(LAST);
        }
    }
}

impl Hand {
    fn new(folder: &Path, run: &str) -> Self {
        Self {
            folder: folder.to_owned(),
            run: run.to_owned(),
            drafts: BTreeMap::new(),
        }
    }

    fn done(&mut self, what: Do) -> Option<Told> {
        match what {
            Do::Look(office) => {
                let (left, damaged) = left_behind(&self.folder, &office);
                return Some(Told::LeftBehind(left, damaged));
            }
            Do::Keep { sheet, job, opened } => {
                let (folder, run) = (&self.folder, &self.run);
                let draft = self.drafts.entry(sheet);
                let draft = draft.or_insert_with(|| Draft::new(folder, &format!("{run}-{sheet}")));
                if let Err(error) = draft.keep(&job, opened.as_ref()) {
                    return Some(Told::NotKept(crate::words::drafts::not_kept(
                        &error,
                        &self.folder,
                    )));
                }
            }
            Do::Drop(sheet) => {
                if let Some(mut draft) = self.drafts.remove(&sheet) {
                    draft.drop_it();
                }
            }
            Do::DropAll => {
                for (_, mut draft) in std::mem::take(&mut self.drafts) {
                    draft.drop_it();
                }
            }
            Do::Forget(left) => forget(&left),
        }
        None
    }
}
