//! The shelf as the window knows it: scanned beside the window, searched in memory.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use chrono::NaiveDate;
use quillbore_job::file::{RealDisk, write_whole};
use quillbore_job::shelf::{Index, ShelfLine, read_cache, scan, write_cache};

/// The jobs of the shelf, and what is typed to find one.
pub struct ShelfList {
    /// The jobs, ready to be searched.
    pub index: Arc<Index>,
    /// Grows with every change of the index.
    pub version: u64,
    /// What is typed to find a job.
    pub find: String,
    /// What is to be said of the shelf itself.
    pub notice: String,
    /// A scan is under way.
    pub busy: bool,
    folder: PathBuf,
    day: NaiveDate,
    found: Vec<u32>,
    found_of: Option<(String, u64)>,
    way: Way,
}

enum Way {
    Thread {
        ask: Sender<()>,
        told: Receiver<Told>,
    },
    AtOnce,
}

/// What a scan tells: the jobs so far, and whether it is done; or why there is none.
enum Told {
    Lines { index: Arc<Index>, done: bool },
    Failed(String),
}

impl ShelfList {
    /// A list that is read where it is asked: for tests.
    #[must_use]
    pub fn at_once(folder: &Path, day: NaiveDate) -> Self {
        let mut list = Self::with(folder, day, Way::AtOnce);
        list.look_again();
        list
    }

    /// A list that is read on a thread, which calls `wake` when there is news. What is kept in
    /// `cache` is shown first.
    #[must_use]
    pub fn on_thread(
        folder: &Path,
        day: NaiveDate,
        cache: PathBuf,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let (ask, asked) = channel();
        let (tell, told) = channel();
        let shelf = folder.to_owned();
        std::thread::spawn(move || watch(&shelf, &cache, &asked, &tell, &wake));
        let mut list = Self::with(folder, day, Way::Thread { ask, told });
        list.look_again();
        list
    }

    fn with(folder: &Path, day: NaiveDate, way: Way) -> Self {
        Self {
            index: Arc::default(),
            version: 0,
            find: String::new(),
            notice: String::new(),
            busy: false,
            folder: folder.to_owned(),
            day,
            found: Vec::new(),
            found_of: None,
            way,
        }
    }

    /// Looks through the folder anew.
    pub fn look_again(&mut self) {
        let told = match &self.way {
            Way::Thread { ask, .. } => {
                self.busy = ask.send(()).is_ok();
                return;
            }
            Way::AtOnce => match scan(&self.folder, &self.index.lines, |_| true) {
                Ok(scan) => Told::Lines {
                    index: Arc::new(Index::new(scan.lines)),
                    done: true,
                },
                Err(error) => Told::Failed(gone(&self.folder, &error)),
            },
        };
        self.take(told);
    }

    /// Takes in what the scan told meanwhile.
    pub fn poll(&mut self) {
        let told: Vec<Told> = match &self.way {
            Way::Thread { told, .. } => told.try_iter().collect(),
            Way::AtOnce => return,
        };
        for told in told {
            self.take(told);
        }
    }

    fn take(&mut self, told: Told) {
        match told {
            Told::Lines { index, done } => {
                self.busy = !done;
                self.notice = clock(&index, self.day);
                self.index = index;
                self.version += 1;
            }
            // What was known stays to be looked at.
            Told::Failed(why) => {
                self.busy = false;
                self.notice = why;
            }
        }
    }

    /// The jobs that have every word that is typed, by their place in the index.
    pub fn found(&mut self) -> &[u32] {
        let wanted = (self.find.as_str(), self.version);
        let same = |(find, version): &(String, u64)| (find.as_str(), *version) == wanted;
        if !self.found_of.as_ref().is_some_and(same) {
            self.found = self.index.find(&self.find);
            self.found_of = Some((self.find.clone(), self.version));
        }
        &self.found
    }

    /// The file of the job that the typed text means when Enter is pressed: the code of a paper, a
    /// number, or else the first job found.
    pub fn meant(&mut self) -> Option<PathBuf> {
        let typed = self.find.trim().to_owned();
        let by_code = self.index.by_number(&typed).cloned().or_else(|| {
            let code = quillbore_paper::code::read(&typed)?;
            let is_it = |line: &&Arc<ShelfLine>| line.number.eq_ignore_ascii_case(&code.job);
            self.index.lines.iter().find(is_it).cloned()
        });
        let line = by_code.or_else(|| {
            let first = self.found().first().copied()?;
            self.index.lines.get(first as usize).cloned()
        })?;
        Some(self.folder.join(&line.file))
    }
}

fn watch(shelf: &Path, cache: &Path, asked: &Receiver<()>, tell: &Sender<Told>, wake: &impl Fn()) {
    let mut known: Vec<Arc<ShelfLine>> =
        std::fs::read(cache).map_or_else(|_| Vec::new(), |bytes| read_cache(&bytes));
    let said = |told: Told| {
        let heard = tell.send(told).is_ok();
        wake();
        heard
    };
    let lines = |lines: &[Arc<ShelfLine>], done| Told::Lines {
        index: Arc::new(Index::new(lines.to_vec())),
        done,
    };
    if !known.is_empty() && !said(lines(&known, false)) {
        return;
    }
    while asked.recv().is_ok() {
        while asked.try_recv().is_ok() {}
        let mut told = known.len();
        let scanned = scan(shelf, &known, |so_far| {
            // A first start shows what it has, in steps that grow, so that telling costs little.
            if so_far.len() > told + told / 2 + 400 {
                told = so_far.len();
                return said(lines(so_far, false));
            }
            true
        });
        match scanned {
            Ok(scan) => {
                let changed = scan.read > 0 || scan.lines.len() != known.len();
                known = scan.lines;
                if !said(lines(&known, true)) {
                    return;
                }
                if changed {
                    keep(cache, &known);
                }
            }
            Err(error) => {
                if !said(Told::Failed(gone(shelf, &error))) {
                    return;
                }
            }
        }
    }
}

/// Keeps the cache; without one the next start only reads more.
fn keep(cache: &Path, lines: &[Arc<ShelfLine>]) {
    if let Some(folder) = cache.parent() {
        let _ = std::fs::create_dir_all(folder);
    }
    let _ = write_whole(&RealDisk, cache, &write_cache(lines));
}

fn gone(shelf: &Path, error: &std::io::Error) -> String {
    format!(
        "The shelf can't be read ({error}); what is listed is from before, and open jobs can be \
         saved elsewhere by save as: {}",
        shelf.display()
    )
}

/// What is said where the clock is behind the jobs.
fn clock(index: &Index, day: NaiveDate) -> String {
    let opened = |line: &Arc<ShelfLine>| line.says.as_ref().ok()?.opened;
    match index.lines.iter().filter_map(opened).max() {
        Some(newest) if newest > day => format!(
            "This machine's clock says {day}, but a job was opened on {newest}: set the clock \
             right before anything is dated."
        ),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillbore_job::Job;
    use quillbore_job::file::write_job;

    fn day() -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
    }

    fn put(folder: &Path, number: &str, opened: NaiveDate) {
        let job = Job {
            number: number.to_owned(),
            opened: Some(opened),
            ..Job::default()
        };
        std::fs::write(folder.join(format!("{number}.ron")), write_job(&job)).expect("a job");
    }

    #[test]
    fn a_shelf_that_vanished_keeps_its_list_and_says_so() {
        let folder = tempfile::tempdir().expect("a folder");
        put(folder.path(), "26-0107", day());
        let mut list = ShelfList::at_once(folder.path(), day());
        assert_eq!((list.found().len(), list.notice.as_str()), (1, ""));
        drop(folder);
        list.look_again();
        assert_eq!(list.found().len(), 1);
        assert!(list.notice.contains("can't be read"), "{}", list.notice);
    }

    #[test]
    fn a_clock_set_back_is_noticed() {
        let folder = tempfile::tempdir().expect("a folder");
        put(folder.path(), "26-0107", day());
        let before = day().pred_opt().expect("a day");
        let list = ShelfList::at_once(folder.path(), before);
        assert!(list.notice.contains("clock"), "{}", list.notice);
    }

    #[test]
    fn a_scanned_code_a_number_and_a_part_of_a_name_find_the_job() {
        let folder = tempfile::tempdir().expect("a folder");
        put(folder.path(), "26-0107", day());
        put(folder.path(), "26-0108", day());
        let mut list = ShelfList::at_once(folder.path(), day());
        for typed in ["26-0107-T1/2", "26-0107-t1/2", "26-0107", "0107"] {
            list.find = typed.to_owned();
            let meant = list.meant();
            assert_eq!(meant, Some(folder.path().join("26-0107.ron")), "{typed}");
        }
        list.find = "nothing of the kind".to_owned();
        assert_eq!(list.meant(), None);
    }

    #[test]
    fn a_thread_tells_the_cache_first_and_then_what_is_there() {
        let folder = tempfile::tempdir().expect("a folder");
        put(folder.path(), "26-0107", day());
        let cache = folder.path().join("cache/shelf.json");
        for jobs in [1, 2] {
            let (wake, woken) = channel();
            let mut list = ShelfList::on_thread(folder.path(), day(), cache.clone(), move || {
                let _ = wake.send(());
            });
            while list.busy {
                woken.recv().expect("news");
                list.poll();
            }
            assert_eq!(list.found().len(), jobs);
            put(folder.path(), "26-0108", day());
            drop(list);
            // The thread ends when nobody listens; the cache is whole whenever it is there.
            while woken.recv().is_ok() {}
        }
        assert!(cache.is_file());
    }
}
