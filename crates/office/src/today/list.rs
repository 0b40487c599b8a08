//! The day's list, made of what is known of every job.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_job::Form;
use quillbore_job::drawer::Thing;
use quillbore_job::shop::Calendar;
use quillbore_job::shop::sheet::ShopList;

use super::foot::{Foot, Gathered};
use super::group::Group;
use super::matter::{Matter, PutOff};
use super::seen;
use super::spot::Spot;
use super::waiting::{Short, Waiting};
use crate::digest::{Digest, Index, OpenMatter, ShelfLine};
use crate::names::JobKey;
use crate::week::Week;
use crate::words;

/// What the day's list goes by, beside the shelf.
#[derive(Clone, Copy, Debug)]
pub struct Day<'a> {
    /// Today.
    pub today: NaiveDate,
    /// When the shop works.
    pub calendar: &'a Calendar,
    /// Machine hours that jobs still take [h], as far as they are known.
    pub hours: &'a BTreeMap<JobKey, f64>,
    /// Electrodes and guides that are short in the drawer.
    pub short: &'a [Short],
    /// What is put off.
    pub put_off: &'a PutOff,
    /// How numbers and days are written.
    pub form: Form,
}

/// The day's list.
#[derive(Clone, Debug, PartialEq)]
pub struct Today {
    /// Its lines, group by group; in a group by the day, those without one last, then by number.
    pub lines: Vec<Waiting>,
    /// What is put off, the next to come back first.
    pub aside: Vec<Waiting>,
    /// What is said below it.
    pub foot: Foot,
}

impl Today {
    /// The groups that have lines, in the list's order.
    pub fn groups(&self) -> impl Iterator<Item = (Group, &[Waiting])> {
        let groups = self
            .lines
            .chunk_by(|one, other| one.matter.group == other.matter.group);
        groups.filter_map(|lines| Some((lines.first()?.matter.group, lines)))
    }
}

/// The day's list of a shelf.
///
/// A job stands once, in the first group that fits; the groups of what else waits in it are told on
/// its line. A matter that is put off is left out until its day, and counted; the job stands in the
/// next group that fits meanwhile. An electrode that is short has a line of its own, wherever the job
/// stands that wants it.
#[must_use]
pub fn today(index: &Index, day: &Day<'_>) -> Today {
    let week = Week::of(day.today, day.calendar);
    let mut list = List {
        day,
        week,
        lines: Vec::new(),
        late: 0,
        calls: 0,
        follow_ups: BTreeSet::new(),
        aside: Vec::new(),
        unreadable: 0,
    };
    let mut gathered = Gathered::default();
    for line in &index.lines {
        match &line.says {
            Ok(digest) => {
                gathered.take(line, digest, day.hours);
                list.take(line, digest);
            }
            Err(why) => list.take_unreadable(line, why),
        }
    }
    for short in day.short {
        list.take_short(short, index);
    }
    list.told(gathered)
}

/// The list as it is made.
struct List<'a> {
    day: &'a Day<'a>,
    week: Week,
    lines: Vec<Waiting>,
    late: usize,
    calls: usize,
    follow_ups: BTreeSet<&'a str>,
    aside: Vec<Waiting>,
    unreadable: usize,
}

impl<'a> List<'a> {
    fn take(&mut self, line: &'a ShelfLine, digest: &'a Digest) {
        let (today, job) = (self.day.today, line.job.as_ref());
        let mut waits: Vec<(Group, Option<NaiveDate>, &OpenMatter)> = Vec::new();
        for open in &digest.open {
            let Some(group) = seen::group(open, today, &self.week) else {
                continue;
            };
            let matter = matter(group, job, seen::of(open));
            if let Some(until) = self.put_off(&matter) {
                let waiting = self.waiting(line, digest, matter, open);
                self.aside.push(waiting.put_off(until));
                continue;
            }
            match (group, open) {
                (Group::Late, _) => self.late += 1,
                (Group::CallToday, OpenMatter::Quotation { number, .. }) => {
                    self.follow_ups.insert(number);
                }
                (Group::CallToday, _) => self.calls += 1,
                _ => {}
            }
            waits.push((group, seen::when(open, line, today), open));
        }
        waits.sort_by_key(|(group, when, _)| (*group, when.is_none(), *when));
        let Some(((group, _, first), others)) = waits.split_first() else {
            return;
        };
        let matter = matter(*group, job, seen::of(first));
        self.lines.push(Waiting {
            others: others.iter().map(|(group, ..)| *group).collect(),
            ..self.waiting(line, digest, matter, first)
        });
    }

    /// What waits in a job, as a line of its own.
    fn waiting(
        &self,
        line: &ShelfLine,
        digest: &Digest,
        matter: Matter,
        open: &OpenMatter,
    ) -> Waiting {
        let today = self.day.today;
        let age = seen::since(open, line, today).map(|since| (today - since).num_days().max(0));
        Waiting {
            when: seen::when(open, line, today),
            says: words::today::says(
                open,
                (&line.name, &digest.summary.state),
                today,
                self.day.form,
            ),
            age,
            spot: seen::spot(open, today),
            ..self.of_job(line, matter)
        }
    }

    /// Puts a line in the list, or with what is put off.
    fn push(&mut self, line: Waiting) {
        match self.put_off(&line.matter) {
            Some(until) => self.aside.push(line.put_off(until)),
            None => self.lines.push(line),
        }
    }

    /// A job that can't be read; what only lies among the jobs is the shelf's to tell.
    fn take_unreadable(&mut self, line: &ShelfLine, why: &str) {
        let Some(job) = &line.job else { return };
        self.unreadable += 1;
        let matter = matter(Group::CantRead, Some(job), String::new());
        self.push(Waiting {
            says: why.to_owned(),
            ..self.of_job(line, matter)
        });
    }

    fn take_short(&mut self, short: &Short, index: &Index) {
        let Short {
            thing, name, job, ..
        } = short;
        let of = match thing {
            Thing::Electrode => name.clone(),
            // An electrode may have the same name.
            Thing::Guide => ShopList::of(*thing).key().to_owned() + " " + name,
        };
        let matter = matter(Group::Short, job.as_ref(), of);
        let job = job.as_ref();
        let line = job.and_then(|job| index.by_number(job.as_str()));
        let number = job.map_or_else(String::new, |job| job.as_str().to_owned());
        let waiting = match line {
            Some(line) => self.of_job(line, matter),
            None => bare(matter, number),
        };
        self.push(Waiting {
            when: line.and_then(|line| line.due()),
            says: words::today::short(short),
            spot: Spot::Drawer {
                thing: *thing,
                name: name.clone(),
            },
            ..waiting
        });
    }

    /// What a line says of its job.
    fn of_job(&self, line: &ShelfLine, matter: Matter) -> Waiting {
        let bare = bare(matter, line.name.clone());
        let Ok(digest) = &line.says else { return bare };
        let summary = &digest.summary;
        let hours = line.job.as_ref().and_then(|job| self.day.hours.get(job));
        Waiting {
            customer: summary.customer.clone(),
            part: summary.part.clone(),
            revision: summary.revision.clone(),
            price: summary.price.clone(),
            hours: hours.copied(),
            ..bare
        }
    }

    /// The day until which a matter is put off, if that is to come.
    fn put_off(&self, matter: &Matter) -> Option<NaiveDate> {
        let until = self.day.put_off.get(matter);
        until.copied().filter(|until| self.day.today < *until)
    }

    fn told(self, gathered: Gathered<'_>) -> Today {
        let Day {
            today, calendar, ..
        } = *self.day;
        let mut lines = self.lines;
        lines.sort_by(|one, other| {
            let key = |line: &Waiting| (line.matter.group, line.when.is_none(), line.when);
            let by_day = key(one).cmp(&key(other));
            by_day.then_with(|| one.number.cmp(&other.number))
        });
        let mut aside = self.aside;
        aside.sort_by(|one, other| {
            let key = |line: &Waiting| (line.put_off, line.matter.group);
            let by_day = key(one).cmp(&key(other));
            by_day.then_with(|| one.number.cmp(&other.number))
        });
        let no_answer = |line: &Waiting| line.matter.group == Group::NoAnswer;
        let hours = calendar.hours_per_day + calendar.unattended_hours_per_day;
        let foot = Foot {
            late: self.late,
            calls: self.calls + self.follow_ups.len(),
            waits: !lines.iter().all(no_answer),
            no_answer: lines.iter().any(no_answer),
            out: gathered.out(today),
            floor: gathered.floor(),
            week: self.week,
            week_comes: self.week.monday > today,
            week_hours: hours * self.week.days_left(today, calendar) as f64,
            set_aside: aside.len(),
            unreadable: self.unreadable,
        };
        Today { lines, aside, foot }
    }
}

fn matter(group: Group, job: Option<&JobKey>, of: String) -> Matter {
    let job = job.cloned();
    Matter { group, job, of }
}

/// A line that says nothing of a job.
fn bare(matter: Matter, number: String) -> Waiting {
    Waiting {
        matter,
        when: None,
        number,
        customer: String::new(),
        part: String::new(),
        revision: String::new(),
        says: String::new(),
        price: None,
        hours: None,
        age: None,
        spot: Spot::File,
        others: Vec::new(),
        put_off: None,
    }
}
