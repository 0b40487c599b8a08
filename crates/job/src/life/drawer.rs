//! What a job takes out of the drawer: the kit that a released traveler names is kept for it, and what its
//! run records say is used up.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::state::{State, state};
use crate::job::Job;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{kind, line};

/// Before the name of an electrode in the entry of a released traveler. It stands in job files: whoever
/// changes it makes released kits unknown.
const KIT: &str = "kit of ";

/// What a traveler's entry says for so many electrodes of a name.
#[must_use]
pub fn kit_entry(electrode: &str) -> String {
    format!("{KIT}{electrode}")
}

/// What a job takes of one electrode.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawn {
    /// The shop's name of it.
    pub electrode: String,
    /// How many are kept for it that are not used yet.
    pub reserved: u32,
    /// What its run records used up.
    pub used: Vec<Used>,
}

/// What a run record used up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Used {
    /// Its day.
    pub date: Option<NaiveDate>,
    /// How many electrodes.
    pub count: u32,
    /// How long the first of them was when it was taken [mm], where somebody measured it: a short one is a
    /// piece left of another run, and no new one.
    pub before_mm: Option<f64>,
}

/// What a job takes out of the drawer, by the names of electrodes.
///
/// A record without the name of its electrode counts where the kit has but one kind; several records of
/// one electrode's number are one electrode. Nothing is kept any more once the job is delivered or set
/// aside: what is left of its kit lies in the drawer again.
#[must_use]
pub fn drawn(job: &Job) -> Vec<Drawn> {
    let mut kit: BTreeMap<&str, u32> = BTreeMap::new();
    for traveler in job.standing(Paper::Traveler) {
        for (name, count) in &traveler.rests_on {
            if let Some(electrode) = name.strip_prefix(KIT) {
                let there = kit.entry(electrode).or_default();
                *there = there.saturating_add(count.clamp(0.0, 1e6) as u32);
            }
        }
    }
    let only = match kit.keys().collect::<Vec<_>>().as_slice() {
        [one] => Some((**one).to_owned()),
        _ => None,
    };
    let mut all: BTreeMap<String, Drawn> = BTreeMap::new();
    let mut seen = BTreeSet::new();
    for run in job.slips_of::<kind::Run>() {
        let named = run.get(line::TubeUsed).trim();
        let electrode = if named.is_empty() {
            only.clone()
        } else {
            Some(named.to_owned())
        };
        let Some(electrode) = electrode else { continue };
        let number = run.get(line::ElectrodeNumber).trim().to_lowercase();
        let is_new = number.is_empty() || seen.insert((electrode.clone(), number));
        let broken = run.get(line::Breakages).unwrap_or(0);
        let count = match run.get(line::Electrodes) {
            Some(count) => count,
            None => u32::from(is_new).saturating_add(broken),
        };
        if count > 0 {
            let drawn = all.entry(electrode.clone()).or_default();
            drawn.electrode = electrode;
            drawn.used.push(Used {
                date: run.get(line::Date),
                count,
                before_mm: run.get(line::TubeBefore).map(quillbore_calc::Length::mm),
            });
        }
    }
    if state(job) == State::OnTheFloor {
        for (electrode, count) in kit {
            let drawn = all.entry(electrode.to_owned()).or_default();
            electrode.clone_into(&mut drawn.electrode);
            let used = drawn.used.iter().map(|used| used.count);
            drawn.reserved = count.saturating_sub(used.fold(0, u32::saturating_add));
        }
    }
    all.into_values().collect()
}
