//! What a lot costs the shop, line by line.

use crate::job_figures::CostLines;
use crate::tables::Rates;

/// What a lot takes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Consumption {
    /// Machine hours [h].
    pub machine_hours: f64,
    /// Labor hours [h].
    pub labor_hours: f64,
    /// Electrodes at their prices [currency].
    pub electrodes: f64,
    /// Guides at their prices, by the share of their life that is used [currency].
    pub guides: f64,
    /// Outside work [currency].
    pub outside: f64,
    /// What the shop answers for if it spoils a part [currency].
    pub part_at_stake: f64,
    /// Parts expected to be spoiled in the lot.
    pub parts_spoiled: f64,
}

/// Cost lines of a lot.
///
/// Formula: machine, dielectric and power = machine hours times their rates; labor = labor hours
/// times its rate; electrodes, guides and outside work as they are; redo = its share of machine,
/// labor and electrodes; part at risk = what is at stake times the parts expected to be spoiled.
///
/// - `lot`: hours [h] and purchases [currency].
/// - `machine_per_hour`: the machine's rate [currency/h], 0 and up.
/// - `rates`: the rate card.
///
/// Result: cost lines [currency], not rounded.
///
/// ```
/// use quillbore_calc::cost::{Consumption, cost_lines};
/// # use quillbore_calc::tables::Rates;
/// # let rates = Rates {
/// #     currency: "EUR".into(), minor_digits: 2, labor_per_hour: 45.0, dielectric_per_hour: 3.0,
/// #     power_per_hour: 2.0, margin: 0.2, minimum_charge: 0.0, try_charge: None, price_step: None,
/// #     redo_share: 0.05, part_risk_share: 0.01,
/// # };
/// let lot = Consumption { machine_hours: 10.0, labor_hours: 4.0, electrodes: 20.0, ..Consumption::default() };
/// let lines = cost_lines(&lot, 40.0, &rates);
/// // 400 + 180 + 20, 5 percent of it for redone holes, 30 dielectric, 20 power.
/// assert_eq!(lines.sum(), 600.0 + 30.0 + 30.0 + 20.0);
/// ```
///
/// Source: arithmetic; an hour rate checked against published cost-accounting problems in the tests.
#[must_use]
pub fn cost_lines(lot: &Consumption, machine_per_hour: f64, rates: &Rates) -> CostLines {
    let machine = lot.machine_hours * machine_per_hour;
    let labor = lot.labor_hours * rates.labor_per_hour;
    CostLines {
        machine,
        labor,
        electrodes: lot.electrodes,
        guides: lot.guides,
        dielectric: lot.machine_hours * rates.dielectric_per_hour,
        power: lot.machine_hours * rates.power_per_hour,
        outside: lot.outside,
        redo: rates.redo_share * (machine + labor + lot.electrodes),
        part_risk: lot.parts_spoiled * lot.part_at_stake,
        not_yet_known: 0.0,
    }
}

/// What the shop answers for if it spoils a part.
///
/// Formula: the part's value, not above the cap where one was agreed.
///
/// - `value`: value of one part to the customer [currency]; unknown or below 0 counts as 0.
/// - `cap`: most that the shop answers for per part [currency]; below 0 counts as 0.
///
/// Result: amount at stake [currency].
///
/// ```
/// use quillbore_calc::cost::at_stake;
/// assert_eq!(at_stake(Some(8000.0), Some(2500.0)), 2500.0);
/// assert_eq!(at_stake(None, Some(2500.0)), 0.0);
/// ```
///
/// Source: arithmetic.
#[must_use]
pub fn at_stake(value: Option<f64>, cap: Option<f64>) -> f64 {
    let value = value.unwrap_or(0.0).max(0.0);
    cap.map_or(value, |cap| value.min(cap.max(0.0)))
}

/// Chance that one part is spoiled.
///
/// Formula: `1 - (1 - p0 f) product (1 - ph fi)^ni`, with f the largest of the rows' factors fi.
///
/// - `apart`: chance p0 apart from the holes [-], 0 to 1.
/// - `by_hole`: chance ph that one hole spoils it [-], 0 to 1.
/// - `rows`: holes ni in one part [-], 0 and up, and factor fi of each row [-], 1 and up: 1 where the
///   size is comfortable, 3 where it is tight or the customer has agreed to bear the risk, 10 where
///   it is not to be promised.
///
/// Result: chance [-], 0 to 1; what a factor lifts above 1 counts as 1.
///
/// ```
/// use quillbore_calc::cost::part_spoiled;
/// // 1,000 holes: 0.7 percent; 4,000: 1.3 percent.
/// assert!((part_spoiled(0.005, 2e-6, &[(1_000, 1.0)]) - 0.007).abs() < 0.0005);
/// assert!((part_spoiled(0.005, 2e-6, &[(4_000, 1.0)]) - 0.013).abs() < 0.0005);
/// ```
///
/// Source: ours; start values «memory» of common practice.
#[must_use]
pub fn part_spoiled(apart: f64, by_hole: f64, rows: &[(u32, f64)]) -> f64 {
    let worst = rows
        .iter()
        .fold(1.0_f64, |worst, (_, factor)| worst.max(*factor));
    let whole = |holes: u32, factor: f64| {
        f64::from(holes) * libm::log1p(-(by_hole * factor).clamp(0.0, 1.0))
    };
    let logs: f64 = rows
        .iter()
        .map(|(holes, factor)| whole(*holes, *factor))
        .sum();
    1.0 - (1.0 - (apart * worst).clamp(0.0, 1.0)) * libm::exp(logs)
}

/// Hour rate of a machine from what it costs over its life and month by month.
///
/// Formula: `(price - scrap) / life hours + repairs / life hours + used per hour + fixed per month
/// / hours a month`.
///
/// - `keep`: what the machine costs and how long it works.
///
/// Result: rate [currency/h]; `None` where the hours are not above 0.
///
/// ```
/// use quillbore_calc::cost::{Keep, hour_rate};
/// let keep = Keep {
///     price: 11_500.0, scrap: 1_500.0, repairs: 0.0, life_hours: 20_000.0,
///     used_per_hour: 0.0, fixed_per_month: 620.0, hours_per_month: 160.0,
/// };
/// assert_eq!(hour_rate(&keep), Some(0.5 + 3.875));
/// ```
///
/// Source: machine hour rate of cost accounting.
#[must_use]
pub fn hour_rate(keep: &Keep) -> Option<f64> {
    if !(keep.life_hours > 0.0 && keep.hours_per_month > 0.0) {
        return None;
    }
    let over_life = (keep.price - keep.scrap + keep.repairs) / keep.life_hours;
    Some(over_life + keep.used_per_hour + keep.fixed_per_month / keep.hours_per_month)
}

/// What a machine costs and how long it works.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keep {
    /// Price when bought [currency].
    pub price: f64,
    /// What it brings when sold [currency].
    pub scrap: f64,
    /// Repairs over its life [currency].
    pub repairs: f64,
    /// Hours that it works in its life [h].
    pub life_hours: f64,
    /// Power and the like [currency/h].
    pub used_per_hour: f64,
    /// Rent, pay, insurance and the like [currency/month].
    pub fixed_per_month: f64,
    /// Hours that it works in a month [h].
    pub hours_per_month: f64,
}
