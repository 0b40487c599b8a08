//! How a figure came about, worked out when asked and never stored.

mod cost;
mod days;
mod held;
mod job;
mod lot;
mod machines;
mod row;

use alloc::vec::Vec;

pub use days::days;
use job::{Job, Worked, overruled};
pub use machines::machines;

use crate::figure::{Figure, Quantity, Working};
use crate::input::JobInput;
use crate::job_figures::JobFigures;
use crate::tables::Tables;

/// The working of a figure: formula, inputs with where each came from, result.
///
/// Formula: the figure's own, by [`Formula`]; what an estimator overruled stands beside the result.
///
/// - `input`, `tables`: what the figures were computed from.
/// - `figures`: the job's figures.
/// - `figure`: which one of them.
///
/// Result: the working, or `None` where the figure has no value yet; working days rest on when the
/// shop works, and [`days`] opens them.
///
/// ```
/// use quillbore_calc::figure::{Figure, Name};
/// use quillbore_calc::hole::Context;
/// use quillbore_calc::working::working;
/// # use quillbore_calc::JobFigures;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let tables = tables();
/// let input = job(vec![through(0.8, 20.0)]);
/// let holes = vec![Context::new(&input, &tables).row_figures(&input.rows[0]).into()];
/// # let figures = JobFigures {
/// #     holes, setups: vec![], lot: None, price: None, findings: vec![], settled: false,
/// # };
/// let opened = working(&input, &tables, &figures, Figure::Wear(input.rows[0].id)).unwrap();
/// let of = |name| opened.inputs.iter().find(|input| input.name == name).unwrap().value.value;
/// // A 0.7 mm tube in tool steel: sqrt(0.4 x 1.2) x 1.1445 for its size x 1.0642 at 20 mm = 0.8439.
/// assert_eq!(of(Name::Depth), 20.0);
/// assert!((of(Name::WearRatio) - 0.8439).abs() < 0.00005);
/// assert!((opened.result.value - 16.878).abs() < 0.0005);
/// ```
///
/// Source: the modules that compute the figures.
#[must_use]
pub fn working(
    input: &JobInput,
    tables: &Tables,
    figures: &JobFigures,
    figure: Figure,
) -> Option<Working> {
    let job = Job {
        input,
        tables,
        figures,
    };
    let Worked {
        formula,
        inputs,
        result,
    } = match figure {
        Figure::Electrode(row)
        | Figure::Gap(row)
        | Figure::Feed(row)
        | Figure::HoleMinutes(row)
        | Figure::Wear(row)
        | Figure::TargetDepth(row)
        | Figure::ReachOne(row)
        | Figure::ElectrodesPerHole(row)
        | Figure::Flush(row)
        | Figure::Push(row) => row::worked(&job, row, figure)?,
        Figure::Clamp(setup) => held::clamp(&job, setup)?,
        Figure::Electrodes(tube) => lot::electrodes(&job, tube)?,
        Figure::AllElectrodes => lot::all_electrodes(&job)?,
        Figure::Setups => lot::setups(&job)?,
        Figure::MachineHours => lot::machine_hours(&job)?,
        Figure::LaborHours => lot::labor_hours(&job)?,
        Figure::NotYetKnown => lot::not_yet_known(&job)?,
        Figure::Cost(line) => cost::line(&job, line)?,
        Figure::LotCost => cost::lot_cost(&job)?,
        Figure::UnitPrice(quantity) => lot::unit_price(&job, quantity)?,
        Figure::LotPrice(quantity) => lot::lot_price(&job, quantity)?,
        Figure::WorkingDays | Figure::Machines => return None,
    };
    let (computed, overruled) = overruled(figures, figure);
    let hours = figures.lot.as_ref().and_then(|lot| match figure {
        Figure::MachineHours => Some(lot.machine_hours),
        Figure::LaborHours => Some(lot.labor_hours),
        _ => None,
    });
    Some(Working {
        figure,
        formula,
        inputs,
        result: Quantity {
            value: computed.unwrap_or(result.value),
            ..result
        },
        overruled,
        low: hours.map(|band| band.p10),
        high: hours.map(|band| band.p90),
        alternatives: match figure {
            Figure::Electrode(row) => job.alternatives(row),
            _ => Vec::new(),
        },
    })
}
