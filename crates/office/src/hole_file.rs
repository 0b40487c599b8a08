//! A customer's file with holes in it: read on a thread of its own, told how far it is, stopped at any time.

mod since;
mod weigh;

pub use since::{Since, since};
use weigh::weighed_now;
pub use weigh::{Weighed, Weighing, Weight};

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use chrono::DateTime;
use quillbore_intake::drawn::{Drawn, DrawnError, Shows};
use quillbore_intake::dxf::DxfError;
use quillbore_intake::pdf::{Offered, PaperError, PdfError, Picture, is_pdf, picture};
use quillbore_intake::step::StepError;
use quillbore_intake::{Foreign, IntakeError, Taken, Watch};
use quillbore_job::file::hash;
use quillbore_job::report::{FileStamp, Source};
use quillbore_job::{Edit, Job, RowsAt, Shop, Unit};

use crate::disk::Disk;
use crate::failure::Failure;
use crate::files;
use crate::words::intake as words;

/// A file with holes in it, as far as it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleFile {
    /// Where it lies.
    pub path: PathBuf,
    /// What is in it.
    pub holes: Holes,
}

/// What is in a file with holes.
#[derive(Clone, Debug, PartialEq)]
pub enum Holes {
    /// A table of them.
    Table(Box<Foreign>),
    /// A drawing or a solid that shows them.
    Drawn(Box<Drawn>),
    /// A drawing in PDF, whose callouts speak of them.
    Pages(Box<Offered>),
}

/// Why a file gave no holes.
#[derive(Clone, Debug, PartialEq)]
pub enum NotRead {
    /// Somebody stopped it.
    Stopped,
    /// It can't be used.
    Failed(Failure),
}

/// Endings of the names of files that may have holes in them.
pub const ENDINGS: &[&str] = &[
    "csv", "tsv", "txt", "xlsx", "xlsm", "ods", "dxf", "step", "stp", "p21", "pdf",
];

/// Whether a file of this name may have holes in it.
#[must_use]
pub fn may_have_holes(path: &Path) -> bool {
    let ending = path
        .extension()
        .map(|end| end.to_string_lossy().to_lowercase());
    ending.is_some_and(|ending| ENDINGS.contains(&ending.as_str()))
}

/// Reads the holes of a file; `watch` hears now and then how far it is.
///
/// # Errors
/// Where it can't be read, has no holes, or `watch` stopped it.
pub fn read(disk: &dyn Disk, path: &Path, watch: Watch<'_>) -> Result<HoleFile, NotRead> {
    let failed = NotRead::Failed;
    let bytes = files::read_capped(disk, path).map_err(failed)?;
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let stamp = stamp(disk, path, &bytes);
    if is_pdf(&bytes, &name) {
        let offered = Offered::read(&bytes, &name, watch);
        let offered = offered.map_err(|error| match error {
            PaperError::Pdf(PdfError::Cancelled) => NotRead::Stopped,
            error => failed(of_pages(&error, path)),
        })?;
        return Ok(HoleFile {
            path: path.to_owned(),
            holes: Holes::Pages(Box::new(offered.stamped(stamp))),
        });
    }
    let holes = match Shows::of(&bytes, &name) {
        Some(shows) => {
            let drawn = Drawn::read(shows, &bytes, &name, watch);
            let drawn = drawn.map_err(|error| of_drawn(error, path))?;
            Holes::Drawn(Box::new(drawn.stamped(stamp)))
        }
        None => {
            let table = Foreign::read(&bytes, &name, watch);
            let table = table.map_err(|error| match error {
                IntakeError::Stopped => NotRead::Stopped,
                error => failed(of_table(&error, path)),
            })?;
            Holes::Table(Box::new(table.stamped(stamp)))
        }
    };
    Ok(HoleFile {
        path: path.to_owned(),
        holes,
    })
}

/// What tells the file's content from another's.
fn stamp(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> FileStamp {
    let look = files::followed(path)
        .ok()
        .and_then(|path| disk.look(&path).ok());
    let changed = look.map(|look| DateTime::from_timestamp_nanos(look.stamp.changed_ns));
    FileStamp {
        bytes: u64::try_from(bytes.len()).unwrap_or(u64::MAX),
        day: changed.map(|changed| changed.date_naive()),
        hash: hash(bytes),
    }
}

/// Why a table can't be used, with its file.
pub(crate) fn of_table(error: &IntakeError, path: &Path) -> Failure {
    Failure::new(error.to_string(), error.hint()).at(path)
}

/// Why a drawing in PDF can't be used, with its file.
pub(crate) fn of_pages(error: &PaperError, path: &Path) -> Failure {
    Failure::new(error.to_string(), error.hint()).at(path)
}

/// Why a drawing or a solid can't be used, with its file.
fn of_drawn(error: DrawnError, path: &Path) -> NotRead {
    match error {
        DrawnError::Drawing(DxfError::Cancelled) | DrawnError::Solid(StepError::Stopped) => {
            NotRead::Stopped
        }
        error => NotRead::Failed(drawn_failure(&error, path)),
    }
}

/// The same where it was read.
pub(crate) fn drawn_failure(error: &DrawnError, path: &Path) -> Failure {
    Failure::new(error.to_string(), error.hint()).at(path)
}

impl HoleFile {
    /// Where its rows will be said to come from.
    #[must_use]
    pub fn source(&self) -> &Source {
        match &self.holes {
            Holes::Table(table) => table.from(),
            Holes::Drawn(drawn) => drawn.from(),
            Holes::Pages(offered) => offered.from(),
        }
    }

    /// Takes its holes as rows of a job's hole table; `unit` is what bare numbers of a table are meant in.
    ///
    /// # Errors
    /// Where something of it is to be said first: a column, a unit, which holes.
    pub fn take(&self, job: &Job, at: RowsAt, unit: Unit) -> Result<Taken, Failure> {
        match &self.holes {
            Holes::Table(table) => {
                let taken = table.take(job, at, unit);
                taken.map_err(|error| of_table(&error, &self.path))
            }
            Holes::Drawn(drawn) => {
                let taken = drawn.take(job, at);
                taken.map_err(|error| drawn_failure(&error, &self.path))
            }
            Holes::Pages(offered) => {
                let taken = offered.take(job, at);
                taken.map_err(|error| of_pages(&error, &self.path))
            }
        }
    }
}

/// Who reads files and reckons with them, beside the window or where it is asked.
#[derive(Clone)]
pub struct Readers {
    disk: Arc<dyn Disk>,
    /// Wakes the window; none: everything is done where it is asked, for tests.
    wake: Option<Arc<dyn Fn() + Send + Sync>>,
}

impl Readers {
    /// Each on a thread of its own, which calls `wake` when it is done and as it goes on.
    #[must_use]
    pub fn on_threads(disk: Arc<dyn Disk>, wake: impl Fn() + Send + Sync + 'static) -> Self {
        Self {
            disk,
            wake: Some(Arc::new(wake)),
        }
    }

    /// Where it is asked: for tests.
    #[must_use]
    pub fn at_once(disk: Arc<dyn Disk>) -> Self {
        Self { disk, wake: None }
    }

    /// Begins to read a file.
    #[must_use]
    pub fn read(&self, path: PathBuf) -> Reading {
        let progress = Arc::new(Progress::default());
        let (tell, read) = channel();
        let (its_own, file) = (Arc::clone(&progress), path.clone());
        let disk = Arc::clone(&self.disk);
        self.beside(move |wake| {
            let watch = |done| its_own.hears(done, wake);
            // Whoever wanted it may have gone.
            let _ = tell.send(self::read(disk.as_ref(), &file, &watch));
        });
        Reading {
            path,
            progress,
            read,
        }
    }

    /// Begins to paint a page, from 0, of a drawing in PDF.
    #[must_use]
    pub fn paint(&self, path: PathBuf, page: usize, most_pixels: u32) -> Painting {
        let (tell, painted) = channel();
        let disk = Arc::clone(&self.disk);
        self.beside(move |_| {
            let bytes = files::read_capped(disk.as_ref(), &path);
            let shown = bytes.and_then(|bytes| {
                let shown = picture(&bytes, page, most_pixels, &|| false);
                shown.map_err(|error| of_pages(&PaperError::Pdf(error), &path))
            });
            let _ = tell.send(shown);
        });
        Painting(painted)
    }

    /// Begins to reckon what a job would come to with an edit.
    #[must_use]
    pub fn weigh(&self, job: Arc<Job>, edit: Edit, shop: Shop) -> Weighing {
        let (tell, weighed) = channel();
        self.beside(move |_| {
            let _ = tell.send(weighed_now(&job, &edit, &shop));
        });
        Weighing(weighed)
    }

    /// Does something on a thread, and wakes the window; or does it here.
    fn beside(&self, work: impl FnOnce(&dyn Fn()) + Send + 'static) {
        match self.wake.clone() {
            None => work(&|| {}),
            Some(wake) => {
                std::thread::spawn(move || {
                    work(wake.as_ref());
                    wake();
                });
            }
        }
    }
}

/// A file that is being read.
#[derive(Debug)]
pub struct Reading {
    /// Which.
    pub path: PathBuf,
    progress: Arc<Progress>,
    read: Receiver<Result<HoleFile, NotRead>>,
}

#[derive(Debug, Default)]
struct Progress {
    /// Hundredths that are done.
    done: AtomicU32,
    stopped: AtomicBool,
}

impl Reading {
    /// Which hundredth it is at.
    #[must_use]
    pub fn hundredths(&self) -> u32 {
        self.progress.done.load(Ordering::Relaxed)
    }

    /// Has it stop as soon as it looks up.
    pub fn stop(&self) {
        self.progress.stopped.store(true, Ordering::Relaxed);
    }

    /// What was read, once; `None` while it is still being read.
    #[must_use]
    pub fn take(&self) -> Option<Result<HoleFile, NotRead>> {
        match self.read.try_recv() {
            // It may be there before it looks up: who stopped it wants none of it.
            Ok(_) if self.progress.stopped.load(Ordering::Relaxed) => Some(Err(NotRead::Stopped)),
            Ok(read) => Some(read),
            Err(TryRecvError::Empty) => None,
            // A library that gave up has taken its thread with it, and nothing else.
            Err(TryRecvError::Disconnected) => {
                Some(Err(NotRead::Failed(words::gave_up(&self.path))))
            }
        }
    }
}

/// A page that is being painted.
#[derive(Debug)]
pub struct Painting(Receiver<Result<Picture, Failure>>);

impl Painting {
    /// The page, once; `None` while it is still being painted. Where it can't be shown, why.
    #[must_use]
    pub fn take(&self) -> Option<Result<Picture, Option<Failure>>> {
        match self.0.try_recv() {
            Ok(painted) => Some(painted.map_err(Some)),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Err(None)),
        }
    }
}

impl Progress {
    /// Notes how far it is, and says whether it shall stop.
    fn hears(&self, done: f64, wake: &dyn Fn()) -> bool {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of the whole"
        )]
        let hundredths = (done.clamp(0.0, 1.0) * 100.0) as u32;
        if self.done.swap(hundredths, Ordering::Relaxed) != hundredths {
            wake();
        }
        self.stopped.load(Ordering::Relaxed)
    }
}

impl Drop for Reading {
    fn drop(&mut self) {
        self.stop();
    }
}
