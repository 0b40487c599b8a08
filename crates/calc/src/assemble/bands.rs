//! P10 and P90 of hours, electrodes and cost: of the joint draw where it is at hand, else from the
//! deviations of what they go with.

use alloc::vec::Vec;

use super::by_whom::ByWhom;
use super::known::{Known, LotDrawn};
use super::prepare::Ready;
use super::rows::Drilled;
use super::tubes::LotTube;
use crate::hole::FeedWear;
use crate::idx::Idx;
use crate::learn::{BurnAndWear, after_test_burn};
use crate::quantity::Band;
use crate::rollup::Counts;
use crate::spread::{Part, percentiles, sum_of_parts};
use crate::tables::StartValues;

/// A band about the planned value: the draw's P10 and P90 where there are draws, else those of the
/// lognormal with mean and variance of the parts' sum.
fn about(plan: f64, drawn: Option<Band>, parts: &[Part]) -> Band {
    let (p10, p90) = drawn.map_or_else(|| sum_of_parts(parts), |band| (band.p10, band.p90));
    Band {
        p10: p10.min(plan),
        p50: plan,
        p90: p90.max(plan),
    }
}

/// By what figures are off: as the shop's records make it, or by the start values.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum By {
    Records,
    StartValues,
    /// As the records make it once so many holes were burned on a test piece, none for 0.
    TestBurn {
        holes: u32,
    },
}

impl By {
    /// Deviations of a row's feed and wear.
    fn sigmas(self, row: &Drilled, start: &StartValues) -> FeedWear<f64> {
        let [feed, wear] = match self {
            Self::Records | Self::TestBurn { holes: 0 } => [row.feed_sigma, row.wear_sigma],
            Self::StartValues => [row.start_sigmas.feed, row.start_sigmas.wear],
            Self::TestBurn { holes } => {
                let before = BurnAndWear {
                    sigmas: [row.feed_sigma, row.wear_sigma],
                    lots: [row.lots.feed, row.lots.wear],
                };
                let together = start.deviations.burn_and_wear;
                after_test_burn(&before, together, f64::from(holes), start.hole_scatter)
            }
        };
        FeedWear { feed, wear }
    }
}

/// Whether the shop's records make a sum so sure that it is called calibrated: its P90 over its P10 is
/// under half of what it is by the start values.
pub(super) fn is_calibrated(now: &[Part], start: &[Part]) -> bool {
    let width = |parts: &[Part]| {
        let (p10, p90) = sum_of_parts(parts);
        p90 / p10
    };
    2.0 * width(now) < width(start)
}

/// Minutes of a lot that go with the feed [min], and their deviation.
fn sparking(known: &Known<'_>, quantity: f64, by: By) -> Part {
    let (mut sum, mut spread) = (0.0, 0.0);
    for row in &known.ready.rows {
        let minutes = f64::from(row.holes) * quantity * row.at_median.sparking_min;
        sum += minutes;
        spread += minutes * by.sigmas(row, &known.prepared.start).feed;
    }
    (sum, if sum > 0.0 { spread / sum } else { 0.0 })
}

/// Machine and labor hours by what they go with: the feed, and handling [h].
pub(super) struct HoursBy {
    pub(super) feed: ByWhom<Part>,
    pub(super) handling: ByWhom<Part>,
}

/// What of machine and labor hours goes with the feed, and what with handling.
pub(super) fn hours_by(
    known: &Known<'_>,
    counts: &Counts,
    minutes: ByWhom<f64>,
    by: By,
) -> HoursBy {
    let (sum, sigma) = sparking(known, counts.parts as f64, by);
    let handling = match by {
        By::Records | By::TestBurn { .. } => known.prepared.start.deviations.handling(),
        By::StartValues => known.prepared.tables.start.deviations.handling(),
    };
    // Somebody stands by for a share of the minutes that go with the feed.
    let sparking = ByWhom {
        machine: sum,
        labor: known.ready.times.attended * sum,
    };
    let rest = |minutes: f64, sparking: f64| ((minutes - sparking).max(0.0) / 60.0, handling);
    HoursBy {
        feed: sparking.map(|minutes| (minutes / 60.0, sigma)),
        handling: ByWhom {
            machine: rest(minutes.machine, sparking.machine),
            labor: rest(minutes.labor, sparking.labor),
        },
    }
}

/// Machine and labor hours of the offered lot from their median minutes.
pub(super) fn hours(
    known: &Known<'_>,
    counts: &Counts,
    minutes: ByWhom<f64>,
    drawn: &[LotDrawn],
) -> ByWhom<Band> {
    let drawn = drawn_hours(known.ready, counts, drawn);
    let by = hours_by(known, counts, minutes, By::Records);
    let band = |minutes: f64, of: fn(&ByWhom<f64>) -> f64, feed: Part, handling: Part| {
        let values: Vec<f64> = drawn.iter().map(of).collect();
        about(minutes / 60.0, percentiles(&values), &[feed, handling])
    };
    ByWhom {
        machine: band(
            minutes.machine,
            |hours| hours.machine,
            by.feed.machine,
            by.handling.machine,
        ),
        labor: band(
            minutes.labor,
            |hours| hours.labor,
            by.feed.labor,
            by.handling.labor,
        ),
    }
}

/// Whether machine and labor hours are called calibrated.
pub(super) fn hours_calibrated(
    known: &Known<'_>,
    counts: &Counts,
    minutes: ByWhom<f64>,
) -> ByWhom<bool> {
    let of = |by| hours_by(known, counts, minutes, by);
    let (now, start) = (of(By::Records), of(By::StartValues));
    let parts = |by: &HoursBy, of: fn(&ByWhom<Part>) -> Part| [of(&by.feed), of(&by.handling)];
    let calibrated =
        |of: fn(&ByWhom<Part>) -> Part| is_calibrated(&parts(&now, of), &parts(&start, of));
    ByWhom {
        machine: calibrated(|part| part.machine),
        labor: calibrated(|part| part.labor),
    }
}

/// Machine and labor hours draw by draw; travel is not drawn and is added to each.
fn drawn_hours(ready: &Ready, counts: &Counts, drawn: &[LotDrawn]) -> Vec<ByWhom<f64>> {
    let times = &ready.times;
    let travel = if times.table_mm_min > 0.0 {
        counts.travel_mm / times.table_mm_min
    } else {
        0.0
    };
    drawn
        .iter()
        .map(|draw| {
            let ByWhom { machine, labor } = draw.minutes;
            ByWhom {
                machine: (machine + travel) / 60.0,
                labor: (labor + travel * times.attended) / 60.0,
            }
        })
        .collect()
}

/// Electrodes of a tube, whole ones.
pub(super) fn electrodes(
    known: &Known<'_>,
    tube: Idx<LotTube>,
    needed: f64,
    drawn: &[LotDrawn],
) -> Band {
    let of_tube = drawn
        .iter()
        .filter_map(|draw| tube.beside(&draw.electrodes));
    let values: Vec<f64> = of_tube.copied().collect();
    let parts = [(needed, wear_sigma(known, Some(tube), By::Records))];
    let band = about(needed, percentiles(&values), &parts);
    Band {
        p10: libm::round(band.p10),
        p50: band.p50,
        p90: libm::round(band.p90),
    }
}

/// Deviation of wear, of the rows of one tube or of all, weighted by what they wear.
pub(super) fn wear_sigma(known: &Known<'_>, tube: Option<Idx<LotTube>>, by: By) -> f64 {
    let ready = known.ready;
    let one = tube.and_then(|tube| tube.of(&ready.tubes));
    let tubes = one.map_or(&ready.tubes[..], core::slice::from_ref);
    let rows = tubes.iter().flat_map(|tube| &tube.lot.rows);
    let (worn, spread) = rows.fold((0.0, 0.0), |(worn, spread), row| {
        let length = f64::from(row.holes) * row.at_median.wear_mm;
        let sigma = by.sigmas(row, &known.prepared.start).wear;
        (worn + length, spread + length * sigma)
    });
    if worn > 0.0 { spread / worn } else { 0.0 }
}

/// Full cost of the lot from its planned value: drawn costs where there are any, else by its parts.
pub(super) fn cost(plan: f64, drawn: &[f64], parts: &[Part]) -> Band {
    about(plan, percentiles(drawn), parts)
}
