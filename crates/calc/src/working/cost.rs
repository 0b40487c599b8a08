//! Workings of the lot's cost and of each of its lines.

use alloc::vec::Vec;

use super::job::{Job, Worked, plain};
use crate::cost::at_stake;
use crate::figure::{CostLine, Figure, Formula, Input, Name, Origin, Quantity, Unit};
use crate::job_figures::LotFigures;

/// Expected full cost of the lot.
pub(super) fn lot_cost(job: &Job<'_>) -> Option<Worked> {
    let cost = &job.figures.price.as_ref()?.cost;
    let known = job.opened(
        Name::NotYetKnown,
        cost.not_yet_known,
        Unit::Money,
        Figure::NotYetKnown,
    );
    let lines = CostLine::ALL.map(|of| cost_line(job, of, cost.line(of)));
    Some(Worked {
        formula: Formula::CostLines,
        inputs: lines.into_iter().chain([known]).collect(),
        result: money(cost.sum()),
    })
}

/// One line of it.
pub(super) fn line(job: &Job<'_>, line: CostLine) -> Option<Worked> {
    let lot = job.figures.lot.as_ref()?;
    let cost = &job.figures.price.as_ref()?.cost;
    let rates = &job.tables.rates;
    let (formula, inputs) = match line {
        CostLine::Machine => {
            let machine = job.input.machine?.of(&job.tables.machines)?;
            by_machine_hours(job, lot, machine.rate_per_hour, Origin::RateCard)
        }
        CostLine::Labor => {
            let hours = job.opened(
                Name::LaborHours,
                lot.labor_hours.p50,
                Unit::Hour,
                Figure::LaborHours,
            );
            let rate = per_hour(rates.labor_per_hour, Origin::RateCard);
            (Formula::ByTheHour, alloc::vec![hours, rate])
        }
        CostLine::Dielectric => {
            by_machine_hours(job, lot, rates.dielectric_per_hour, Origin::RateCard)
        }
        CostLine::Power => by_machine_hours(job, lot, rates.power_per_hour, Origin::RateCard),
        CostLine::Electrodes => (
            Formula::ElectrodesUsed,
            electrodes(job, lot, cost.electrodes),
        ),
        CostLine::Guides => (Formula::GuidesByLife, guides(job, lot)),
        CostLine::Outside => (Formula::OutsideWork, outside(job, lot)),
        CostLine::Redo => {
            let mut inputs = alloc::vec![plain(
                Name::RedoShare,
                rates.redo_share,
                Unit::Share,
                Origin::RateCard,
            )];
            let redone = [CostLine::Machine, CostLine::Labor, CostLine::Electrodes];
            inputs.extend(redone.map(|of| cost_line(job, of, cost.line(of))));
            (Formula::RedoneWork, inputs)
        }
        CostLine::PartRisk => (Formula::PartAtRisk, part_risk(job, cost.part_risk)),
    };
    Some(Worked {
        formula,
        inputs,
        result: money(cost.line(line)),
    })
}

/// A line of the cost, which opens its own working.
fn cost_line(job: &Job<'_>, line: CostLine, amount: f64) -> Input {
    let (name, goes_by) = match line {
        CostLine::Machine => (Name::Machine, Some(Figure::MachineHours)),
        CostLine::Labor => (Name::Labor, Some(Figure::LaborHours)),
        CostLine::Electrodes => (Name::ElectrodeCost, only_tube(job)),
        CostLine::Guides => (Name::GuideCost, None),
        CostLine::Dielectric => (Name::Dielectric, None),
        CostLine::Power => (Name::Power, None),
        CostLine::Outside => (Name::OutsideWork, None),
        CostLine::Redo => (Name::Redo, None),
        CostLine::PartRisk => (Name::PartRisk, None),
    };
    let opens = Figure::Cost(line);
    // What was overruled is told where it counts, and opens there.
    let input = job.opened(name, amount, Unit::Money, goes_by.unwrap_or(opens));
    Input {
        opens: Some(opens),
        ..input
    }
}

fn only_tube(job: &Job<'_>) -> Option<Figure> {
    match &job.figures.lot.as_ref()?.electrodes[..] {
        [one] => Some(Figure::Electrodes(one.tube)),
        _ => None,
    }
}

fn by_machine_hours(
    job: &Job<'_>,
    lot: &LotFigures,
    rate: f64,
    from: Origin,
) -> (Formula, Vec<Input>) {
    let hours = lot.machine_hours.p50;
    let hours = job.opened(Name::MachineHours, hours, Unit::Hour, Figure::MachineHours);
    (Formula::ByTheHour, alloc::vec![hours, per_hour(rate, from)])
}

fn per_hour(rate: f64, from: Origin) -> Input {
    plain(Name::PerHour, rate, Unit::MoneyPerHour, from)
}

/// Each electrode with its price, then what of broken ones is left unused.
fn electrodes(job: &Job<'_>, lot: &LotFigures, cost: f64) -> Vec<Input> {
    let mut inputs = Vec::new();
    let mut whole = 0.0;
    for figure in &lot.electrodes {
        let price = figure
            .tube
            .of(&job.tables.tubes)
            .map_or(0.0, |tube| tube.price);
        let needed = f64::from(figure.needed);
        whole += needed * price;
        let opens = Figure::Electrodes(figure.tube);
        inputs.push(job.opened(Name::Needed, needed, Unit::Count, opens));
        inputs.push(plain(
            Name::PriceOfOne,
            price,
            Unit::Money,
            Origin::ShopTable,
        ));
    }
    let broken = plain(
        Name::BrokenRest,
        (cost - whole).max(0.0),
        Unit::Money,
        Origin::Computed,
    );
    inputs.push(broken);
    inputs
}

/// Holes, life and price of each guide.
fn guides(job: &Job<'_>, lot: &LotFigures) -> Vec<Input> {
    let known = lot.guides.iter();
    let known = known.filter_map(|of| Some((of, of.guide.of(&job.tables.guides)?)));
    let inputs = known.flat_map(|(of, guide)| {
        [
            plain(
                Name::HolesOnGuide(of.guide),
                of.ends as f64,
                Unit::Count,
                Origin::Computed,
            ),
            plain(
                Name::GuideLife,
                guide.life_holes,
                Unit::Count,
                Origin::ShopTable,
            ),
            plain(
                Name::PriceOfOne,
                guide.price,
                Unit::Money,
                Origin::ShopTable,
            ),
        ]
    });
    inputs.collect()
}

fn outside(job: &Job<'_>, lot: &LotFigures) -> Vec<Input> {
    let typed = |name, value, unit| plain(name, value, unit, Origin::Typed);
    alloc::vec![
        typed(Name::OutsideWork, job.input.outside_work, Unit::Money),
        typed(
            Name::OutsidePerPart,
            job.input.outside_per_part,
            Unit::Money
        ),
        typed(Name::Quantity, f64::from(lot.quantity), Unit::Count),
    ]
}

/// What the shop answers for, and how many parts are expected to be spoiled.
fn part_risk(job: &Job<'_>, cost: f64) -> Vec<Input> {
    let (value, cap) = (job.input.part_value, job.input.liability_cap);
    let stake = at_stake(value, cap);
    let spoiled = if stake > 0.0 { cost / stake } else { 0.0 };
    let typed = |name, amount| plain(name, amount, Unit::Money, Origin::Typed);
    let mut inputs = Vec::new();
    inputs.extend(value.map(|value| typed(Name::PartValue, value)));
    inputs.extend(cap.map(|cap| typed(Name::Cap, cap)));
    inputs.push(plain(Name::AtStake, stake, Unit::Money, Origin::Computed));
    if stake > 0.0 {
        inputs.push(plain(
            Name::PartsSpoiled,
            spoiled,
            Unit::Number,
            Origin::Computed,
        ));
    }
    inputs
}

const fn money(value: f64) -> Quantity {
    Quantity {
        value,
        unit: Unit::Money,
    }
}
