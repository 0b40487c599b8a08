//! Cost and price of the offered quantity and of all others.

use alloc::vec::Vec;

use super::bands::{self, By};
use super::by_whom::ByWhom;
use super::guides::ends_in_lot;
use super::known::{Known, LotDrawn};
use super::lot::Lot;
use super::overruled::overruled_band;
use super::risk::{DrawnCost, risk};
use crate::cost::{Consumption, at_stake, cost_lines, part_spoiled};
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind, Level};
use crate::hole::places;

use crate::input::RowInput;
use crate::job_figures::{Break, CostLines, PriceFigures};
use crate::price::{Priced, Terms, lot_price, markup, per_hole, price, price_set, round_price};
use crate::quantity::Band;
use crate::size::{COMFORTABLE, TIGHT};
use crate::spread::Part;
use crate::tables::Tables;

/// The price of every quantity; `None` where the margin allows none, or money has no digits for it.
pub(super) fn price_figures(
    known: &Known<'_>,
    lot: &Lot,
    findings: &mut Vec<Finding>,
) -> Option<PriceFigures> {
    let terms = known.prepared.terms();
    let margin = terms.margin;
    if lot_price(0.0, &terms).is_none() {
        let kind = Kind::MarginImpossible { margin };
        findings.push(about_price(Level::Stop, kind));
        return None;
    }
    let figures = priced_all(known, lot, &terms, findings);
    if figures.is_none() {
        findings.push(about_price(Level::Stop, Kind::PriceTooLarge));
    }
    figures
}

fn priced_all(
    known: &Known<'_>,
    lot: &Lot,
    terms: &Terms,
    findings: &mut Vec<Finding>,
) -> Option<PriceFigures> {
    let margin = terms.margin;
    let pricing = Pricing {
        known,
        lot,
        ratios: Ratios::of(lot),
        spoiled: part_spoiled_of(known),
    };
    let planned = pricing.planned();
    let mut cost = pricing.cost_lines(&planned);
    let median = cost.sum();
    let mut breaks = Vec::new();
    let mut drawn = pricing.drawn_costs();
    let mut lot_cost = pricing.cost_band(&planned, median, &drawn);
    let calibrated = bands::is_calibrated(
        &pricing.cost_parts(&planned, median, By::Records),
        &pricing.cost_parts(&planned, median, By::StartValues),
    );
    let (mut expected_cost, mut share) = (median, 0.0);
    // What the offered lot's expected cost was overruled by, the others take too.
    let mut overruled_ratio = 1.0;
    for (at, &quantity) in known.prepared.quantities.iter().enumerate() {
        let expected = pricing.expected_cost(at, quantity);
        let mut full = expected * overruled_ratio;
        if at == 0 {
            share = if median > 0.0 {
                expected / median - 1.0
            } else {
                0.0
            };
            full = match known.overruled(Figure::NotYetKnown, share, findings) {
                Some(overruled) => median * (1.0 + overruled.stands),
                None => expected,
            };
            cost.not_yet_known = full - median;
            if let Some(overruled) = known.overruled(Figure::LotCost, full, findings) {
                lot_cost = overruled_band(lot_cost, overruled);
                for cost in &mut drawn {
                    cost.full *= overruled.ratio();
                    cost.paid_out *= overruled.ratio();
                }
                full = overruled.stands;
            }
            overruled_ratio = if expected > 0.0 { full / expected } else { 1.0 };
            expected_cost = full;
        }
        breaks.push(priced(known, quantity, full, terms, findings)?);
    }
    let offered = breaks.first();
    let sold_for = offered.and_then(|offered: &Break| f64::try_from(offered.lot).ok());
    let risk = sold_for.and_then(|sold_for| {
        let after = |holes| pricing.cost_parts(&planned, median, By::TestBurn { holes });
        risk(&drawn, sold_for, lot.figures.quantity, after)
    });
    let one_off = known.prepared.input.one_off.iter().map(|charge| {
        let priced = lot_price(charge.cost, terms)?;
        Some((charge.what.clone(), round_price(priced, terms)?))
    });
    Some(PriceFigures {
        currency: known.prepared.tables.rates.currency.clone(),
        cost,
        not_yet_known_share: share,
        lot_cost,
        calibrated,
        risk,
        expected_cost,
        breaks,
        one_off: one_off.collect::<Option<_>>()?,
        margin,
        markup: markup(margin)?,
    })
}

/// What of a job its cost is made of.
struct Pricing<'a> {
    known: &'a Known<'a>,
    lot: &'a Lot,
    ratios: Ratios,
    /// Chance that one part is spoiled.
    spoiled: f64,
}

/// What stands over what was computed, figure by figure, for the offered lot.
struct Ratios {
    machine: f64,
    labor: f64,
    electrodes: Vec<f64>,
}

/// A lot that is costed: travel [min], what of each tube a breakage leaves unused, and what goes neither
/// with hours nor with electrodes.
struct Costed {
    travel_min: f64,
    rests: Vec<f64>,
    apart: Consumption,
}

impl Ratios {
    fn of(lot: &Lot) -> Self {
        let of = |stands: f64, minutes: f64| {
            if minutes > 0.0 {
                stands / (minutes / 60.0)
            } else {
                1.0
            }
        };
        let figures = &lot.figures;
        Self {
            machine: of(figures.machine_hours.p50, figures.machine.sum()),
            labor: of(figures.labor_hours.p50, figures.labor.sum()),
            electrodes: lot.electrode_ratios.clone(),
        }
    }
}

impl Pricing<'_> {
    /// What the offered lot takes by plan, at the medians.
    fn planned(&self) -> Consumption {
        let figures = &self.lot.figures;
        let tubes = self.known.ready.tubes.iter().zip(&figures.electrodes);
        let electrodes = tubes.map(|(tube, figure)| {
            let number = u64::from(figure.needed);
            let rest = tube.lot.broken_rest(figures.quantity, number);
            (number as f64 + figure.breakages * rest) * self.known.tube_price(tube)
        });
        Consumption {
            machine_hours: figures.machine_hours.p50,
            labor_hours: figures.labor_hours.p50,
            electrodes: electrodes.sum(),
            ..self.apart(figures.quantity)
        }
    }

    /// Expected full cost of a quantity, by its place among all, with the offered lot's overrules
    /// [currency].
    fn expected_cost(&self, at: usize, quantity: u32) -> f64 {
        let Some(lot) = self.known.expected(at, quantity) else {
            return 0.0;
        };
        let offered = &self.lot.counts;
        let travel_mm = offered.travel_mm * f64::from(quantity) / (offered.parts.max(1) as f64);
        let costed = self.costed(at, quantity, travel_mm);
        self.cost_lines(&self.of_drawn(&costed, &lot)).sum()
    }

    fn costed(&self, at: usize, quantity: u32, travel_mm: f64) -> Costed {
        let times = &self.known.ready.times;
        Costed {
            travel_min: if times.table_mm_min > 0.0 {
                travel_mm / times.table_mm_min
            } else {
                0.0
            },
            rests: self.rests(at, quantity),
            apart: self.apart(quantity),
        }
    }

    /// What of each tube's price a breakage leaves unused in a lot, by its electrodes as planned.
    fn rests(&self, at: usize, quantity: u32) -> Vec<f64> {
        let tubes = self.known.ready.tubes.iter().zip(&self.known.found.tubes);
        tubes
            .zip(self.known.work.iter().zip(&self.ratios.electrodes))
            .map(|((tube, of), (work, ratio))| {
                let shared = of.shared.get(at).copied().unwrap_or(0);
                let used = work.in_order(tube.lot.median.used(quantity, shared));
                let computed = used.electrodes();
                let stands = libm::round(computed as f64 * ratio) as u64;
                tube.lot.broken_rest(quantity, stands)
            })
            .collect()
    }

    /// What a drawn or a mean lot takes, travel and overrules put in.
    fn of_drawn(&self, costed: &Costed, lot: &LotDrawn) -> Consumption {
        let ratios = &self.ratios;
        let travel = costed.travel_min;
        let attended = self.known.ready.times.attended;
        let ByWhom { machine, labor } = lot.minutes;
        let tubes = self.known.ready.tubes.iter();
        let tubes = tubes.zip(&lot.electrodes).zip(&lot.broken);
        let electrodes = tubes.zip(ratios.electrodes.iter().zip(&costed.rests)).map(
            |(((tube, number), broken), (ratio, rest))| {
                (number * ratio + broken * rest) * self.known.tube_price(tube)
            },
        );
        Consumption {
            machine_hours: (machine + travel) / 60.0 * ratios.machine,
            labor_hours: (labor + travel * attended) / 60.0 * ratios.labor,
            electrodes: electrodes.sum(),
            ..costed.apart
        }
    }

    /// What of a lot's consumption goes neither with hours nor with electrodes.
    fn apart(&self, quantity: u32) -> Consumption {
        let prepared = self.known.prepared;
        let guides = prepared.holes.iter().filter_map(|hole| {
            let guide = hole.guide?.of(&prepared.tables.guides)?;
            let holes = ends_in_lot(hole, quantity) as f64;
            (guide.life_holes > 0.0).then(|| holes / guide.life_holes * guide.price)
        });
        let input = prepared.input;
        Consumption {
            guides: guides.sum(),
            outside: input.outside_work + input.outside_per_part * f64::from(quantity),
            parts_spoiled: f64::from(quantity) * self.spoiled,
            part_at_stake: at_stake(input.part_value, input.liability_cap),
            ..Consumption::default()
        }
    }

    fn cost_lines(&self, lot: &Consumption) -> CostLines {
        let machine = self.known.prepared.machine;
        let per_hour = machine.map_or(0.0, |machine| machine.rate_per_hour);
        cost_lines(lot, per_hour, &self.known.prepared.tables.rates)
    }

    /// What the offered lot costs draw by draw; empty until it was drawn.
    fn drawn_costs(&self) -> Vec<DrawnCost> {
        let lot = self.lot;
        let costed = self.costed(0, lot.figures.quantity, lot.counts.travel_mm);
        let drawn = lot.drawn.iter().map(|draw| {
            let lines = self.cost_lines(&self.of_drawn(&costed, draw));
            let full = lines.sum();
            DrawnCost {
                full,
                paid_out: full - lines.machine,
            }
        });
        drawn.collect()
    }

    /// Spread of the offered lot's cost: cost lines draw by draw, or to first order.
    fn cost_band(&self, planned: &Consumption, median: f64, drawn: &[DrawnCost]) -> Band {
        let full: Vec<f64> = drawn.iter().map(|cost| cost.full).collect();
        let parts = self.cost_parts(planned, median, By::Records);
        bands::cost(median, &full, &parts)
    }

    /// The offered lot's cost by what it goes with: feed, handling, wear, and what is certain.
    fn cost_parts(&self, planned: &Consumption, median: f64, by: By) -> [Part; 4] {
        let (lot, ratios) = (self.lot, &self.ratios);
        let minutes = ByWhom {
            machine: lot.figures.machine.sum(),
            labor: lot.figures.labor.sum(),
        };
        let hours = bands::hours_by(self.known, &lot.counts, minutes, by);
        let rates = &self.known.prepared.tables.rates;
        let redo = 1.0 + rates.redo_share;
        let machine = self.known.prepared.machine;
        let per_machine = machine.map_or(0.0, |machine| machine.rate_per_hour) * redo
            + rates.dielectric_per_hour
            + rates.power_per_hour;
        let per_labor = rates.labor_per_hour * redo;
        let of = |ByWhom { machine, labor }: ByWhom<Part>| {
            let machine_cost = machine.0 * per_machine * ratios.machine;
            (machine_cost + labor.0 * per_labor * ratios.labor, machine.1)
        };
        let sigma = bands::wear_sigma(self.known, None, by);
        let wear = (planned.electrodes * redo, sigma);
        let parts = [of(hours.feed), of(hours.handling), wear];
        // What neither hours nor electrodes cost is certain.
        let certain = median - parts.iter().map(|part| part.0).sum::<f64>();
        let [feed, handling, wear] = parts;
        [feed, handling, wear, (certain.max(0.0), 0.0)]
    }
}

/// One quantity's price, overruled where somebody set it.
fn priced(
    known: &Known<'_>,
    quantity: u32,
    full_cost: f64,
    terms: &Terms,
    findings: &mut Vec<Finding>,
) -> Option<Break> {
    let computed = price(full_cost, quantity, terms)?;
    let figure = Figure::UnitPrice(quantity);
    let each = f64::try_from(computed.each).unwrap_or(0.0);
    let overruled = known.overruled(figure, each, findings);
    let Priced { each, lot, minimum } = match overruled {
        Some(overruled) => price_set(overruled.stands, quantity, terms.minor_digits)?,
        None => computed,
    };
    if minimum && known.prepared.input.quantity == Some(quantity) {
        let minimum = terms.minimum_charge;
        let kind = Kind::MinimumCharge { minimum };
        findings.push(about_price(Level::Note, kind));
    }
    Some(Break {
        computed_each: computed.each,
        quantity,
        unit_cost: full_cost / f64::from(quantity),
        each,
        lot,
        minimum,
        overruled: overruled.is_some(),
        per_hole: start_holes(&known.prepared.input.rows)
            .and_then(|holes| per_hole(each, holes, terms.minor_digits)),
    })
}

/// Holes of one part, where all of them are start holes: those are bought by the hole.
fn start_holes(rows: &[RowInput]) -> Option<u32> {
    let all = rows.iter().all(|row| row.start_hole.wire_mm.is_some());
    let holes = rows.iter().map(places).fold(0, u32::saturating_add);
    (all && holes > 0).then_some(holes)
}

/// Chance that one part is spoiled.
fn part_spoiled_of(known: &Known<'_>) -> f64 {
    let prepared = known.prepared;
    let rows = prepared.input.rows.iter().zip(&prepared.holes);
    let factors: Vec<(u32, f64)> = rows
        .map(|(row, hole)| (hole.places, risk_factor(hole.held, row.risk_agreed)))
        .collect();
    let Tables {
        rates,
        start,
        lessons,
        ..
    } = prepared.tables;
    let spoiled = lessons.spoiled_share(rates.part_risk_share);
    part_spoiled(spoiled, start.part_risk_hole, &factors)
}

/// How much more likely than a comfortable one a row is to spoil its part, by its chance of a hole
/// inside the limits (our choice, no source). The size of the lot does not count: a part is no more
/// likely spoiled because there are more of them.
fn risk_factor(held: Option<f64>, agreed: bool) -> f64 {
    match held {
        Some(held) if held < TIGHT => {
            if agreed {
                3.0
            } else {
                10.0
            }
        }
        Some(held) if held < COMFORTABLE => 3.0,
        _ => 1.0,
    }
}

fn about_price(level: Level, kind: Kind) -> Finding {
    Finding {
        level,
        about: About::Price,
        kind,
        remedy: None,
    }
}
