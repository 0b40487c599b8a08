//! The pool of run records: what those of all jobs of a shelf say, gathered once and then followed.

use std::collections::BTreeMap;
use std::fmt;
use std::num::NonZero;
use std::sync::Arc;
use std::thread;

use chrono::NaiveDate;
use quillbore_calc::Tables;
use quillbore_calc::learn::{Evidence, Lessons};
use quillbore_calc::tables::{Machine, Tube};
use quillbore_job::drawer::{Drawn, IN_FILES, drawn};
use quillbore_job::file::read_job;
use quillbore_job::taught::{Taught, Why, taught};
use quillbore_job::{Job, Shop};

use crate::names::JobKey;
use crate::shelf::{Cursor, Doc, Mark, Shelf, ShelfError};

/// What stands in the file of every job that has a run record: others need not be read, unless something
/// is kept for them.
const HAS_RECORD: &str = "\"run\"";
const DAYS_A_YEAR: f64 = 365.25;
/// So few jobs are read before another thread would have begun.
const FEW: usize = 16;

/// The run records of a shelf, as far as it was followed, each held against the start values of a shop.
#[derive(Clone)]
pub struct Pool {
    shop: Arc<Shop>,
    mark: Option<Mark>,
    cursor: Cursor,
    /// Jobs that have run records.
    jobs: BTreeMap<JobKey, Arc<[Taught]>>,
    /// What jobs take out of the drawer.
    drawn: BTreeMap<JobKey, Arc<[Drawn]>>,
    /// Why the shelf's records could not be read at the last look.
    not_read: Option<String>,
}

/// What one job says.
#[derive(Clone, Debug, Default)]
struct Says {
    taught: Vec<Taught>,
    drawn: Vec<Drawn>,
}

impl Says {
    fn of(job: &Job, shop: &Shop) -> Self {
        Self {
            taught: taught(job, shop),
            drawn: drawn(job),
        }
    }
}

/// What the records of a shelf teach on a day, and where each stands.
#[derive(Clone, Debug, Default)]
pub struct Teaching {
    /// What they teach.
    pub lessons: Arc<Lessons>,
    /// Where each of the records that teach stands, in the order of the lessons' evidence.
    pub sources: Arc<[Source]>,
}

/// Where a record stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// Its job; none for one that stands nowhere yet.
    pub job: Option<JobKey>,
    /// What the record says.
    pub taught: Taught,
}

impl Pool {
    /// No records yet; they will be held against the start values of this shop.
    #[must_use]
    pub fn new(shop: Arc<Shop>) -> Self {
        Self {
            shop,
            mark: None,
            cursor: Cursor::default(),
            jobs: BTreeMap::new(),
            drawn: BTreeMap::new(),
            not_read: None,
        }
    }

    /// Holds the records against another shop from now on; what was gathered stays where the two say the
    /// same of everything that a record is held against.
    pub fn judge_by(&mut self, shop: &Arc<Shop>) {
        if Arc::ptr_eq(&self.shop, shop) {
            return;
        }
        if judge_alike(&self.shop, shop) {
            self.shop = Arc::clone(shop);
        } else {
            *self = Self::new(Arc::clone(shop));
        }
    }

    /// Reads the records of jobs that changed since the last look; whether any changed.
    ///
    /// A job that can't be read teaches nothing: the list says why.
    ///
    /// # Errors
    /// Where the shelf can't be reached; what was known stays.
    pub fn look(&mut self, shelf: &dyn Shelf) -> Result<bool, ShelfError> {
        let looked = self.look_at(shelf);
        self.not_read = looked.as_ref().err().map(ToString::to_string);
        looked
    }

    /// Why the shelf's records could not be read at the last look: what is known is from before, or nothing.
    #[must_use]
    pub fn not_read(&self) -> Option<&str> {
        self.not_read.as_deref()
    }

    fn look_at(&mut self, shelf: &dyn Shelf) -> Result<bool, ShelfError> {
        let mark = shelf.mark()?;
        if mark != self.mark {
            self.cursor = Cursor::default();
            self.mark = mark;
        }
        let changes = shelf.changes(&self.cursor)?;
        let mut changed = false;
        if changes.all {
            let before = self.jobs.len() + self.drawn.len();
            let is_there = |key: &JobKey| changes.there.contains(&Doc::Job(key.clone()));
            self.jobs.retain(|key, _| is_there(key));
            self.drawn.retain(|key, _| is_there(key));
            changed |= self.jobs.len() + self.drawn.len() != before;
        }
        for doc in changes.gone {
            if let Doc::Job(key) = doc {
                changed |= self.jobs.remove(&key).is_some();
                changed |= self.drawn.remove(&key).is_some();
            }
        }
        let there = changes.there.into_iter().filter_map(|doc| match doc {
            Doc::Job(key) => Some(key),
            Doc::Shop => None,
        });
        let there: Vec<JobKey> = there.collect();
        let all_say = said_by(shelf, &there, &self.shop)?;
        for key in there {
            // What was not read has nothing to say.
            let said = all_say.get(&key).cloned().unwrap_or_default();
            changed |= self.put(&key, said);
        }
        self.cursor = changes.cursor;
        Ok(changed)
    }

    /// Takes in a job as it stands on a desk, or was just saved; whether its records are others now.
    pub fn took(&mut self, key: &JobKey, job: &Job) -> bool {
        self.put(key, Says::of(job, &self.shop))
    }

    fn put(&mut self, key: &JobKey, now: Says) -> bool {
        let taught = put_in(&mut self.jobs, key, now.taught);
        let drawn = put_in(&mut self.drawn, key, now.drawn);
        taught || drawn
    }

    /// What jobs take out of the drawer, each with its job; what one of them keeps doesn't count against
    /// itself.
    pub fn drawn(&self) -> impl Iterator<Item = (&JobKey, &Drawn)> {
        let all = self.drawn.iter();
        all.flat_map(|(key, drawn)| drawn.iter().map(move |drawn| (key, drawn)))
    }

    /// What the records teach on a day: those of later days don't count yet.
    #[must_use]
    pub fn teaching(&self, day: NaiveDate) -> Teaching {
        self.teaching_with(day, None, &[])
    }

    /// The same with the records of a job as they stand on a desk, in place of those that the shelf has
    /// of it; `key` is none for a job that stands nowhere yet.
    #[must_use]
    pub fn teaching_with(
        &self,
        day: NaiveDate,
        key: Option<&JobKey>,
        on_desk: &[Taught],
    ) -> Teaching {
        let others = self.jobs.iter().filter(|(job, _)| Some(*job) != key);
        let others = others.map(|(job, records)| (Some(job), records.as_ref()));
        let own = (!on_desk.is_empty()).then_some((key, on_desk));
        let mut all: Vec<_> = others.chain(own).collect();
        // Whatever was saved when: the same records in the same order teach the same to the last digit.
        all.sort_by_key(|(job, _)| *job);
        let (mut evidence, mut sources) = (Vec::new(), Vec::new());
        for (lot, (job, records)) in (0..).zip(all) {
            for taught in records {
                if let Ok(told) = evidence_on(taught, lot, day) {
                    evidence.push(told);
                    sources.push(Source {
                        job: job.cloned(),
                        taught: taught.clone(),
                    });
                }
            }
        }
        Teaching {
            lessons: Arc::new(Lessons::of(evidence, &self.shop.tables.start)),
            sources: sources.into(),
        }
    }

    /// Every record with its job, also those that teach nothing.
    pub fn records(&self) -> impl Iterator<Item = (&JobKey, &Taught)> {
        self.jobs
            .iter()
            .flat_map(|(key, records)| records.iter().map(move |taught| (key, taught)))
    }
}

/// What the records of each of these jobs say, by as many threads as there are processors: a whole shelf
/// is read when the program starts.
fn said_by(
    shelf: &dyn Shelf,
    keys: &[JobKey],
    shop: &Shop,
) -> Result<BTreeMap<JobKey, Says>, ShelfError> {
    let threads = thread::available_parallelism().map_or(1, NonZero::get);
    let share = keys.len().div_ceil(threads).max(FEW);
    let shares: Vec<_> = thread::scope(|scope| {
        let read = |keys| move || said_by_some(shelf, keys, shop);
        if share == FEW {
            return keys.chunks(share).map(|keys| read(keys)()).collect();
        }
        let shares = keys.chunks(share).map(|keys| scope.spawn(read(keys)));
        let shares: Vec<_> = shares.collect();
        let ended = shares.into_iter().map(thread::ScopedJoinHandle::join);
        ended
            .map(|said| said.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    });
    let mut all = BTreeMap::new();
    for share in shares {
        all.extend(share?);
    }
    Ok(all)
}

/// What some jobs say, read in lots: a lot is held in memory, and on a server asked for at once.
fn said_by_some(
    shelf: &dyn Shelf,
    keys: &[JobKey],
    shop: &Shop,
) -> Result<Vec<(JobKey, Says)>, ShelfError> {
    const LOT: usize = 200;
    let mut all = Vec::new();
    for keys in keys.chunks(LOT) {
        for (key, stored) in shelf.read_records(keys)? {
            let job = may_teach(&stored.bytes).then(|| read_job(&stored.bytes).ok());
            if let Some(job) = job.flatten() {
                all.push((key, Says::of(&job, shop)));
            }
        }
    }
    Ok(all)
}

/// Whether a job's content has anything that counts beyond it; without that it need not be read.
pub(crate) fn may_teach(content: &[u8]) -> bool {
    let mut any = IN_FILES.iter().chain([&HAS_RECORD]);
    any.any(|has| memchr::memmem::find(content, has.as_bytes()).is_some())
}

/// Puts what a job says in its place, or takes it away where that is nothing; whether it is other now.
fn put_in<T: PartialEq>(all: &mut BTreeMap<JobKey, Arc<[T]>>, key: &JobKey, now: Vec<T>) -> bool {
    if now.is_empty() {
        return all.remove(key).is_some();
    }
    let before = all.insert(key.clone(), now.into());
    before.as_ref() != all.get(key)
}

/// What a record says on a day.
fn evidence_on(taught: &Taught, lot: u32, day: NaiveDate) -> Result<Evidence, Why> {
    if !taught.left_out.is_empty() {
        return Err(Why::LeftOut(taught.left_out.clone()));
    }
    let mut told = taught.says.as_ref().map_err(Clone::clone)?.evidence;
    let days = taught.date.map_or(0, |date| (day - date).num_days());
    if days < 0 {
        return Err(Why::NotYet);
    }
    told.record.lot = lot;
    told.record.age_years = days as f64 / DAYS_A_YEAR;
    Ok(told)
}

impl fmt::Debug for Pool {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Pool({} jobs)", self.jobs.len())
    }
}

/// Whether two shops differ in nothing but names, texts, prices, rates and what lies in the drawer.
fn judge_alike(one: &Shop, other: &Shop) -> bool {
    let same_names = one.names_materials_as(other);
    let (one, other) = (&one.tables, &other.tables);
    let machines = |tables: &Tables| -> Vec<Machine> {
        let machines = tables.machines.iter().cloned();
        let unrated = machines.map(|machine| Machine {
            rate_per_hour: 0.0,
            ..machine
        });
        unrated.collect()
    };
    let tubes = |tables: &Tables| -> Vec<Tube> {
        let tubes = tables.tubes.iter().cloned();
        let bare = tubes.map(|tube| Tube {
            price: 0.0,
            stock: None,
            kept: 0,
            stubs: Vec::new(),
            ..tube
        });
        bare.collect()
    };
    same_names
        && one.materials == other.materials
        && one.start == other.start
        && machines(one) == machines(other)
        && tubes(one) == tubes(other)
}
