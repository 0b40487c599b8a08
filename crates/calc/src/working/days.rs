//! The working of days: they rest on when the shop works, which no table of a calculation tells.

use alloc::vec::Vec;

use super::job::{opened, plain};
use crate::figure::{Figure, Formula, Input, Name, Origin, Quantity, Unit, Working};
use crate::job_figures::JobFigures;
use crate::promise::{Floor, WorkingDays, working_days};

/// The working of a lot's working days: those that were typed as its lead time, else those that it
/// takes.
///
/// Formula: the lead time, or [`working_days`] of the lot's hours; where a lead time was typed, what
/// the lot takes stands among its inputs.
///
/// - `figures`: the job's figures.
/// - `floor`: how the shop works, and what the lot waits for, where that is known.
/// - `lead_days`: the lead time [d], any, where one was typed.
///
/// Result: the working, its result the median [d] and `high` what it takes one time in ten [d]; `None`
/// without a lead time where a row has no hours, or nothing is known of the shop's day.
///
/// A lot of 8 machine hours: by days of 8 attended hours it takes one, and its P90 of about 12 hours
/// a second. Two days were typed.
///
/// ```
/// use quillbore_calc::assemble::quick;
/// use quillbore_calc::figure::{Figure, Formula, Name};
/// use quillbore_calc::input::Overrule;
/// use quillbore_calc::promise::Floor;
/// use quillbore_calc::working::days;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let mut input = job(vec![through(0.8, 20.0)]);
/// input.quantity = Some(10);
/// input.overrules = vec![Overrule { figure: Figure::MachineHours, value: 8.0 }];
/// let figures = quick(&input, &tables());
/// let floor = Floor {
///     attended_hours: 8.0, unattended_hours: 0.0, attended_share: 0.35, queued_hours: 0.0, outside_days: 0,
/// };
/// let takes = days(&figures, Some(&floor), None).unwrap();
/// assert_eq!((takes.formula, takes.result.value, takes.high), (Formula::WorkingDays, 1.0, Some(2.0)));
/// let typed = days(&figures, Some(&floor), Some(2)).unwrap();
/// assert_eq!((typed.formula, typed.result.value, typed.high), (Formula::LeadTime, 2.0, None));
/// ```
///
/// Source: that of [`working_days`].
#[must_use]
pub fn days(
    figures: &JobFigures,
    floor: Option<&Floor>,
    lead_days: Option<u32>,
) -> Option<Working> {
    let lot = figures.lot.as_ref();
    let takes = lot.zip(floor).and_then(|(lot, floor)| {
        let takes = working_days(lot.machine_hours, lot.labor_hours, floor)?;
        Some((takes, by_the_floor(figures, floor)))
    });
    let (formula, inputs, value, high) = match (lead_days, takes) {
        (None, None) => return None,
        (None, Some((WorkingDays { p50, p90 }, inputs))) => {
            (Formula::WorkingDays, inputs, p50, Some(f64::from(p90)))
        }
        (Some(typed), takes) => {
            let mut inputs = alloc::vec![in_days(Name::LeadTime, typed, Origin::Typed)];
            if let Some((WorkingDays { p50, p90 }, by_the_floor)) = takes {
                inputs.push(in_days(Name::LikelyDays, p50, Origin::Computed));
                inputs.push(in_days(Name::LateDays, p90, Origin::Computed));
                inputs.extend(by_the_floor);
            }
            (Formula::LeadTime, inputs, typed, None)
        }
    };
    Some(Working {
        figure: Figure::WorkingDays,
        formula,
        inputs,
        result: Quantity {
            value: f64::from(value),
            unit: Unit::Day,
        },
        overruled: None,
        low: None,
        high,
        alternatives: Vec::new(),
    })
}

/// What the days of a lot come of.
fn by_the_floor(figures: &JobFigures, floor: &Floor) -> Vec<Input> {
    let Some(lot) = &figures.lot else {
        return Vec::new();
    };
    let (machine, labor) = (Figure::MachineHours, Figure::LaborHours);
    let of = |name, hours, figure| opened(figures, name, hours, Unit::Hour, figure);
    let shop = |name, value, unit| plain(name, value, unit, Origin::ShopTable);
    let Floor {
        attended_hours,
        unattended_hours,
        attended_share,
        queued_hours,
        outside_days,
    } = *floor;
    let mut inputs = alloc::vec![
        of(Name::Machine, lot.machine_hours.p50, machine),
        of(Name::MachineHigh, lot.machine_hours.p90, machine),
        of(Name::Labor, lot.labor_hours.p50, labor),
        of(Name::LaborHigh, lot.labor_hours.p90, labor),
        shop(Name::AttendedHours, attended_hours, Unit::Hour),
        shop(Name::UnattendedHours, unattended_hours, Unit::Hour),
        shop(Name::AttendedShare, attended_share, Unit::Share),
        plain(
            Name::QueuedHours,
            queued_hours,
            Unit::Hour,
            Origin::Computed
        ),
    ];
    if outside_days > 0 {
        inputs.push(in_days(Name::OutsideDays, outside_days, Origin::Typed));
    }
    inputs
}

fn in_days(name: Name, days: u32, origin: Origin) -> Input {
    plain(name, f64::from(days), Unit::Day, origin)
}
