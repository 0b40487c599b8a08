//! How a figure came about, worked out when asked and never stored.

mod lot;
mod row;

use alloc::vec::Vec;

use crate::figure::{Alternative, Figure, Formula, Input, Name, Origin, Quantity, Unit, Working};
use crate::finding::Kind;
use crate::hole::Context;
use crate::input::{JobInput, RowId};
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
/// Result: the working, or `None` where the figure has no value yet.
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
        | Figure::ElectrodesPerHole(row) => row::worked(&job, row, figure)?,
        Figure::Electrodes(tube) => lot::electrodes(&job, tube)?,
        Figure::Setups => lot::setups(&job)?,
        Figure::MachineHours => lot::machine_hours(&job)?,
        Figure::LaborHours => lot::labor_hours(&job)?,
        Figure::NotYetKnown => lot::not_yet_known(&job)?,
        Figure::LotCost => lot::lot_cost(&job)?,
        Figure::UnitPrice(quantity) => lot::unit_price(&job, quantity)?,
    };
    let (computed, overruled) = job.overruled(figure);
    Some(Working {
        figure,
        formula,
        inputs,
        result: Quantity {
            value: computed.unwrap_or(result.value),
            ..result
        },
        overruled,
        alternatives: match figure {
            Figure::Electrode(row) => job.alternatives(row),
            _ => Vec::new(),
        },
    })
}

/// A job with its figures.
struct Job<'a> {
    input: &'a JobInput,
    tables: &'a Tables,
    figures: &'a JobFigures,
}

/// What a working consists of beside the overrule.
struct Worked {
    formula: Formula,
    inputs: Vec<Input>,
    result: Quantity,
}

impl Job<'_> {
    /// Tubes that a row could be begun with instead.
    fn alternatives(&self, id: RowId) -> Vec<Alternative> {
        let row = self.input.rows.iter().find(|row| row.id == id);
        let context = Context::new(self.input, self.tables);
        row.map_or(Vec::new(), |row| context.alternatives(row))
    }

    /// What was computed and what stands instead, for an overruled figure.
    fn overruled(&self, figure: Figure) -> (Option<f64>, Option<f64>) {
        let of_rows = self.figures.holes.iter().flat_map(|hole| &hole.findings);
        let said = self.figures.findings.iter().chain(of_rows);
        let mut found = said.filter_map(|finding| match finding.kind {
            Kind::Overruled {
                figure: other,
                computed,
                stands,
            } if other == figure => Some((computed, Some(stands))),
            _ => None,
        });
        found.next().unwrap_or((None, None))
    }

    /// Whether a figure was overruled: then that is where it comes from, else from `otherwise`.
    fn origin(&self, figure: Figure, otherwise: Origin) -> Origin {
        if self.overruled(figure).1.is_some() {
            Origin::Overruled
        } else {
            otherwise
        }
    }

    /// An input that is a figure of its own and can be opened.
    fn opened(&self, name: Name, value: f64, unit: Unit, figure: Figure) -> Input {
        Input {
            opens: Some(figure),
            ..plain(name, value, unit, self.origin(figure, Origin::Computed))
        }
    }
}

/// An input that cannot be opened.
fn plain(name: Name, value: f64, unit: Unit, origin: Origin) -> Input {
    Input {
        name,
        value: Quantity { value, unit },
        origin,
        opens: None,
    }
}
