//! Electrodes of a lot, tube by tube: what packing is asked, and what comes of its answer.
//!
//! Cost rests on the fewest electrodes at the median wear; the kit is what is needed at the
//! ninetieth percentile of wear, plus spares for breakage. Electrodes that are used up whole inside
//! a deep hole count as they are; only those that finish holes are shared, and only those are
//! packed. A dressing belongs to the hole before it and the last hole on an electrode needs none, so
//! it is added to each consumption and once to the usable length.

use alloc::vec::Vec;

use super::packed::{PackAnswer, place, quantities, shared};
use super::prepare::{Prepared, Ready, Row};
use super::{Answers, lot::Overruled};
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind as Said, Level};
use crate::hole::{Draw, DrawnHole};
use crate::job_figures::{ElectrodeFigures, ElectrodeLoad, HoleFigures};
use crate::packing::Kind;
use crate::quantity::Z90;
use crate::rollup::TubeUse;
use crate::spread::spares;
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
    /// Usable length and one dressing [mm].
    pub(super) usable_mm: f64,
    /// Length lost at one dressing [mm].
    pub(super) dressing_mm: f64,
    /// At the median wear.
    pub(super) median: Demand,
    /// At the ninetieth percentile of wear.
    pub(super) high: Demand,
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

impl Demand {
    /// Adds all holes of a row in one part.
    pub(super) fn add(&mut self, row: usize, holes: u32, hole: &DrawnHole, dressing_mm: f64) {
        for (far, stage) in (0..).zip(hole.stages.iter().flatten()) {
            self.kinds.push(Kind {
                id: u32::try_from(row * 2).unwrap_or(u32::MAX - 1) + far,
                reach_mm: stage.target_mm,
                consume_mm: stage.wear_mm + dressing_mm,
                count: holes,
            });
            let holes = u64::from(holes);
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
        let mut sorted;
        let kinds = if self.falling.len() == self.kinds.len() {
            &self.falling
        } else {
            sorted = self.kinds.clone();
            sorted.sort_unstable_by(falling);
            &sorted
        };
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

    /// Uses in the lot with so many shared electrodes.
    pub(super) fn used(&self, parts: u32, shared: u64) -> TubeUse {
        let parts = u64::from(parts);
        TubeUse {
            ends: self.part.ends * parts,
            chained: self.part.chained * parts,
            whole: self.part.whole * parts,
            shared,
        }
    }
}

/// Tubes of a part, by index.
pub(super) fn tubes(rows: &[Row], holes: &[HoleFigures], tables: &Tables) -> Vec<Tube> {
    let start = &tables.start;
    let mut tubes: Vec<Tube> = Vec::new();
    for row in rows {
        let at = match tubes.binary_search_by_key(&row.tube, |tube| tube.tube) {
            Ok(at) => at,
            Err(at) => {
                let outer = tables.tubes.get(row.tube).map_or(0.0, |tube| tube.outer_mm);
                let usable = holes[row.index].usable_mm.unwrap_or(0.0);
                let tube = Tube {
                    tube: row.tube,
                    thin: outer <= start.thin_tube_mm,
                    usable_mm: usable + start.dressing_mm,
                    dressing_mm: start.dressing_mm,
                    median: Demand::default(),
                    high: Demand::default(),
                };
                tubes.insert(at, tube);
                at
            }
        };
        let Tube { median, high, .. } = &mut tubes[at];
        median.add(row.index, row.holes, &row.at_median, start.dressing_mm);
        let at_high = row.drill.at(&Draw {
            wear: libm::exp(Z90 * row.wear_sigma),
            ..Draw::MEDIAN
        });
        high.add(row.index, row.holes, &at_high, start.dressing_mm);
    }
    for tube in &mut tubes {
        tube.median.sort();
        tube.high.sort();
    }
    tubes
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
        let spares = spares(
            tube.median.used(parts, 0).ends,
            breakage(tube, prepared.tables),
        );
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
            breakages: 0.0,
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

/// Chance that a hole breaks its electrode, median.
fn breakage(tube: &Tube, tables: &Tables) -> f64 {
    let start = &tables.start;
    if tube.thin {
        start.breakage_thin.p50()
    } else {
        start.breakage.p50()
    }
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
