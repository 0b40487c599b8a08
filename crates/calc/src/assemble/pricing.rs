//! Cost and price of the offered quantity and of all others.

use alloc::vec::Vec;

use super::lot::{Lot, Overruled, overruled_band, used};
use super::packed::{quantities, shared};
use super::prepare::{Prepared, Ready};
use super::{Answers, bands};
use crate::cost::{Consumption, at_stake, cost_lines};
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind, Level};
use crate::job_figures::{Break, CostLines, LotFigures, PriceFigures};
use crate::price::{Priced, Terms, lot_price, markup, money, price, price_set};
use crate::rollup::{TubeUse, roll_up};

/// What stands over what was computed, figure by figure, for the offered lot.
struct Ratios {
    machine: f64,
    labor: f64,
    electrodes: Vec<f64>,
    cost: f64,
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
        let offered = self.offered(&lot.figures);
        let cost = self.cost_lines(&offered);
        let mut lot_cost = self.cost_band(ready, lot, &offered, &cost, answers);
        let overruled = Overruled::of(self.input, Figure::LotCost, lot_cost.p50, findings);
        if let Some(overruled) = overruled {
            lot_cost = overruled_band(lot_cost, overruled);
        }
        let ratios = ratios(lot, overruled);
        let mut breaks = Vec::new();
        for (at, quantity) in quantities(self).into_iter().enumerate() {
            let full = if at == 0 {
                lot_cost.p50
            } else {
                let lot = self.further(ready, at, quantity, answers, &ratios);
                self.cost_lines(&lot).sum() * ratios.cost
            };
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
            expected_cost: lot_cost.p50,
            breaks,
            one_off: one_off.collect::<Option<_>>()?,
            margin,
            markup: markup(margin)?,
        })
    }

    /// What the offered lot takes.
    fn offered(&self, lot: &LotFigures) -> Consumption {
        let electrodes = lot.electrodes.iter().map(|figure| {
            let price = self.tube_price(figure.tube);
            f64::from(figure.needed) * price
        });
        Consumption {
            machine_hours: lot.machine_hours.p50,
            labor_hours: lot.labor_hours.p50,
            electrodes: electrodes.sum(),
            ..self.apart(lot.quantity)
        }
    }

    /// What a further quantity takes, by the same engine and with the offered lot's overrules.
    fn further(
        &self,
        ready: &Ready,
        at: usize,
        quantity: u32,
        answers: Option<&Answers>,
        ratios: &Ratios,
    ) -> Consumption {
        let shared = shared(self, ready, at, answers);
        let tubes = ready.tubes.iter().zip(shared).zip(&ratios.electrodes);
        let uses: Vec<TubeUse> = tubes
            .map(|((tube, shared), ratio)| {
                let computed = tube.median.used(quantity, shared).electrodes() as f64;
                used(tube, quantity, libm::ceil(computed * ratio - 1e-9) as u64)
            })
            .collect();
        let counts = self.counts(ready, quantity, &uses);
        let (machine, labor) = roll_up(&counts, &ready.times);
        let bought = ready
            .tubes
            .iter()
            .zip(&uses)
            .map(|(tube, used)| used.electrodes() as f64 * self.tube_price(tube.tube));
        Consumption {
            machine_hours: machine.sum() / 60.0 * ratios.machine,
            labor_hours: labor.sum() / 60.0 * ratios.labor,
            electrodes: bought.sum(),
            ..self.apart(quantity)
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
            outside: self.input.outside_work,
            part_at_stake: at_stake(self.input.part_value, self.input.liability_cap),
            ..Consumption::default()
        }
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
        offered: &Consumption,
        lines: &CostLines,
        answers: Option<&Answers>,
    ) -> crate::quantity::Band {
        let counts = &lot.counts;
        let ratios = ratios(lot, None);
        let hours = bands::drawn_hours(ready, counts, answers);
        let draws = answers.into_iter().flat_map(|answers| &answers.draws);
        let drawn: Vec<f64> = draws
            .zip(hours)
            .map(|(draw, [machine, labor])| {
                let tubes = ready.tubes.iter().zip(&draw.electrodes);
                let electrodes = tubes
                    .zip(&ratios.electrodes)
                    .map(|((tube, number), ratio)| number * ratio * self.tube_price(tube.tube));
                let drawn = Consumption {
                    machine_hours: machine * ratios.machine,
                    labor_hours: labor * ratios.labor,
                    electrodes: electrodes.sum(),
                    ..*offered
                };
                let lines = self.cost_lines(&drawn);
                lines.sum() + lines.redo * (draw.breakages - 1.0)
            })
            .collect();
        let minutes = [lot.figures.machine.sum(), lot.figures.labor.sum()];
        let first = bands::first_order(self, ready, counts, minutes);
        let rates = &self.tables.rates;
        let redo = 1.0 + rates.redo_share;
        let per_machine = self.machine.map_or(0.0, |machine| machine.rate_per_hour) * redo
            + rates.dielectric_per_hour
            + rates.power_per_hour;
        let of = |[machine, labor]: [f64; 2]| {
            machine * per_machine * ratios.machine
                + labor * rates.labor_per_hour * redo * ratios.labor
        };
        let wear = lines.electrodes * redo * bands::wear_sigma(ready, None);
        let first_order = libm::hypot(libm::hypot(of(first.feed), of(first.handling)), wear);
        bands::cost(lines.sum(), &drawn, first_order)
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
fn ratios(lot: &Lot, cost: Option<Overruled>) -> Ratios {
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
        cost: cost.map_or(1.0, Overruled::ratio),
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
