//! What was learned, by family and electrode, material, machine and size.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use quillbore_calc::learn::{CLASS_ENDS_MM, Learned, Learns, Likeness, Prediction};
use quillbore_calc::quantity::Z90;
use quillbore_calc::tables::{Family, TubeMaterial};
use quillbore_job::Shop;

use crate::pool::{Source, Teaching};

/// What was learned of a kind of work, a material, a machine or a class of sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What it is about.
    pub of: GroupOf,
    /// Records that teach.
    pub runs: u32,
    /// Holes of them.
    pub holes: f64,
    /// Minutes that go with the feed.
    pub burn: Option<Made>,
    /// Length of electrode lost.
    pub wear: Option<Made>,
    /// Handling; of a machine alone.
    pub handling: Option<Made>,
    /// Gap per side; of a class of sizes alone.
    pub gap: Option<Made>,
    /// The newest of them.
    pub last: Option<NaiveDate>,
}

/// What a group is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GroupOf {
    /// A family of materials drilled by an electrode.
    Kind(KindOfWork),
    /// A material, as the shop calls it.
    Material(String),
    /// A machine, as the shop calls it.
    Machine(String),
    /// Tubes up to a diameter [hundredths of a mm], and above the one before; none for all above.
    Sizes(Option<u32>),
}

/// A family of materials drilled by an electrode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct KindOfWork {
    /// The family.
    pub family: Family,
    /// What the electrode is made of; none where nobody knows.
    pub electrode: Option<TubeMaterial>,
    /// Its diameter [hundredths of a mm].
    pub hundredths: u32,
}

/// A factor on a start value, with what is to be expected of the next lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Made {
    /// Low, likely, high.
    pub now: [f64; 3],
    /// Low and high by the start values alone.
    pub start: [f64; 2],
}

/// Groups by family and electrode, then material, then machine, then size.
pub(super) fn all(teaching: &Teaching, shop: &Shop) -> Vec<Group> {
    let Some(learned) = teaching.lessons.learned() else {
        return Vec::new();
    };
    let mut members: BTreeMap<GroupOf, Vec<&Source>> = BTreeMap::new();
    for source in teaching.sources.iter() {
        let Ok(told) = &source.taught.says else {
            continue;
        };
        let like = &told.evidence.record.like;
        for of in groups_of(like, shop) {
            members.entry(of).or_default().push(source);
        }
    }
    let group = |(of, sources): (GroupOf, Vec<&Source>)| group(of, &sources, learned, shop);
    members.into_iter().map(group).collect()
}

fn groups_of(like: &Likeness, shop: &Shop) -> Vec<GroupOf> {
    let tables = &shop.tables;
    let material = tables.materials.get(like.grade as usize);
    let machine = tables.machines.get(like.machine as usize);
    let end = CLASS_ENDS_MM.iter().find(|end| like.tube_mm <= **end);
    let sizes = GroupOf::Sizes(end.map(|end| libm::round(end * 100.0) as u32));
    let material = material.map(|material| GroupOf::Material(material.name.clone()));
    let machine = machine.map(|machine| GroupOf::Machine(machine.name.clone()));
    let kind = kind_of(like, shop).map(GroupOf::Kind);
    let named = kind.into_iter().chain(material).chain(machine);
    named.chain([sizes]).collect()
}

/// The kind of work that a record is of; none where the shop no longer has its material.
pub(super) fn kind_of(like: &Likeness, shop: &Shop) -> Option<KindOfWork> {
    let tables = &shop.tables;
    let hundredths = libm::round(like.tube_mm * 100.0) as u32;
    let electrodes = tables.tubes.iter().map(|tube| tube.material);
    Some(KindOfWork {
        family: tables.materials.get(like.grade as usize)?.family,
        electrode: electrodes
            .into_iter()
            .find(|material| *material as u32 == like.electrode),
        hundredths,
    })
}

fn group(of: GroupOf, sources: &[&Source], learned: &Learned, shop: &Shop) -> Group {
    let records: Vec<_> = (sources.iter())
        .filter_map(|source| Some(source.taught.says.as_ref().ok()?.evidence.record))
        .collect();
    let likes: Vec<Likeness> = records.iter().map(|record| record.like).collect();
    let speaks = |factor: Learns| records.iter().any(|record| record.speaks_of(factor));
    let made = |factor: Learns, shown: bool| {
        (shown && speaks(factor)).then(|| made(factor, &likes, learned, shop))
    };
    Group {
        runs: u32::try_from(records.len()).unwrap_or(u32::MAX),
        holes: records.iter().map(|record| record.holes).sum(),
        burn: made(Learns::Burn, true),
        wear: made(Learns::Wear, true),
        handling: made(Learns::Handling, matches!(of, GroupOf::Machine(_))),
        gap: made(Learns::Gap, matches!(of, GroupOf::Sizes(_))),
        last: sources.iter().filter_map(|source| source.taught.date).max(),
        of,
    }
}

/// A factor on average over what the records of a group were like.
fn made(factor: Learns, likes: &[Likeness], learned: &Learned, shop: &Shop) -> Made {
    let deviations = &shop.tables.start.deviations;
    let count = likes.len().max(1) as f64;
    let (mut mean, mut sigma, mut start) = (0.0, 0.0, 0.0);
    for like in likes {
        let Prediction { factors, .. } = learned.predict(like);
        let foreseen = &factors[factor as usize];
        mean += foreseen.mean / count;
        sigma += foreseen.sigma() / count;
        start += factor.at_start(deviations, like) / count;
    }
    Made {
        now: [-Z90, 0.0, Z90].map(|z| libm::exp(mean + z * sigma)),
        start: [-Z90, Z90].map(|z| libm::exp(z * start)),
    }
}
