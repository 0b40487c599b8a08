//! Electrodes of a lot, tube by tube: what packing is asked, and what comes of its answer.
//!
//! Planned are the fewest electrodes at the median wear; the kit is what is needed at the ninetieth
//! percentile of wear, plus spares for breakage. Electrodes that are used up whole inside a deep hole
//! count as they are; only those that finish holes are shared, and only those are packed. A dressing
//! comes before its hole and a fresh electrode needs none, so it is added to each consumption and
//! once to the usable length: the least that any of the tube's rows asks for, so that no mixture of
//! rows is taken to fit that does not.

use alloc::vec::Vec;

use super::packed::{PackAnswer, place, quantities, shared};
use super::prepare::{Prepared, Ready, Row};
use super::{Answers, lot::Overruled};
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind as Said, Level};
use crate::hole::{Draw, DrawnHole};
use crate::job_figures::{ElectrodeFigures, ElectrodeLoad};
use crate::packing::Kind;
use crate::quantity::Z90;
use crate::rollup::TubeUse;
use crate::spread::Breakages;
use crate::tables::Tables;

/// Sums of consumption that exceed a length by less than this still fit [mm].
const SLACK_MM: f64 = 1e-6;

/// What one tube drills in one part.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tube {
    /// Index in the shop's tables.
    pub(super) tube: usize,
    /// Counts as thin.
    pub(super) thin: bool,
    /// Usable length, and what a fresh electrode needs not be dressed [mm].
    pub(super) usable_mm: f64,
    /// Usable length U alone [mm].
    bare_mm: f64,
    /// Length that one part's holes wear at the median [mm].
    wear_mm: f64,
    /// How many of a part's ends break one.
    broken: BrokenTubes,
    /// At the median wear.
    pub(super) median: Demand,
    /// At the ninetieth percentile of wear.
    pub(super) high: Demand,
}

impl Tube {
    /// What of an electrode's price is lost when it breaks: it breaks half way through what the lot
    /// takes of it, by wear and by dressing, and the rest goes with it.
    ///
    /// At the median wear: where a lot wears more, it takes more electrodes, and each is used as much.
    pub(super) fn broken_rest(&self, parts: u32, electrodes: u64, dressing_mm: f64) -> f64 {
        let used = super::lot::used(self, parts, electrodes);
        let length = electrodes as f64 * self.bare_mm;
        let dressed = used.dressings() as f64 * dressing_mm;
        let gone = self.wear_mm * f64::from(parts) + dressed;
        if length > 0.0 {
            1.0 - (gone / length).min(1.0) / 2.0
        } else {
            1.0
        }
    }

    /// Electrodes expected to break in a lot.
    pub(super) fn expected_broken(&self, parts: u32) -> f64 {
        self.broken.expected * f64::from(parts)
    }
}

/// Rates of breakage of a tube's ends: their number in one part, and how many of them break one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct BrokenTubes {
    ends: f64,
    expected: f64,
}

impl BrokenTubes {
    fn add(&mut self, ends: f64, chance: f64) {
        self.ends += ends;
        self.expected += ends * chance;
    }

    /// Spares that are enough nine times in ten.
    fn spares(self, parts: u32, worth_holes: f64) -> u64 {
        if self.ends <= 0.0 {
            return 0;
        }
        let ends = (self.ends * f64::from(parts)) as u64;
        Breakages::new(ends, self.expected / self.ends, worth_holes).at(0.9) as u64
    }
}

/// What a tube's holes ask of electrodes in one part.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Demand {
    /// Ends that share electrodes, by reach and consumption; ids are row indexes doubled, plus one
    /// for the far end.
    pub(super) kinds: Vec<Kind>,
    /// The same, farthest reach first; empty until [`Demand::sort`].
    falling: Vec<Kind>,
    /// Ends drilled, those of them with several electrodes, electrodes used up whole.
    pub(super) part: TubeUse,
}

/// How a row's electrodes are dressed: dressings for each end, and the length each takes [mm].
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Dressing {
    pub(super) share: f64,
    pub(super) length_mm: f64,
}

impl Demand {
    /// Adds all holes of a row in one part.
    pub(super) fn add(&mut self, row: usize, holes: u32, hole: &DrawnHole, dressing: Dressing) {
        for (far, stage) in (0..).zip(hole.stages.iter().flatten()) {
            self.kinds.push(Kind {
                id: u32::try_from(row * 2).unwrap_or(u32::MAX - 1) + far,
                reach_mm: stage.target_mm,
                consume_mm: stage.wear_mm + dressing.share * dressing.length_mm,
                count: holes,
            });
            let holes = u64::from(holes);
            let least = if self.part.ends == 0 {
                dressing.share
            } else {
                self.part.fresh_undressed.min(dressing.share)
            };
            self.part.fresh_undressed = least;
            self.part.dressed += holes as f64 * dressing.share;
            self.part.ends += holes;
            self.part.chained += if stage.whole > 0 { holes } else { 0 };
            self.part.whole += holes * u64::from(stage.whole);
        }
    }

    /// Sorts once what every quantity of the lot asks for in falling reach.
    fn sort(&mut self) {
        self.falling.clone_from(&self.kinds);
        self.falling.sort_unstable_by(falling);
    }

    /// Kinds with their numbers in the lot.
    pub(super) fn in_lot(&self, parts: u32) -> Vec<Kind> {
        let in_lot = |kind: &Kind| Kind {
            count: kind.count.saturating_mul(parts),
            ..*kind
        };
        self.kinds.iter().map(in_lot).collect()
    }

    /// Electrodes that no plan goes below, found without a search.
    ///
    /// For each reach q, what is consumed by ends that reach at least q must fit into U - q of each
    /// electrode; and ends alike take one electrode for every so many that fit.
    pub(super) fn at_least(&self, usable_mm: f64, parts: u32) -> u64 {
        if self.falling.len() == self.kinds.len() {
            return bound(&self.falling, usable_mm, parts);
        }
        let mut sorted = self.kinds.clone();
        sorted.sort_unstable_by(falling);
        bound(&sorted, usable_mm, parts)
    }

    /// The same where the farthest reach was added first.
    pub(super) fn at_least_sorted(&self, usable_mm: f64, parts: u32) -> u64 {
        bound(&self.kinds, usable_mm, parts)
    }

    /// Uses in the lot with so many shared electrodes.
    pub(super) fn used(&self, parts: u32, shared: u64) -> TubeUse {
        let parts = u64::from(parts);
        TubeUse {
            ends: self.part.ends * parts,
            chained: self.part.chained * parts,
            whole: self.part.whole * parts,
            shared,
            dressed: self.part.dressed * parts as f64,
            fresh_undressed: self.part.fresh_undressed,
        }
    }
}

/// Tubes of a part, by index.
pub(super) fn tubes(rows: &[Row], tables: &Tables) -> Vec<Tube> {
    let start = &tables.start;
    let mut tubes: Vec<Tube> = Vec::new();
    for row in rows {
        let at = match tubes.binary_search_by_key(&row.tube, |tube| tube.tube) {
            Ok(at) => at,
            Err(at) => {
                let outer = tables.tubes.get(row.tube).map_or(0.0, |tube| tube.outer_mm);
                let tube = Tube {
                    tube: row.tube,
                    thin: outer <= start.thin_tube_mm,
                    usable_mm: row.drill.usable_mm(),
                    bare_mm: row.drill.usable_mm(),
                    wear_mm: 0.0,
                    broken: BrokenTubes::default(),
                    median: Demand::default(),
                    high: Demand::default(),
                };
                tubes.insert(at, tube);
                at
            }
        };
        let tube = &mut tubes[at];
        let dressing = row.dressing(start);
        tube.median
            .add(row.index, row.holes, &row.at_median, dressing);
        let at_high = row.drill.at(&Draw {
            wear: libm::exp(Z90 * row.wear_sigma),
            ..Draw::MEDIAN
        });
        tube.high.add(row.index, row.holes, &at_high, dressing);
        tube.wear_mm += f64::from(row.holes) * row.at_median.wear_mm;
        tube.broken.add(row.ends(), row.drill.breakage());
    }
    for tube in &mut tubes {
        tube.usable_mm += tube.median.part.fresh_undressed * start.dressing_mm;
        tube.median.sort();
        tube.high.sort();
    }
    tubes
}

/// Shared electrodes that no plan goes below, of kinds in falling reach.
fn bound(kinds: &[Kind], usable_mm: f64, parts: u32) -> u64 {
    let parts = f64::from(parts);
    let (mut load, mut most, mut apart) = (0.0, 0.0_f64, 0.0);
    for kind in kinds {
        let room = usable_mm - kind.reach_mm;
        let count = f64::from(kind.count) * parts;
        if kind.consume_mm > room + SLACK_MM {
            // It fits nowhere, so it is given an electrode of its own to spoil.
            apart += count;
            continue;
        }
        load += count * kind.consume_mm;
        let each = libm::floor((room + SLACK_MM) / kind.consume_mm.max(SLACK_MM));
        most = most
            .max((load - SLACK_MM) / room.max(SLACK_MM))
            .max(count / each);
    }
    (libm::ceil(most) + apart) as u64
}

fn falling(a: &Kind, b: &Kind) -> core::cmp::Ordering {
    b.reach_mm.total_cmp(&a.reach_mm)
}

/// Electrode figures of the offered lot, overrules put in, and the ratio of what stands to what was
/// computed.
pub(super) fn electrode_figures(
    prepared: &Prepared<'_>,
    ready: &Ready,
    parts: u32,
    answers: Option<&Answers>,
    findings: &mut Vec<Finding>,
) -> Vec<(ElectrodeFigures, f64)> {
    let quantities = quantities(prepared).len();
    let shared = shared(prepared, ready, 0, answers);
    let mut figures = Vec::new();
    for (at, (tube, shared)) in ready.tubes.iter().zip(shared).enumerate() {
        let packed = answers.and_then(|answers| {
            let median = place(at, 0, quantities);
            Some((
                answers.packings.get(median)?,
                answers.packings.get(median - 1)?,
            ))
        });
        let whole = tube.median.used(parts, 0).whole;
        let whole_high = tube.high.used(parts, 0).whole;
        let worth = prepared.tables.start.breakage_worth_holes;
        let spares = tube.broken.spares(parts, worth);
        let (at_least, high, by_order) = packed.map_or_else(
            || (shared, tube.high.at_least(tube.usable_mm, parts), shared),
            |(median, high)| (median.at_least, high.shared, median.in_order),
        );
        let needed = whole + shared;
        let high = (whole_high + high).max(needed);
        let mut figure = ElectrodeFigures {
            tube: tube.tube,
            needed: clamp(needed),
            at_least: clamp(whole + at_least),
            if_wear_high: clamp(high),
            kit: clamp(high + spares),
            breakages: tube.expected_broken(parts),
            spares: clamp(spares),
            band: super::bands::electrodes(ready, at, needed as f64, answers),
            plan: packed.map_or(Vec::new(), |(median, _)| {
                plan(prepared, tube, parts, median)
            }),
            by_order: clamp(whole + by_order),
        };
        let ratio = overrule(prepared, &mut figure, findings);
        short(prepared, &figure, findings);
        figures.push((figure, ratio));
    }
    figures
}

/// What is drilled on which electrode; electrodes used up whole inside holes come first.
fn plan(
    prepared: &Prepared<'_>,
    tube: &Tube,
    parts: u32,
    answer: &PackAnswer,
) -> Vec<ElectrodeLoad> {
    let id = |kind: u32| prepared.input.rows[kind as usize / 2].id;
    let ready = prepared.ready.iter().flat_map(|ready| &ready.rows);
    let whole = ready.filter(|row| row.tube == tube.tube).filter_map(|row| {
        let stages = row.at_median.stages.iter().flatten();
        let each: u32 = stages.map(|stage| stage.whole).sum();
        (each > 0).then(|| ElectrodeLoad {
            times: each.saturating_mul(row.holes).saturating_mul(parts),
            holes: alloc::vec![(prepared.input.rows[row.index].id, 1)],
            left_mm: 0.0,
        })
    });
    let shared = answer.plan.electrodes.iter().map(|fill| {
        let mut holes: Vec<(crate::input::RowId, u32)> = Vec::new();
        for &(kind, number) in &fill.holes {
            // Both ends of a row follow each other as one where they do.
            match holes.last_mut() {
                Some((row, sum)) if *row == id(kind) => *sum += number,
                _ => holes.push((id(kind), number)),
            }
        }
        ElectrodeLoad {
            times: clamp(fill.times),
            holes,
            left_mm: fill.remnant_mm,
        }
    });
    whole.chain(shared).collect()
}

/// Puts an overruled number in place; what the kit has beyond the number needed stays.
fn overrule(
    prepared: &Prepared<'_>,
    figure: &mut ElectrodeFigures,
    findings: &mut Vec<Finding>,
) -> f64 {
    let overruled = Overruled::of(
        prepared.input,
        Figure::Electrodes(figure.tube),
        f64::from(figure.needed),
        findings,
    );
    let Some(overruled) = overruled else {
        return 1.0;
    };
    let stands = clamp(libm::round(overruled.stands).max(0.0) as u64);
    figure.if_wear_high = stands.saturating_add(figure.if_wear_high - figure.needed);
    figure.kit = stands.saturating_add(figure.kit - figure.needed);
    figure.band = figure.band.scaled(overruled.ratio());
    figure.at_least = figure.at_least.min(stands);
    figure.needed = stands;
    overruled.ratio()
}

fn short(prepared: &Prepared<'_>, figure: &ElectrodeFigures, findings: &mut Vec<Finding>) {
    let Some(tube) = prepared.tables.tubes.get(figure.tube) else {
        return;
    };
    let Some(stock) = tube.stock.filter(|&stock| stock < figure.kit) else {
        return;
    };
    findings.push(Finding {
        level: Level::Check,
        about: About::Job,
        kind: Said::TubesShort {
            tube_mm: tube.outer_mm,
            kit: figure.kit,
            stock,
        },
        remedy: None,
    });
}

/// A count that fits the figures.
pub(super) fn clamp(count: u64) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
