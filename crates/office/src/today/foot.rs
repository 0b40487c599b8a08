//! What is said below the day's list.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_job::Form;
use quillbore_job::life::State;
use quillbore_job::words::life::state;

use super::list::Today;
use crate::digest::{Digest, Index, OpenMatter, ShelfLine};
use crate::names::JobKey;
use crate::office::queue::MOST_READ;
use crate::week::Week;
use crate::words;

/// What is said below the day's list.
#[derive(Clone, Debug, PartialEq)]
pub struct Foot {
    /// Jobs that are late.
    pub late: usize,
    /// Calls to make, also of jobs that stand in another group: each promised one, and one for each
    /// quotation whose follow-up has come.
    pub calls: usize,
    /// Whether anything stands in the list but quotations without an answer.
    pub waits: bool,
    /// Whether quotations without an answer stand in it.
    pub no_answer: bool,
    /// The quotations that are out.
    pub out: Out,
    /// What lies on the floor.
    pub floor: Floor,
    /// The week that the shop is in.
    pub week: Week,
    /// Whether that week only begins: today is a day off.
    pub week_comes: bool,
    /// Hours that one machine can run to the end of the week [h]: of each day that is worked from today
    /// on, today as a whole, the hours with somebody there and those that machines may run alone. Several
    /// machines can run so long each, as far as people are there for them all.
    pub week_hours: f64,
    /// Matters that are put off.
    pub set_aside: usize,
    /// Jobs that can't be read.
    pub unreadable: usize,
}

/// Quotations without an answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Out {
    /// How many; one for several jobs counts once.
    pub count: usize,
    /// The days that the oldest has been out.
    pub oldest_days: i64,
}

/// The jobs on the floor.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Floor {
    /// Machine hours that they still take [h].
    pub hours: f64,
    /// The hours of each machine [h], the one with most of them first; of jobs for which none is named
    /// under an empty name.
    pub machines: Vec<(String, f64)>,
    /// Jobs whose hours are not known.
    pub without_hours: usize,
}

impl Foot {
    /// All of it in a few sentences.
    #[must_use]
    pub fn said(&self, form: Form) -> String {
        words::today::foot(self, form)
    }
}

/// The jobs on the floor, the newest number first: those whose hours the list's foot adds up.
#[must_use]
pub fn on_the_floor(index: &Index) -> Vec<JobKey> {
    let floor = index.lines.iter().filter(|line| lies_on_floor(line));
    floor.filter_map(|line| line.job.clone()).collect()
}

/// The jobs whose hours a list tells: those on the floor, then those on its lines, as many as are read at
/// once.
#[must_use]
pub fn hours_wanted(index: &Index, list: &Today) -> Vec<JobKey> {
    let mut jobs = on_the_floor(index);
    let room = MOST_READ.saturating_sub(jobs.len());
    let mut seen: BTreeSet<&JobKey> = jobs.iter().collect();
    let listed = list
        .lines
        .iter()
        .filter_map(|line| line.matter.job.as_ref());
    let listed = listed.filter(|job| seen.insert(job)).take(room);
    let listed: Vec<JobKey> = listed.cloned().collect();
    jobs.extend(listed);
    jobs
}

fn lies_on_floor(line: &ShelfLine) -> bool {
    let digest = line.says.as_ref();
    digest.is_ok_and(|digest| digest.summary.state == state(State::OnTheFloor))
}

/// Gathers what is said of all jobs together.
#[derive(Debug, Default)]
pub(super) struct Gathered<'a> {
    quotations: BTreeSet<&'a str>,
    oldest: Option<NaiveDate>,
    hours: f64,
    without_hours: usize,
    /// By their names in small letters, each as it was typed first.
    machines: BTreeMap<String, (&'a str, f64)>,
}

impl<'a> Gathered<'a> {
    /// Takes in one job.
    pub(super) fn take(
        &mut self,
        line: &'a ShelfLine,
        digest: &'a Digest,
        hours: &BTreeMap<JobKey, f64>,
    ) {
        for open in &digest.open {
            if let OpenMatter::Quotation { number, date, .. } = open {
                self.quotations.insert(number);
                self.oldest = Some(self.oldest.map_or(*date, |oldest| oldest.min(*date)));
            }
        }
        if !lies_on_floor(line) {
            return;
        }
        let Some(hours) = line.job.as_ref().and_then(|job| hours.get(job)) else {
            self.without_hours += 1;
            return;
        };
        let machine = digest.summary.machine.as_str();
        let (_, sum) = self
            .machines
            .entry(machine.to_lowercase())
            .or_insert((machine, 0.0));
        *sum += hours;
        self.hours += hours;
    }

    pub(super) fn out(&self, today: NaiveDate) -> Out {
        let days = |oldest: NaiveDate| (today - oldest).num_days().max(0);
        Out {
            count: self.quotations.len(),
            oldest_days: self.oldest.map_or(0, days),
        }
    }

    pub(super) fn floor(self) -> Floor {
        let machines = self.machines.into_values();
        let mut machines: Vec<(String, f64)> = machines
            .map(|(name, hours)| (name.to_owned(), hours))
            .collect();
        machines.sort_by(|one, other| other.1.total_cmp(&one.1));
        Floor {
            hours: self.hours,
            machines,
            without_hours: self.without_hours,
        }
    }
}
