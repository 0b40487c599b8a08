//! Electrode figures of the offered lot, tube by tube.
//!
//! Planned is the order of the work at the median wear, and beside it the fewest that a search finds in
//! any order; the kit is what is needed at the ninetieth percentile of wear, plus spares for breakage, at least one.

use alloc::vec::Vec;

use super::bands;
use super::known::{Known, LotDrawn};
use super::stubs::by_stubs;
use super::tubes::LotTube;
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind as Said, Level};
use crate::idx::Idx;
use crate::job_figures::ElectrodeFigures;

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
    let found = known.found.tubes.iter().zip(known.work);
    for ((at, tube), (of, work)) in places.zip(&*known.ready.tubes).zip(found) {
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
        let fewest = whole + shared;
        let needed = work.electrodes;
        let shared_high = of.kit.unwrap_or(offered.kit.bound) as f64 * work.over;
        let high = (whole_high + libm::ceil(shared_high) as u64).max(needed);
        let mut figure = ElectrodeFigures {
            tube: lot.tube,
            ends: lot.median.used(parts, 0).ends,
            needed: clamp(needed),
            fewest: clamp(fewest),
            at_least: clamp(whole + at_least),
            if_wear_high: clamp(high),
            kit: clamp(high + spares),
            breakages: lot.expected_broken(parts),
            spares: clamp(spares),
            band: bands::electrodes(known, at, needed as f64, drawn),
            plan: work.loads.clone(),
        };
        let ratio = overrule(known, &mut figure, findings);
        short(known, tube, parts, &figure, findings);
        figures.push((figure, ratio));
    }
    figures
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
    figure.fewest = figure.fewest.min(stands);
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
