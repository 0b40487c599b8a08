//! Workings of the lot's figures.

use alloc::vec::Vec;

use super::job::{Job, Worked, overruled, plain};
use crate::figure::{Figure, Formula, Input, Name, Origin, Quantity, Unit};
use crate::idx::Idx;
use crate::job_figures::{Break, LotFigures};
use crate::tables::Tube;

/// Up to so many rows each row's minutes stand apart, so that each can be opened.
const ROWS_APART: usize = 24;

/// Electrodes of one tube.
pub(super) fn electrodes(job: &Job<'_>, tube: Idx<Tube>) -> Option<Worked> {
    let lot = job.figures.lot.as_ref()?;
    let figure = lot.electrodes.iter().find(|figure| figure.tube == tube)?;
    let mut inputs = Vec::new();
    let mut usable = None;
    for hole in job
        .figures
        .holes
        .iter()
        .filter(|hole| hole.tube == Some(tube))
    {
        usable = usable.or(hole.usable_mm);
        let wear = hole.wear_mm?;
        let opens = Figure::Wear(hole.row);
        inputs.push(job.opened(Name::Wear, wear, Unit::Mm, opens));
    }
    inputs.insert(0, plain(Name::Usable, usable?, Unit::Mm, Origin::Computed));
    let count = |name, value| plain(name, value, Unit::Count, Origin::Computed);
    inputs.push(count(Name::HolesInLot, figure.ends as f64));
    inputs.push(count(Name::AtLeast, f64::from(figure.at_least)));
    inputs.push(count(Name::IfWearHigh, f64::from(figure.if_wear_high)));
    inputs.push(count(Name::Spares, f64::from(figure.spares)));
    inputs.push(count(Name::Kit, f64::from(figure.kit)));
    Some(Worked {
        formula: Formula::Packing,
        inputs,
        result: whole(f64::from(figure.needed)),
    })
}

/// Electrodes of all tubes.
pub(super) fn all_electrodes(job: &Job<'_>) -> Option<Worked> {
    let electrodes = &job.figures.lot.as_ref()?.electrodes;
    if electrodes.is_empty() {
        return None;
    }
    let tubes = electrodes.iter().map(|figure| {
        let opens = Figure::Electrodes(figure.tube);
        job.opened(Name::Needed, f64::from(figure.needed), Unit::Count, opens)
    });
    let together = electrodes.iter().map(|figure| f64::from(figure.needed));
    Some(Worked {
        formula: Formula::TubesTogether,
        inputs: tubes.collect(),
        result: whole(together.sum()),
    })
}

/// Clampings of one part.
pub(super) fn setups(job: &Job<'_>) -> Option<Worked> {
    let setups = &job.figures.setups;
    if setups.is_empty() {
        return None;
    }
    let origin = if job.input.rows.iter().all(|row| row.places.is_empty()) {
        Origin::Computed
    } else {
        Origin::Typed
    };
    let directions = setups
        .iter()
        .map(|setup| f64::from(setup.directions))
        .sum::<f64>();
    let turned = setups.iter().filter(|setup| setup.turned_over).count();
    let moves = setups
        .iter()
        .map(|setup| f64::from(setup.index_moves) + f64::from(setup.tilts))
        .sum::<f64>();
    Some(Worked {
        formula: Formula::SetupsByDirection,
        inputs: alloc::vec![
            plain(Name::Directions, directions, Unit::Count, origin),
            plain(Name::Index, moves, Unit::Count, Origin::Computed),
            plain(Name::TurnOver, turned as f64, Unit::Count, Origin::Computed),
        ],
        result: whole(setups.len() as f64),
    })
}

/// Machine hours of the lot.
pub(super) fn machine_hours(job: &Job<'_>) -> Option<Worked> {
    let lot = job.figures.lot.as_ref()?;
    let minutes = &lot.machine;
    let with_setups = Some(Figure::Setups);
    let with_electrodes = only_electrodes(job);
    let by = |name, minutes, opens| follows(job, name, minutes, opens);
    let mut inputs = alloc::vec![
        by(Name::SetUp, minutes.set_up, with_setups),
        by(Name::FirstPiece, minutes.first_piece, with_setups),
        by(Name::Load, minutes.load, with_setups),
        part(Name::Index, minutes.index, with_setups),
        by(Name::TurnOver, minutes.turn_over, with_setups),
        part(Name::TableTravel, minutes.travel, None),
    ];
    inputs.extend(in_holes(job, lot));
    inputs.extend([
        by(
            Name::ElectrodeChanges,
            minutes.electrode_changes,
            with_electrodes,
        ),
        part(Name::GuideChanges, minutes.guide_changes, None),
        by(Name::Dressing, minutes.dressing, with_electrodes),
        part(Name::Breakages, minutes.breakages, with_electrodes),
    ]);
    Some(Worked {
        formula: Formula::MachineMinutes,
        inputs,
        result: hours(minutes.sum()),
    })
}

/// Minutes in the holes: row by row where there are few rows, else those that were overruled apart.
fn in_holes(job: &Job<'_>, lot: &LotFigures) -> Vec<Input> {
    let rows = job.figures.holes.iter().zip(&lot.hole_minutes);
    let figures = rows.map(|(hole, minutes)| (Figure::HoleMinutes(hole.row), *minutes));
    let few = job.figures.holes.len() <= ROWS_APART;
    let apart = figures.filter(|(figure, _)| few || overruled(job.figures, *figure).1.is_some());
    let mut rest = lot.machine.holes;
    let mut inputs = Vec::new();
    for (figure, minutes) in apart.take(ROWS_APART) {
        rest -= minutes;
        inputs.push(job.opened(Name::Holes, minutes, Unit::Min, figure));
    }
    if !few {
        inputs.push(part(Name::OtherHoles, rest.max(0.0), None));
    }
    inputs
}

/// Labor hours of the lot.
pub(super) fn labor_hours(job: &Job<'_>) -> Option<Worked> {
    let minutes = &job.figures.lot.as_ref()?.labor;
    let with_setups = Some(Figure::Setups);
    Some(Worked {
        formula: Formula::LaborMinutes,
        inputs: alloc::vec![
            part(Name::Receive, minutes.receive, None),
            follows(job, Name::SetUp, minutes.set_up, with_setups),
            part(Name::Handling, minutes.handling, None),
            part(Name::StandBy, minutes.stand_by, Some(Figure::MachineHours)),
            part(Name::Masking, minutes.masking, None),
            part(Name::Wash, minutes.wash, None),
            part(Name::Inspect, minutes.inspect, None),
            part(Name::Pack, minutes.pack, None),
        ],
        result: hours(minutes.sum()),
    })
}

/// What the mean of all that is not yet known adds to the cost at the medians.
pub(super) fn not_yet_known(job: &Job<'_>) -> Option<Worked> {
    let price = job.figures.price.as_ref()?;
    let known = price.cost.sum() - price.cost.not_yet_known;
    let money = |name, value| plain(name, value, Unit::Money, Origin::Computed);
    let value = price.not_yet_known_share;
    Some(Worked {
        formula: Formula::NotYetKnown,
        inputs: alloc::vec![
            money(Name::MedianCost, known),
            money(Name::NotYetKnown, known * value),
        ],
        result: Quantity {
            value,
            unit: Unit::Share,
        },
    })
}

/// The price of a quantity.
fn break_at<'a>(job: &'a Job<'_>, quantity: u32) -> Option<&'a Break> {
    let mut breaks = job.figures.price.as_ref()?.breaks.iter();
    breaks.find(|line| line.quantity == quantity)
}

/// Price of a lot of a quantity.
pub(super) fn lot_price(job: &Job<'_>, quantity: u32) -> Option<Worked> {
    let line = break_at(job, quantity)?;
    let each = f64::try_from(line.each).ok()?;
    let count = f64::from(quantity);
    let mut inputs = alloc::vec![
        job.opened(
            Name::UnitPrice,
            each,
            Unit::Money,
            Figure::UnitPrice(quantity)
        ),
        plain(Name::Quantity, count, Unit::Count, Origin::Typed),
    ];
    if line.minimum {
        let minimum = job.tables.rates.minimum_charge;
        let origin = Origin::RateCard;
        inputs.push(plain(Name::MinimumCharge, minimum, Unit::Money, origin));
    }
    Some(Worked {
        formula: Formula::LotPrice,
        inputs,
        result: Quantity {
            value: f64::try_from(line.lot).ok()?,
            unit: Unit::Money,
        },
    })
}

/// Price of one part at a quantity.
pub(super) fn unit_price(job: &Job<'_>, quantity: u32) -> Option<Worked> {
    let priced = job.figures.price.as_ref()?;
    let line = break_at(job, quantity)?;
    let cost = line.unit_cost * f64::from(quantity);
    let rates = &job.tables.rates;
    let lot_cost = if job.input.quantity == Some(quantity) {
        job.opened(Name::LotCost, cost, Unit::Money, Figure::LotCost)
    } else {
        plain(Name::LotCost, cost, Unit::Money, Origin::Computed)
    };
    let margin = if job.input.margin.is_some() {
        Origin::Typed
    } else {
        Origin::RateCard
    };
    let step = rates.price_step;
    let step = step.map(|step| plain(Name::PriceStep, step, Unit::Money, Origin::RateCard));
    Some(Worked {
        formula: Formula::UnitPrice,
        inputs: [
            lot_cost,
            plain(
                Name::Quantity,
                f64::from(quantity),
                Unit::Count,
                Origin::Typed,
            ),
            plain(
                Name::UnitCost,
                line.unit_cost,
                Unit::Money,
                Origin::Computed,
            ),
            plain(Name::Margin, priced.margin, Unit::Share, margin),
            plain(Name::Markup, priced.markup, Unit::Share, Origin::Computed),
            plain(
                Name::MinimumCharge,
                rates.minimum_charge,
                Unit::Money,
                Origin::RateCard,
            ),
        ]
        .into_iter()
        .chain(step)
        .collect(),
        result: Quantity {
            value: f64::try_from(line.computed_each).ok()?,
            unit: Unit::Money,
        },
    })
}

/// What minutes of electrodes rest on, where there is one tube.
fn only_electrodes(job: &Job<'_>) -> Option<Figure> {
    match &job.figures.lot.as_ref()?.electrodes[..] {
        [one] => Some(Figure::Electrodes(one.tube)),
        _ => None,
    }
}

/// Minutes that go by a figure, so that its overrule is in them.
fn follows(job: &Job<'_>, name: Name, minutes: f64, figure: Option<Figure>) -> Input {
    match figure {
        Some(figure) => job.opened(name, minutes, Unit::Min, figure),
        None => part(name, minutes, None),
    }
}

/// Minutes that open a figure without its overrule in them.
fn part(name: Name, minutes: f64, opens: Option<Figure>) -> Input {
    Input {
        opens,
        ..plain(name, minutes, Unit::Min, Origin::Computed)
    }
}

fn hours(minutes: f64) -> Quantity {
    Quantity {
        value: minutes / 60.0,
        unit: Unit::Hour,
    }
}

fn whole(value: f64) -> Quantity {
    Quantity {
        value,
        unit: Unit::Count,
    }
}
