//! The working of the machines: what a job comes to on each of the shop's, and what the chosen one does
//! with nobody at it.

use alloc::vec::Vec;

use rust_decimal::prelude::ToPrimitive as _;

use super::job::plain;
use crate::assemble::quick;
use crate::figure::{Figure, Formula, Input, Name, Origin, Quantity, Unit, Working};
use crate::finding::Level;
use crate::head::{
    Footprint, Holds, Loading, Piece, Run, Table, Unattended, loading, put_clearances,
};
use crate::idx::Idx;
use crate::input::JobInput;
use crate::job_figures::{JobFigures, LotFigures};
use crate::mount::Mount;
use crate::outline;
use crate::tables::{Machine, Tables};

/// What a job comes to on each machine of the shop.
///
/// Formula: [`quick`] with each machine in turn; a machine that comes to a stop has no price, and is told with
/// how many there are. Beside them of the chosen machine: parts on its table at once by [`loading`], the part as
/// it lies in the setup that takes most room, and what it does alone by [`Unattended`], a hand-fed machine
/// with the electrode that is in it.
///
/// - `input`, `tables`: what the figures were computed from.
/// - `figures`: the job's figures on its own machine.
/// - `hours_alone`: hours until somebody comes [h], 0 and up.
///
/// Result: the working, its result the price of one part on the job's machine, else the least there is
/// [currency]; `None` where no machine has a price.
///
/// ```
/// use quillbore_calc::assemble::quick;
/// use quillbore_calc::figure::Name;
/// use quillbore_calc::working::machines;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let tables = tables();
/// let mut input = job(vec![through(0.8, 20.0)]);
/// input.quantity = Some(10);
/// let figures = quick(&input, &tables);
/// let compared = machines(&input, &tables, &figures, 6.0).unwrap();
/// let on = |name| compared.inputs.iter().find(|input| input.name == name).unwrap().value.value;
/// // The job is on the bench head, and that price is the result.
/// assert_eq!(on(Name::OnMachine(BENCH)), compared.result.value);
/// assert!(on(Name::OnMachine(LONG)) > 0.0);
/// ```
///
/// Source: those of its functions.
#[must_use]
pub fn machines(
    input: &JobInput,
    tables: &Tables,
    figures: &JobFigures,
    hours_alone: f64,
) -> Option<Working> {
    let mut inputs = Vec::new();
    let mut prices = Vec::new();
    for machine in Idx::all(&tables.machines) {
        match on_machine(input, tables, machine) {
            Ok(each) => {
                prices.push((machine, each));
                inputs.push(plain(
                    Name::OnMachine(machine),
                    each,
                    Unit::Money,
                    Origin::Computed,
                ));
            }
            Err(stops) => inputs.push(plain(
                Name::StopsOn(machine),
                f64::from(stops),
                Unit::Count,
                Origin::Computed,
            )),
        }
    }
    // The cheapest first, then those that can't.
    let stops = |input: &Input| matches!(input.name, Name::StopsOn(_));
    inputs.sort_by(|a, b| {
        let by_value = || a.value.value.total_cmp(&b.value.value);
        stops(a).cmp(&stops(b)).then_with(by_value)
    });
    let own = input
        .machine
        .and_then(|own| prices.iter().find(|(at, _)| *at == own));
    let least = prices.iter().min_by(|a, b| a.1.total_cmp(&b.1));
    let (_, value) = own.or(least).copied()?;
    inputs.extend(alone(input, tables, figures, hours_alone).unwrap_or_default());
    Some(Working {
        figure: Figure::Machines,
        formula: Formula::MachineByMachine,
        inputs,
        result: Quantity {
            value,
            unit: Unit::Money,
        },
        overruled: None,
        low: None,
        high: None,
        alternatives: Vec::new(),
    })
}

/// Price of one part on a machine, or how many stops it comes to; at least one where there is no price.
fn on_machine(input: &JobInput, tables: &Tables, machine: Idx<Machine>) -> Result<f64, u32> {
    let mut input = JobInput {
        machine: Some(machine),
        ..input.clone()
    };
    put_clearances(&mut input, tables);
    let figures = quick(&input, tables);
    let of_rows = figures.holes.iter().flat_map(|hole| &hole.findings);
    let stops = figures.findings.iter().chain(of_rows);
    let stops = stops.filter(|finding| finding.level == Level::Stop).count();
    let price = figures.price.as_ref().and_then(|price| {
        let offered = price
            .breaks
            .iter()
            .find(|found| Some(found.quantity) == input.quantity)?;
        offered.each.to_f64()
    });
    match price.filter(|_| stops == 0) {
        Some(each) => Ok(each),
        None => Err(u32::try_from(stops).unwrap_or(u32::MAX).max(1)),
    }
}

/// What the chosen machine holds at once, and what it does with nobody at it.
fn alone(
    input: &JobInput,
    tables: &Tables,
    figures: &JobFigures,
    hours_alone: f64,
) -> Option<Vec<Input>> {
    let machine = input.machine?.of(&tables.machines)?;
    let lot = figures.lot.as_ref()?;
    let held = on_table(input, tables, figures, machine)?;
    let count = |name, value: u32| plain(name, f64::from(value), Unit::Count, Origin::Computed);
    let mut inputs = alloc::vec![count(Name::PiecesPerLoading, held.pieces)];
    if let Some(run) = runs_alone(tables, lot, machine, held.pieces, hours_alone) {
        inputs.push(plain(
            Name::HoursAlone,
            run.hours,
            Unit::Hour,
            Origin::Computed,
        ));
        inputs.push(count(Name::PiecesAlone, run.pieces));
    }
    Some(inputs)
}

/// Parts on the machine's table at once, in the setup that takes most room; in a chuck or a fixture at an angle
/// stands one.
fn on_table(
    input: &JobInput,
    tables: &Tables,
    figures: &JobFigures,
    machine: &Machine,
) -> Option<Loading> {
    let size_mm = input.part_mm?;
    let round = outline::of_job(input).and_then(|lies| lies.round);
    let [across, deep, _] = machine.part_mm;
    let table = Table {
        size_mm: [across, deep],
        mass_kg: machine.mass_kg,
    };
    let held = figures.setups.iter().map(|setup| {
        let (Mount::Face { up, .. } | Mount::Upright(up)) = setup.mount else {
            return Some(Loading {
                pieces: 1,
                holds: Holds::Size,
            });
        };
        let upright = (0..3).find(|axis| up[*axis].abs() > 0.5)?;
        let footprint = match round.filter(|round| round.axis == upright) {
            Some(round) => Footprint::Round(2.0 * round.radius_mm),
            None => Footprint::Rectangle([size_mm[(upright + 1) % 3], size_mm[(upright + 2) % 3]]),
        };
        let piece = Piece {
            footprint,
            mass_kg: input.mass_kg,
        };
        loading(&piece, &table, tables.start.part_spacing_mm)
    });
    held.reduce(|one, other| {
        let (one, other) = (one?, other?);
        Some(if other.pieces < one.pieces {
            other
        } else {
            one
        })
    })?
}

fn runs_alone(
    tables: &Tables,
    lot: &LotFigures,
    machine: &Machine,
    pieces: u32,
    hours: f64,
) -> Option<Run> {
    let parts = f64::from(lot.quantity.max(1));
    let of = &lot.machine;
    let alone = of.holes + of.travel + of.index + of.electrode_changes + of.dressing;
    let needed: u32 = lot.electrodes.iter().map(|tube| tube.needed).sum();
    let electrodes = if machine.changer {
        tables.start.changer_holds.max(1.0) as u32
    } else {
        1
    };
    let run = Unattended {
        minutes_per_piece: alone / parts,
        pieces: pieces.min(lot.quantity),
        electrodes_per_piece: f64::from(needed) / parts,
        electrodes,
        hours,
    };
    run.run().filter(|run| run.hours > 0.0)
}
