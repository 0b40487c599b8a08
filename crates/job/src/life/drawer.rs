//! What a job takes out of the drawer: the kit and the guides that a released traveler names are kept for
//! it, and what its run records say is used up.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::drilled::is_drilled;
use super::electrode_numbers::electrode_numbers;
use super::on_floor::on_floor;
use super::state::{State, state};
use crate::job::Job;
use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;

/// Before the name of an electrode in the entry of a released traveler. It stands in job files: whoever
/// changes it makes released kits unknown.
macro_rules! kit {
    () => {
        "kit of "
    };
}

/// The same before the name of a guide: what is kept is its life, since one guide does for several small
/// jobs, one after the other.
macro_rules! holes {
    () => {
        "holes by "
    };
}

/// One of these stands in the file of every job for which something is kept: others need not be read for
/// it.
pub const IN_FILES: [&str; 2] = [concat!("\"", kit!()), concat!("\"", holes!())];

/// What lies in the drawer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// Electrodes.
    Electrode,
    /// Guides.
    Guide,
}

impl Thing {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Electrode, Self::Guide];

    const fn before_name(self) -> &'static str {
        match self {
            Self::Electrode => kit!(),
            Self::Guide => holes!(),
        }
    }

    /// What the line of a traveler's entry is called that says how many electrodes of a name are kept, or
    /// how many ends of holes a guide is kept for.
    #[must_use]
    pub fn entry(self, name: &str) -> String {
        format!("{}{name}", self.before_name())
    }

    /// What a line of a traveler's entry is of, and its name; none for a line that keeps nothing.
    fn of_entry(entry: &str) -> Option<(Self, &str)> {
        let mut all = Self::ALL.into_iter();
        all.find_map(|thing| Some((thing, entry.strip_prefix(thing.before_name())?)))
    }
}

/// What a job takes of one electrode or guide.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Which of the two it is.
    pub thing: Thing,
    /// The shop's name of it.
    pub name: String,
    /// How many electrodes are kept for it that are not used yet; of a guide, for how many ends of holes.
    pub reserved: u32,
    /// What its run records used up.
    pub used: Vec<Used>,
}

impl Drawn {
    const fn none(thing: Thing, name: String) -> Self {
        Self {
            thing,
            name,
            reserved: 0,
            used: Vec::new(),
        }
    }
}

/// What a run record used up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Used {
    /// Its day.
    pub date: Option<NaiveDate>,
    /// How many electrodes.
    pub count: u32,
    /// How long the first of them was when it was taken out of the drawer [mm], where somebody measured
    /// it: a short one is a piece left of another run, and no new one.
    pub before_mm: Option<f64>,
}

/// What a job takes out of the drawer, by the names of electrodes and of guides.
///
/// A record without the name of its electrode counts where the kit has but one kind; several records of
/// one electrode's number are one electrode, and "1 to 38" are 38. A record that says neither numbers nor
/// how many nor a length uses up nobody knows how many: none are counted. No record says when a guide is
/// thrown away, and how long one lasts is no count: guides are kept for the holes of the lot, never used up,
/// and lie there until they are counted again. Nothing is kept any more once all holes of the released parts
/// are drilled, or the job is delivered or set aside: what is left of its kit lies in the drawer again, and
/// so do its guides. A traveler that was released before guides were kept keeps none.
#[must_use]
pub fn drawn(job: &Job) -> Vec<Drawn> {
    let kept = kept(job);
    let mut all = BTreeMap::new();
    for (electrode, used) in used(job, &kept) {
        let drawn = all
            .entry((Thing::Electrode, electrode.clone()))
            .or_insert_with(|| Drawn::none(Thing::Electrode, electrode));
        drawn.used.push(used);
    }
    if state(job) == State::OnTheFloor && !is_drilled(job) {
        for ((thing, name), count) in kept {
            let name = name.to_owned();
            let drawn = all
                .entry((thing, name.clone()))
                .or_insert_with(|| Drawn::none(thing, name));
            let used = drawn.used.iter().map(|used| used.count);
            drawn.reserved = count.saturating_sub(used.fold(0, u32::saturating_add));
        }
    }
    all.into_values().collect()
}

/// What released travelers keep.
fn kept(job: &Job) -> BTreeMap<(Thing, &str), u32> {
    let mut kept = BTreeMap::new();
    for traveler in on_floor(job) {
        for (entry, count) in &traveler.rests_on {
            if let Some(of) = Thing::of_entry(entry) {
                let there: &mut u32 = kept.entry(of).or_default();
                *there = there.saturating_add(*count as u32);
            }
        }
    }
    kept
}

/// What run records used up, each with the name of its electrode.
fn used(job: &Job, kept: &BTreeMap<(Thing, &str), u32>) -> Vec<(String, Used)> {
    let kit = kept.keys().filter(|(thing, _)| *thing == Thing::Electrode);
    let only = match kit.collect::<Vec<_>>().as_slice() {
        [(_, one)] => Some(*one),
        _ => None,
    };
    let mut all = Vec::new();
    let mut seen = BTreeSet::new();
    for run in job.slips_of::<kind::Run>() {
        let named = Some(run.get(line::TubeUsed).trim()).filter(|named| !named.is_empty());
        let Some(electrode) = named.or(only) else {
            continue;
        };
        let numbers = electrode_numbers(run.get(line::ElectrodeNumber));
        let new = numbers
            .iter()
            .filter(|number| seen.insert((electrode.to_owned(), (*number).clone())));
        let new = new.count() as u32;
        // A length is that of one electrode.
        let by_length = u32::from(numbers.is_empty() && has_length(run));
        let broken = run.get(line::Breakages).unwrap_or(0);
        let told = run.get(line::Electrodes);
        let count = told.unwrap_or_else(|| (new + by_length).saturating_add(broken));
        // One that goes on from another record was taken then: those that follow it are new.
        let is_taken = new + by_length > 0 || told.is_some();
        let before = run.get(line::TubeBefore).filter(|_| is_taken);
        if count > 0 {
            let used = Used {
                date: run.get(line::Date),
                count,
                before_mm: before.map(quillbore_calc::Length::mm),
            };
            all.push((electrode.to_owned(), used));
        }
    }
    all
}

/// Whether a record says how many electrodes its holes took: by their count, their numbers or the length of
/// one.
pub(crate) fn says_how_many(run: View<'_, kind::Run>) -> bool {
    run.get(line::Electrodes).is_some()
        || !electrode_numbers(run.get(line::ElectrodeNumber)).is_empty()
        || has_length(run)
}

fn has_length(run: View<'_, kind::Run>) -> bool {
    run.get(line::TubeBefore).is_some() || run.get(line::TubeAfter).is_some()
}
