//! Electrode figures of the offered lot, tube by tube.
//!
//! Planned are the fewest electrodes at the median wear; the kit is what is needed at the ninetieth
//! percentile of wear, plus spares for breakage.

use alloc::vec::Vec;

use super::bands;
use super::known::{Known, LotDrawn};
use super::stubs::by_stubs;
use super::tubes::LotTube;
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind as Said, Level};
use crate::idx::Idx;
use crate::input::RowId;
use crate::job_figures::{ElectrodeFigures, ElectrodeLoad};
use crate::packing::Packed;

/// Electrode figures of the offered lot, overrules put in, and the ratio of what stands to what was
/// computed.
pub(super) fn electrode_figures(
    known: &Known<'_>,
    parts: u32,
    drawn: &[LotDrawn],
    findings: &mut Vec<Finding>,
) -> Vec<(ElectrodeFigures, f64)> {
    let mut figures = Vec::new();
    let places = Idx::all(&known.ready.tubes);
    for ((at, tube), of) in places.zip(&*known.ready.tubes).zip(&known.found.tubes) {
        let (Some(offered), Some(of_quantity), Some(&shared)) =
            (&tube.offered, tube.quantities.first(), of.shared.first())
        else {
            continue;
        };
        let lot = &tube.lot;
        let whole = lot.median.used(parts, 0).whole;
        let whole_high = lot.high.used(parts, 0).whole;
        let spares = lot.spares(parts);
        let packing = &of_quantity.packing;
        let at_least = of.plan.map_or(shared, |plan| packing.at_least(plan));
        let needed = whole + shared;
        let high = (whole_high + of.kit.unwrap_or(offered.kit.bound)).max(needed);
        let mut figure = ElectrodeFigures {
            tube: lot.tube,
            ends: lot.median.used(parts, 0).ends,
            needed: clamp(needed),
            at_least: clamp(whole + at_least),
            if_wear_high: clamp(high),
            kit: clamp(high + spares),
            breakages: lot.expected_broken(parts),
            spares: clamp(spares),
            band: bands::electrodes(known, at, needed as f64, drawn),
            plan: of
                .plan
                .map_or(Vec::new(), |packed| plan(known, tube, parts, packed)),
            by_order: clamp(whole + of.in_order.unwrap_or(shared)),
        };
        let ratio = overrule(known, &mut figure, findings);
        short(known, tube, parts, &figure, findings);
        figures.push((figure, ratio));
    }
    figures
}

/// What is drilled on which electrode; electrodes used up whole inside holes come first.
fn plan(known: &Known<'_>, tube: &LotTube, parts: u32, packed: &Packed) -> Vec<ElectrodeLoad> {
    let row_id = |at: usize| known.prepared.input.rows[at].id;
    let id = |kind: u32| row_id(tube.places[kind as usize / 2]);
    let whole = tube.places.iter().filter_map(|&at| {
        let row = &known.ready.rows[at];
        let stages = row.at_median.stages.iter().flatten();
        let each: u32 = stages.map(|stage| stage.whole).sum();
        (each > 0).then(|| ElectrodeLoad {
            times: each.saturating_mul(row.holes).saturating_mul(parts),
            holes: alloc::vec![(row_id(at), 1)],
            left_mm: 0.0,
        })
    });
    let quantity = tube.quantities.first();
    let plan = quantity
        .map(|of| of.packing.plan(packed))
        .unwrap_or_default();
    let shared = plan.electrodes.iter().map(|fill| {
        let mut holes: Vec<(RowId, u32)> = Vec::new();
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
fn overrule(known: &Known<'_>, figure: &mut ElectrodeFigures, findings: &mut Vec<Finding>) -> f64 {
    let needed = f64::from(figure.needed);
    let overruled = known.overruled(Figure::Electrodes(figure.tube), needed, findings);
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

fn short(
    known: &Known<'_>,
    lot: &LotTube,
    parts: u32,
    figure: &ElectrodeFigures,
    findings: &mut Vec<Finding>,
) {
    let prepared = known.prepared;
    let Some(tube) = figure.tube.of(&prepared.tables.tubes) else {
        return;
    };
    let together = figure.kit.saturating_add(tube.kept);
    let Some(stock) = tube.stock.filter(|&stock| stock < together) else {
        return;
    };
    let stubs = prepared
        .machine
        .map_or(Vec::new(), |machine| by_stubs(lot, parts, tube, machine));
    let by_stubs = stubs
        .into_iter()
        .map(|(place, holes)| (prepared.input.rows[place].id, holes));
    findings.push(Finding {
        level: Level::Check,
        about: About::Job,
        kind: Said::TubesShort {
            tube: figure.tube,
            kit: figure.kit,
            together,
            stock,
            by_stubs: by_stubs.collect(),
        },
        remedy: None,
    });
}

/// A count that fits the figures.
pub(super) fn clamp(count: u64) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
