//! What is planned beside the run records: the holes that each electrode drills, in the plan's order.

use std::collections::{BTreeMap, VecDeque};

use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::{HoleFigures, LotFigures, MinutesIn};
use quillbore_calc::tables::{Tables, Tube};
use quillbore_calc::{Idx, JobFigures, RowId};

use crate::job::Job;
use crate::life::inspected::same_mark;
use crate::pinned::slip::lists::{kind, line};

/// Holes of one row that are planned on one electrode, or on several that follow each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The row.
    pub row: RowId,
    /// The tube.
    pub tube: Idx<Tube>,
    /// The first electrode's number among those of its tube.
    pub first: u32,
    /// The last one's.
    pub last: u32,
    /// How many holes; one that is drilled from both ends is half at each.
    pub holes: f64,
    /// Length of the electrode before and after these holes [mm], where it is one.
    pub length_mm: Option<[f64; 2]>,
    /// Minutes by the spark counter [min].
    pub sparking_min: Option<f64>,
    /// Minutes by the clock, from the first touch-off to the last hole [min]: with the holes' share of
    /// loading, indexing, travel, dressing and changes, as a record by the clock is held against.
    pub clock_min: Option<f64>,
}

/// What is planned beside each run record, and what is not recorded yet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RunPlan {
    /// Beside each record, in the order in which they were written.
    pub beside: Vec<Option<Stretch>>,
    /// What no record covers yet, in the plan's order.
    pub left: Vec<Stretch>,
}

impl RunPlan {
    /// The plan of a job's lot, as [`stretches`] gives it, beside its records.
    ///
    /// The records of a mark take its planned stretches one after another: each one, and as many more as
    /// bring their holes nearer to those that it says.
    #[must_use]
    pub fn of(job: &Job, all: &[Stretch]) -> Self {
        let mut by_mark: BTreeMap<String, VecDeque<usize>> = BTreeMap::new();
        let mark_of = |row: RowId| {
            let row = &job.rows[job.row_index(row)?];
            same_mark(row.mark.text())
        };
        for (at, stretch) in all.iter().enumerate() {
            by_mark
                .entry(mark_of(stretch.row).unwrap_or_default())
                .or_default()
                .push_back(at);
        }
        let mut is_left = vec![true; all.len()];
        let only = job.rows.len() == 1;
        let mut beside = Vec::new();
        for run in job.slips_of::<kind::Run>() {
            let mark = same_mark(run.get(line::Mark));
            let queue = match mark {
                Some(mark) => by_mark.get_mut(&mark),
                // Where the job has one row alone, a record without a mark means that.
                None if only => by_mark.values_mut().next(),
                None => None,
            };
            let wanted = run.get(line::Holes).map_or(0.0, f64::from);
            let mut taken: Option<Stretch> = None;
            if let Some(queue) = queue {
                while let Some(at) = queue.front().copied() {
                    let nearer = |taken: Stretch| {
                        let with = taken.holes + all[at].holes;
                        (with - wanted).abs() < (taken.holes - wanted).abs()
                    };
                    if !taken.is_none_or(nearer) {
                        break;
                    }
                    queue.pop_front();
                    is_left[at] = false;
                    taken = Some(taken.map_or(all[at], |taken| taken.with(&all[at])));
                }
            }
            beside.push(taken);
        }
        let left = all.iter().zip(is_left);
        let left = left.filter_map(|(stretch, is_left)| is_left.then_some(*stretch));
        Self {
            beside,
            left: left.collect(),
        }
    }
}

impl Stretch {
    /// This stretch and one that follows it on another electrode.
    fn with(self, next: &Self) -> Self {
        let sum = |of: fn(&Self) -> Option<f64>| Some(of(&self)? + of(next)?);
        Self {
            last: next.last,
            holes: self.holes + next.holes,
            length_mm: None,
            sparking_min: sum(|stretch| stretch.sparking_min),
            clock_min: sum(|stretch| stretch.clock_min),
            ..self
        }
    }
}

/// Every stretch of the lot's plan, electrode by electrode.
#[must_use]
pub fn stretches(job: &Job, figures: &JobFigures, tables: &Tables) -> Vec<Stretch> {
    let lot = figures.lot.as_ref();
    let between = lot.map(|lot| Between::of(lot, figures, job));
    let mut all = Vec::new();
    for electrodes in lot.map_or(&[][..], |lot| &lot.electrodes) {
        let Some(tube) = electrodes.tube.of(&tables.tubes) else {
            continue;
        };
        let of_tube: u32 = electrodes.plan.iter().map(|load| load.times).sum();
        let mut number = 0;
        for load in &electrodes.plan {
            let figures_of = |row: RowId| figures_of(job, figures, row);
            let of_load = load.holes.first().and_then(|(row, _)| figures_of(*row));
            let usable = of_load.and_then(|hole| hole.usable_mm);
            let new = of_load.and_then(|hole| hole.mounted_mm);
            let new = new.unwrap_or(tube.length_mm);
            let worn = |(row, count): &(RowId, u32)| {
                let wear = figures_of(*row).and_then(|hole| hole.wear_mm);
                wear.unwrap_or(0.0) * f64::from(*count)
            };
            let total: f64 = load.holes.iter().map(worn).sum();
            let ends: u32 = load.holes.iter().map(|(_, count)| count).sum();
            // What the plan says is used up, shared among the holes by their wear.
            let used = usable.map(|usable| (usable - load.left_mm).max(0.0));
            for _ in 0..load.times {
                number += 1;
                let mut gone = 0.0;
                for of_row in &load.holes {
                    let before = gone;
                    gone += worn(of_row);
                    let at = |gone: f64| {
                        let share = if total > 0.0 { gone / total } else { 0.0 };
                        Some(new - used? * share)
                    };
                    let row = of_row.0;
                    let hole = figures_of(row);
                    let parts = hole.and_then(|hole| hole.minutes_in.as_ref());
                    let both = hole.is_some_and(|hole| hole.ends == Some(Ends::Both));
                    let holes = f64::from(of_row.1) / if both { 2.0 } else { 1.0 };
                    let of_electrode = f64::from(of_row.1) / f64::from(ends.max(1));
                    let beside = between.as_ref().map_or(0.0, |between| {
                        let dressings = hole.map_or(0.0, |hole| hole.dressings);
                        between.hole * holes
                            + between.dressing * dressings * f64::from(of_row.1)
                            + between.electrode(of_tube) * of_electrode
                    });
                    all.push(Stretch {
                        row,
                        tube: electrodes.tube,
                        first: number,
                        last: number,
                        holes,
                        length_mm: at(before).zip(at(gone)).map(<[f64; 2]>::from),
                        sparking_min: parts.map(|parts| parts.sparking() * holes),
                        clock_min: parts.map(|parts| in_hole(parts) * holes + beside),
                    });
                }
            }
        }
    }
    all
}

fn figures_of<'a>(job: &Job, figures: &'a JobFigures, row: RowId) -> Option<&'a HoleFigures> {
    let hole = figures.holes.get(job.row_index(row)?)?;
    (hole.row == row).then_some(hole.as_ref())
}

/// Minutes of one hole by the clock; changes of electrodes are not in it.
fn in_hole(parts: &MinutesIn) -> f64 {
    parts.sparking() + parts.touch_off + parts.retract
}

/// What goes on between holes once the first is touched off, by what it goes with: as a record by the clock
/// is held against it, see `quillbore_calc::recorded`.
struct Between {
    /// Loading, indexing and travel, for one hole [min].
    hole: f64,
    /// One dressing [min].
    dressing: f64,
    /// One electrode change [min].
    change: f64,
}

impl Between {
    fn of(lot: &LotFigures, figures: &JobFigures, job: &Job) -> Self {
        let machine = &lot.machine;
        let per = |minutes: f64, count: f64| if count > 0.0 { minutes / count } else { 0.0 };
        let holes = figures.holes.iter().map(|hole| f64::from(hole.places));
        let holes = holes.sum::<f64>() * f64::from(lot.quantity);
        let (mut dressings, mut changes) = (0.0, 0.0);
        for electrodes in &lot.electrodes {
            let mut of_tube = 0;
            for load in &electrodes.plan {
                of_tube += load.times;
                for (row, count) in &load.holes {
                    let each = figures_of(job, figures, *row).map_or(0.0, |hole| hole.dressings);
                    dressings += each * f64::from(*count) * f64::from(load.times);
                }
            }
            changes += f64::from(of_tube.saturating_sub(1));
        }
        Self {
            hole: per(machine.load + machine.index + machine.travel, holes),
            dressing: per(machine.dressing, dressings),
            change: per(machine.electrode_changes, changes),
        }
    }

    /// What each of the electrodes of a tube bears of their changes: the first goes in before the clock runs,
    /// and all share that.
    fn electrode(&self, of_tube: u32) -> f64 {
        let changes = f64::from(of_tube.saturating_sub(1));
        self.change * changes / f64::from(of_tube.max(1))
    }
}
