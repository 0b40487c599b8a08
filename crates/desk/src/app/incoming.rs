//! A customer's file on its way into the hole table: read beside the window, shown before it lands, landed as
//! one edit.

use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;
use quillbore_intake::compare::compare;
use quillbore_intake::{Taken, Units};
use quillbore_job::{Edit, Job};
use quillbore_office::Failure;
use quillbore_office::hole_file::{
    HoleFile, Holes, NotRead, Painting, Readers, Reading, Since, Weighing, since,
};
use quillbore_office::words::intake as said;

use super::App;
use crate::incoming::{Choosing, FromFile, Lands, Offering, Reckoned};
use crate::view::{Pasting, Waiting};
use crate::words::desk::with_hint;
use crate::words::{incoming as words, messages};

/// Files that are on their way, and who reads them.
pub(super) struct Incoming {
    pub(super) readers: Readers,
    /// Files that nobody has looked at yet.
    queue: VecDeque<Dropped>,
    /// The file that is being read, and the job that it is for.
    reading: Option<(u64, bool, Reading)>,
    /// What was read, while another question stands in its place.
    read: Option<Read>,
    /// The page that is being painted: of which job, which file, which page.
    pub(super) painting: Option<((u64, PathBuf, usize), Painting)>,
    /// What is being reckoned, for the job that it is of.
    weighing: Option<(u64, Weighing)>,
}

/// A file that somebody named or dropped.
struct Dropped {
    path: PathBuf,
    /// It goes into the job's folder where it has no holes.
    is_dropped: bool,
}

/// How reading ended.
struct Read {
    job: u64,
    path: PathBuf,
    is_dropped: bool,
    found: Result<HoleFile, NotRead>,
}

impl Incoming {
    pub(super) fn new(readers: Readers) -> Self {
        Self {
            readers,
            queue: VecDeque::new(),
            reading: None,
            read: None,
            painting: None,
            weighing: None,
        }
    }
}

impl App {
    /// Reads the holes of a file as soon as nothing else is asked; `is_dropped` has it attached where it has none.
    pub(super) fn take_holes_of(&mut self, path: PathBuf, is_dropped: bool) {
        self.incoming.queue.push_back(Dropped { path, is_dropped });
    }

    /// Goes on with files that are on their way.
    pub(super) fn follow_files(&mut self, ctx: &Context) {
        self.begin_reading();
        self.hear_reading();
        self.show_read();
        self.reckon_file();
        self.paint_page(ctx);
    }

    /// Begins with the next file where nothing stands in its place.
    fn begin_reading(&mut self) {
        let is_busy = self.incoming.reading.is_some() || self.incoming.read.is_some();
        let is_free = self.view().waiting.is_none() && !self.shop.open && !self.learned.open;
        if is_busy || !is_free {
            return;
        }
        let Some(Dropped { path, is_dropped }) = self.incoming.queue.pop_front() else {
            return;
        };
        if std::mem::take(&mut self.today.open) {
            // On the day's list there is no sheet in sight that it could be meant for.
            self.begin();
            self.view_mut().quick = None;
        }
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        self.view_mut()
            .wait_for(Waiting::Reading(name.into_owned(), 0));
        let reading = self.incoming.readers.read(path);
        self.incoming.reading = Some((self.jobs[self.at].id, is_dropped, reading));
    }

    /// Tells how far the file is, and takes what was read.
    fn hear_reading(&mut self) {
        let Some((job, is_dropped, reading)) = &self.incoming.reading else {
            return;
        };
        let of_it = self.jobs.iter_mut().find(|open| open.id == *job);
        let found = reading.take();
        if let Some(open) = of_it
            && let Some(Waiting::Reading(_, hundredths)) = &mut open.view.waiting
        {
            *hundredths = reading.hundredths();
            if found.is_some() {
                open.view.waiting = None;
            }
        }
        if let Some(found) = found {
            self.incoming.read = Some(Read {
                job: *job,
                path: reading.path.clone(),
                is_dropped: *is_dropped,
                found,
            });
            self.incoming.reading = None;
        }
    }

    /// Has the file that is being read stop.
    pub(super) fn stop_reading(&mut self) {
        if let Some((.., reading)) = &self.incoming.reading {
            reading.stop();
        }
    }

    /// Shows what was read over the sheet of its job, once no other question stands there.
    fn show_read(&mut self) {
        let job = self.incoming.read.as_ref().map(|read| read.job);
        let at = self.jobs.iter().position(|open| Some(open.id) == job);
        let is_free = at.is_none_or(|at| self.jobs[at].view.waiting.is_none());
        let Some(read) = self.incoming.read.take_if(|_| is_free) else {
            return;
        };
        let Some(at) = at else { return };
        match read.found {
            Ok(file) => self.offer(at, file),
            Err(NotRead::Stopped) => self.jobs[at].desk.notice = words::STOPPED.to_owned(),
            Err(NotRead::Failed(failure)) => {
                self.no_holes(at, read.path, read.is_dropped, &failure);
            }
        }
    }

    /// Says why a file has no holes; a dropped one goes into the job's folder all the same.
    fn no_holes(&mut self, at: usize, path: PathBuf, is_dropped: bool, failure: &Failure) {
        let desk = &mut self.jobs[at].desk;
        if is_dropped {
            desk.notice = words::attached_alone(failure);
            desk.wants(crate::desk::Errand::Attach(path));
        } else {
            desk.notice = failure.to_string();
        }
    }

    /// Shows a file before it lands.
    fn offer(&mut self, at: usize, file: HoleFile) {
        let job = self.jobs[at].desk.job();
        let known = since(job, file.source());
        let form = self.jobs[at].desk.shop.form;
        let told = words::file(file.source(), form)
            .into_iter()
            .chain(said::since(&known));
        let lands = match known {
            Since::First => Lands::Below,
            _ if job.rows.is_empty() => Lands::Below,
            Since::Same(_) | Since::Changed(_) | Since::Another(_) => Lands::Compared,
        };
        let from = FromFile::new(file.path, told.collect(), lands);
        let (row, unit) = (job.rows.len(), job.unit);
        let waiting = match file.holes {
            Holes::Table(table) => {
                let mut table = *table;
                table.remember(&self.known());
                // What the sizes look like is shown as the choice, and can be said otherwise.
                let unit = match table.summary(unit).units {
                    Units::Unnamed { looks } => looks.unwrap_or(unit),
                    _ => unit,
                };
                let mut pasting = Pasting::new(table, row, unit);
                pasting.file = Some(from);
                Waiting::Column(Box::new(pasting), String::new())
            }
            Holes::Drawn(drawn) => Waiting::Drawn(Box::new(Choosing::new(*drawn, from))),
            Holes::Pages(offered) => Waiting::Pages(Box::new(Offering::new(*offered, from))),
        };
        self.jobs[at].view.wait_for(waiting);
    }

    /// Looks what the file that is shown makes of the job, where something was said of it since.
    fn reckon_file(&mut self) {
        let id = self.jobs[self.at].id;
        if let Some((_, weighing)) = self
            .incoming
            .weighing
            .as_ref()
            .filter(|(job, _)| *job == id)
            && let Some(weighed) = weighing.take()
        {
            self.incoming.weighing = None;
            if let Some(reckoned) = self.view_mut().waiting.as_mut().and_then(reckoned_of) {
                reckoned.weighed = Some(weighed);
            }
        }
        let state = self.desk().history.state();
        let is_weighing = self.incoming.weighing.as_ref().map(|(job, _)| *job) == Some(id);
        if let Some(file) = self.view_mut().waiting.as_mut().and_then(file_of_mut) {
            // The job went on meanwhile, or another job's file took the place of this one's.
            let is_stale = |reckoned: &Reckoned| {
                let waits = reckoned.weighed.is_none() && reckoned.why_not.is_none();
                reckoned.of != state || (waits && !is_weighing)
            };
            if file.reckoned.as_ref().is_some_and(is_stale) {
                file.changed();
            }
        }
        let waiting = self.view().waiting.as_ref();
        let open = waiting.and_then(file_of);
        let Some(lands) = open
            .filter(|file| file.reckoned.is_none())
            .map(|file| file.lands)
        else {
            return;
        };
        let (edit, reckoned) = match self.edit_of_file(lands) {
            Ok((edit, reckoned)) => (Some(edit), reckoned),
            // What is asked of it stands above already.
            Err(_) => (
                None,
                Reckoned {
                    of: state,
                    why_not: Some(words::NOT_YET.to_owned()),
                    ..Reckoned::default()
                },
            ),
        };
        self.incoming.weighing = edit.map(|edit| {
            let desk = self.desk();
            let shop = desk.shop.own().clone();
            let weighing = self
                .incoming
                .readers
                .weigh(Arc::clone(desk.job()), edit, shop);
            (id, weighing)
        });
        if let Some(file) = self.view_mut().waiting.as_mut().and_then(file_of_mut) {
            file.reckoned = Some(reckoned);
        }
    }

    /// The edit that lands the file as it is understood now, and what differs; else why it can't land.
    fn edit_of_file(&self, lands: Lands) -> Result<(Edit, Reckoned), String> {
        let job = self.desk().job();
        let taken = self.taken_of_file(lands)?;
        let refused =
            |refused: quillbore_job::EditRefused| with_hint(&refused.to_string(), refused.hint());
        let (edit, comparison) = match lands {
            Lands::Compared => {
                let comparison = compare(job, &taken).map_err(refused)?;
                (comparison.edit.clone(), Some(comparison))
            }
            Lands::Below | Lands::InPlace => (taken.edit, None),
        };
        let reckoned = Reckoned {
            of: self.desk().history.state(),
            comparison,
            ..Reckoned::default()
        };
        Ok((self.in_its_unit(job, edit), reckoned))
    }

    fn taken_of_file(&self, lands: Lands) -> Result<Taken, String> {
        let job = self.desk().job();
        match &self.view().waiting {
            Some(Waiting::Column(pasting, _)) => {
                let taken = pasting.table.take(job, lands.rows_at(), pasting.unit);
                taken.map_err(|error| messages::column_refused(&error, error.hint()))
            }
            Some(Waiting::Drawn(choosing)) => {
                let taken = choosing.drawn.take(job, lands.rows_at());
                taken.map_err(|error| messages::column_refused(&error, error.hint()))
            }
            Some(Waiting::Pages(offering)) => {
                let taken = offering.offered.take(job, lands.rows_at());
                taken.map_err(|error| messages::column_refused(&error, error.hint()))
            }
            _ => Err(String::new()),
        }
    }

    /// The edit, with the unit of the file for a sheet that has no holes yet.
    fn in_its_unit(&self, job: &Job, edit: Edit) -> Edit {
        let unit = match &self.view().waiting {
            Some(Waiting::Column(pasting, _)) => Some(pasting.unit),
            Some(Waiting::Drawn(choosing)) => choosing.drawn.unit(),
            Some(Waiting::Pages(offering)) => offering.offered.unit(),
            _ => None,
        };
        match unit.filter(|unit| job.rows.is_empty() && *unit != job.unit) {
            Some(unit) => Edit::Together {
                edits: vec![Edit::SetUnit(unit), edit],
            },
            None => edit,
        }
    }

    /// Lands the file that is shown, one edit; true where it could.
    pub(super) fn land_file(&mut self) -> bool {
        let waiting = self.view().waiting.as_ref();
        let Some(file) = waiting.and_then(file_of).cloned() else {
            return false;
        };
        let edit = match self.edit_of_file(file.lands) {
            Ok((edit, _)) => edit,
            Err(why_not) => {
                self.desk_mut().notice = why_not;
                return false;
            }
        };
        let before = self.desk().history.state();
        let rows = self.desk().job().rows.len();
        self.edit(&edit);
        if self.desk().history.state() == before {
            return false;
        }
        self.view_mut().waiting = None;
        let job = self.desk().job();
        let told = words::landed(&name_of(&file.path), rows, job.rows.len());
        let at = crate::grid::GridAt::new(if file.lands == Lands::Below { rows } else { 0 }, 0);
        let desk = self.desk_mut();
        // What the edit itself told is said behind it.
        let said = std::mem::take(&mut desk.notice);
        desk.notice = format!("{told} {said}").trim_end().to_owned();
        self.view_mut().grid.go_to(at);
        if file.is_kept {
            self.jobs[self.at].landed = Some(self.desk().notice.clone());
            self.attach(file.path);
        }
        true
    }

    /// Puts the file into the job's folder, and takes no holes from it.
    pub(super) fn attach_alone(&mut self) {
        let waiting = self.view_mut().waiting.take();
        if let Some(file) = waiting.as_ref().and_then(file_of) {
            self.attach(file.path.clone());
        }
    }
}

fn name_of(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}

/// The file that is shown.
fn file_of(waiting: &Waiting) -> Option<&FromFile> {
    match waiting {
        Waiting::Column(pasting, _) => pasting.file.as_ref(),
        Waiting::Drawn(choosing) => Some(&choosing.file),
        Waiting::Pages(offering) => Some(&offering.file),
        _ => None,
    }
}

fn file_of_mut(waiting: &mut Waiting) -> Option<&mut FromFile> {
    match waiting {
        Waiting::Column(pasting, _) => pasting.file.as_mut(),
        Waiting::Drawn(choosing) => Some(&mut choosing.file),
        Waiting::Pages(offering) => Some(&mut offering.file),
        _ => None,
    }
}

fn reckoned_of(waiting: &mut Waiting) -> Option<&mut Reckoned> {
    file_of_mut(waiting)?.reckoned.as_mut()
}
