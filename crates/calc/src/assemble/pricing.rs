//! Cost and price of the offered quantity and of all others.

use alloc::vec::Vec;

use super::lot::{Lot, Overruled, overruled_band};
use super::model::{DrawnLot, LotModel};
use super::packed::{quantities, shared};
use super::prepare::{Prepared, Ready};
use super::{Answers, bands};
use crate::cost::{Consumption, at_stake, cost_lines, part_spoiled};
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind, Level};
use crate::job_figures::{Break, CostLines, PriceFigures};
use crate::price::{Priced, Terms, lot_price, markup, money, price, price_set};
use crate::quantity::Band;
use crate::rollup::Counts;
use crate::size::{COMFORTABLE, TIGHT};
use crate::spread::Part;

/// What stands over what was computed, figure by figure, for the offered lot.
struct Ratios {
    machine: f64,
    labor: f64,
    electrodes: Vec<f64>,
}

/// A lot that is costed: its quantity, travel [mm], and what of each tube a breakage leaves unused.
struct Costed<'a> {
    quantity: u32,
    travel_mm: f64,
    rests: Vec<f64>,
    ratios: &'a Ratios,
}

/// A quantity that is priced: its index among all, and how many parts.
#[derive(Clone, Copy)]
struct Asked {
    at: usize,
    quantity: u32,
}

impl Prepared<'_> {
    /// Margin and the rest of what a cost is priced by.
    pub(crate) fn terms(&self) -> Terms {
        let rates = &self.tables.rates;
        Terms {
            margin: self.input.margin.unwrap_or(rates.margin),
            minimum_charge: rates.minimum_charge,
            minor_digits: rates.minor_digits,
        }
    }

    /// The price of every quantity; `None` where the margin allows none.
    pub(super) fn price_figures(
        &self,
        ready: &Ready,
        lot: &Lot,
        answers: Option<&Answers>,
        findings: &mut Vec<Finding>,
    ) -> Option<PriceFigures> {
        let terms = self.terms();
        let margin = terms.margin;
        if lot_price(0.0, &terms).is_none() {
            let kind = Kind::MarginImpossible { margin };
            findings.push(about_price(Level::Stop, kind));
            return None;
        }
        let planned = self.planned(ready, lot);
        let ratios = ratios(lot);
        let mut cost = self.cost_lines(&planned);
        let median = cost.sum();
        let quantities = quantities(self);
        let mut breaks = Vec::new();
        let mut lot_cost = self.cost_band(ready, lot, &planned, median, answers);
        let mut expected_cost = median;
        // What the offered lot's expected cost was overruled by, the others take too.
        let mut overruled_ratio = 1.0;
        for (at, quantity) in quantities.into_iter().enumerate() {
            let of = Asked { at, quantity };
            let expected = self.expected_cost(ready, of, &lot.counts, answers, &ratios);
            let mut full = expected * overruled_ratio;
            if at == 0 {
                let share = if median > 0.0 {
                    expected / median - 1.0
                } else {
                    0.0
                };
                full = match Overruled::of(self.input, Figure::NotYetKnown, share, findings) {
                    Some(overruled) => median * (1.0 + overruled.stands),
                    None => expected,
                };
                cost.not_yet_known = full - median;
                if let Some(overruled) = Overruled::of(self.input, Figure::LotCost, full, findings)
                {
                    lot_cost = overruled_band(lot_cost, overruled);
                    full = overruled.stands;
                }
                overruled_ratio = if expected > 0.0 { full / expected } else { 1.0 };
                expected_cost = full;
            }
            breaks.push(self.priced(quantity, full, &terms, findings)?);
        }
        let one_off = self.input.one_off.iter().map(|charge| {
            let priced = lot_price(charge.cost, &terms)?;
            Some((charge.what.clone(), money(priced, terms.minor_digits)?))
        });
        Some(PriceFigures {
            currency: self.tables.rates.currency.clone(),
            cost,
            lot_cost,
            expected_cost,
            breaks,
            one_off: one_off.collect::<Option<_>>()?,
            margin,
            markup: markup(margin)?,
        })
    }

    /// What the offered lot takes by plan, at the medians.
    fn planned(&self, ready: &Ready, lot: &Lot) -> Consumption {
        let figures = &lot.figures;
        let tubes = ready.tubes.iter().zip(&figures.electrodes);
        let dressing_mm = self.tables.start.dressing_mm;
        let electrodes = tubes.map(|(tube, figure)| {
            let number = u64::from(figure.needed);
            let rest = tube.broken_rest(figures.quantity, number, dressing_mm);
            (number as f64 + figure.breakages * rest) * self.tube_price(tube.tube)
        });
        Consumption {
            machine_hours: figures.machine_hours.p50,
            labor_hours: figures.labor_hours.p50,
            electrodes: electrodes.sum(),
            ..self.apart(figures.quantity)
        }
    }

    /// Expected full cost of a quantity, with the offered lot's overrules [currency].
    fn expected_cost(
        &self,
        ready: &Ready,
        of: Asked,
        offered: &Counts,
        answers: Option<&Answers>,
        ratios: &Ratios,
    ) -> f64 {
        let model = LotModel::new(self, ready, of.at, of.quantity);
        let packings = answers.map_or(&[][..], |answers| &answers.packings);
        let Some(lot) = self.expected(&model, packings) else {
            return 0.0;
        };
        let costed = Costed {
            quantity: of.quantity,
            travel_mm: offered.travel_mm * f64::from(of.quantity) / (offered.parts.max(1) as f64),
            rests: self.rests(ready, of, answers, ratios),
            ratios,
        };
        self.cost_lines(&self.of_drawn(ready, &costed, &lot)).sum()
    }

    /// What of each tube's price a breakage leaves unused in a lot, by its electrodes as planned.
    fn rests(
        &self,
        ready: &Ready,
        of: Asked,
        answers: Option<&Answers>,
        ratios: &Ratios,
    ) -> Vec<f64> {
        let planned = shared(self, ready, of.at, answers);
        let tubes = ready.tubes.iter().zip(planned).zip(&ratios.electrodes);
        let dressing_mm = self.tables.start.dressing_mm;
        tubes
            .map(|((tube, shared), ratio)| {
                let computed = tube.median.used(of.quantity, shared).electrodes();
                let stands = libm::round(computed as f64 * ratio) as u64;
                tube.broken_rest(of.quantity, stands, dressing_mm)
            })
            .collect()
    }

    /// What a drawn or a mean lot takes, travel and overrules put in.
    fn of_drawn(&self, ready: &Ready, costed: &Costed<'_>, lot: &DrawnLot) -> Consumption {
        let (times, ratios) = (&ready.times, costed.ratios);
        let travel = if times.table_mm_min > 0.0 {
            costed.travel_mm / times.table_mm_min
        } else {
            0.0
        };
        let [machine, labor] = lot.minutes;
        let tubes = ready.tubes.iter().zip(&lot.electrodes).zip(&lot.broken);
        let electrodes = tubes.zip(ratios.electrodes.iter().zip(&costed.rests)).map(
            |(((tube, number), broken), (ratio, rest))| {
                (number * ratio + broken * rest) * self.tube_price(tube.tube)
            },
        );
        Consumption {
            machine_hours: (machine + travel) / 60.0 * ratios.machine,
            labor_hours: (labor + travel * times.attended) / 60.0 * ratios.labor,
            electrodes: electrodes.sum(),
            ..self.apart(costed.quantity)
        }
    }

    /// What of a lot's consumption goes neither with hours nor with electrodes.
    fn apart(&self, quantity: u32) -> Consumption {
        let guides = self.holes.iter().filter_map(|hole| {
            let guide = self.tables.guides.get(hole.guide?)?;
            let ends = if hole.ends == Some(crate::input::Ends::Both) {
                2.0
            } else {
                1.0
            };
            let holes = f64::from(hole.places) * f64::from(quantity) * ends;
            (guide.life_holes > 0.0).then(|| holes / guide.life_holes * guide.price)
        });
        Consumption {
            guides: guides.sum(),
            outside: self.input.outside_work + self.input.outside_per_part * f64::from(quantity),
            parts_spoiled: f64::from(quantity) * self.part_spoiled(),
            part_at_stake: at_stake(self.input.part_value, self.input.liability_cap),
            ..Consumption::default()
        }
    }

    /// Chance that one part is spoiled.
    fn part_spoiled(&self) -> f64 {
        let rows = self.input.rows.iter().zip(&self.holes);
        let factors: Vec<(u32, f64)> = rows
            .map(|(row, hole)| (hole.places, risk_factor(hole.held, row.risk_agreed)))
            .collect();
        let (rates, start) = (&self.tables.rates, &self.tables.start);
        part_spoiled(rates.part_risk_share, start.part_risk_hole, &factors)
    }

    fn cost_lines(&self, lot: &Consumption) -> CostLines {
        let per_hour = self.machine.map_or(0.0, |machine| machine.rate_per_hour);
        cost_lines(lot, per_hour, &self.tables.rates)
    }

    fn tube_price(&self, tube: usize) -> f64 {
        self.tables.tubes.get(tube).map_or(0.0, |tube| tube.price)
    }

    /// Spread of the offered lot's cost: cost lines draw by draw, or to first order.
    fn cost_band(
        &self,
        ready: &Ready,
        lot: &Lot,
        planned: &Consumption,
        median: f64,
        answers: Option<&Answers>,
    ) -> Band {
        let counts = &lot.counts;
        let ratios = ratios(lot);
        let offered = Asked {
            at: 0,
            quantity: lot.figures.quantity,
        };
        let costed = Costed {
            quantity: offered.quantity,
            travel_mm: counts.travel_mm,
            rests: self.rests(ready, offered, answers, &ratios),
            ratios: &ratios,
        };
        let draws = answers.into_iter().flat_map(|answers| &answers.draws);
        let drawn: Vec<f64> = draws
            .map(|draw| self.cost_lines(&self.of_drawn(ready, &costed, draw)).sum())
            .collect();
        let minutes = [lot.figures.machine.sum(), lot.figures.labor.sum()];
        let by = bands::hours_by(self, ready, counts, minutes);
        let rates = &self.tables.rates;
        let redo = 1.0 + rates.redo_share;
        let per_machine = self.machine.map_or(0.0, |machine| machine.rate_per_hour) * redo
            + rates.dielectric_per_hour
            + rates.power_per_hour;
        let per_labor = rates.labor_per_hour * redo;
        let of = |[machine, labor]: [Part; 2]| {
            let machine_cost = machine.0 * per_machine * ratios.machine;
            (machine_cost + labor.0 * per_labor * ratios.labor, machine.1)
        };
        let wear = (planned.electrodes * redo, bands::wear_sigma(ready, None));
        let parts = [of(by.feed), of(by.handling), wear];
        // What neither hours nor electrodes cost is certain.
        let certain = median - parts.iter().map(|part| part.0).sum::<f64>();
        let [feed, handling, wear] = parts;
        let parts = [feed, handling, wear, (certain.max(0.0), 0.0)];
        bands::cost(median, &drawn, &parts)
    }

    /// One quantity's price, overruled where somebody set it.
    fn priced(
        &self,
        quantity: u32,
        full_cost: f64,
        terms: &Terms,
        findings: &mut Vec<Finding>,
    ) -> Option<Break> {
        let computed = price(full_cost, quantity, terms)?;
        let figure = Figure::UnitPrice(quantity);
        let each = f64::try_from(computed.each).unwrap_or(0.0);
        let overruled = Overruled::of(self.input, figure, each, findings);
        let Priced { each, lot, minimum } = match overruled {
            Some(overruled) => price_set(overruled.stands, quantity, terms.minor_digits)?,
            None => computed,
        };
        if minimum && self.input.quantity == Some(quantity) {
            let minimum = terms.minimum_charge;
            let kind = Kind::MinimumCharge { minimum };
            findings.push(about_price(Level::Note, kind));
        }
        Some(Break {
            quantity,
            unit_cost: full_cost / f64::from(quantity),
            each,
            lot,
            minimum,
            overruled: overruled.is_some(),
        })
    }
}

/// What stands over what was computed.
fn ratios(lot: &Lot) -> Ratios {
    let of = |stands: f64, minutes: f64| {
        if minutes > 0.0 {
            stands / (minutes / 60.0)
        } else {
            1.0
        }
    };
    let figures = &lot.figures;
    Ratios {
        machine: of(figures.machine_hours.p50, figures.machine.sum()),
        labor: of(figures.labor_hours.p50, figures.labor.sum()),
        electrodes: lot.electrode_ratios.clone(),
    }
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
