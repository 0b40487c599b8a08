//! What workings are made of.

use alloc::vec::Vec;

use crate::figure::{Alternative, Figure, Formula, Input, Name, Origin, Quantity, Unit};
use crate::finding::Kind;
use crate::hole::Context;
use crate::input::JobInput;
use crate::job_figures::JobFigures;
use crate::row_id::RowId;
use crate::tables::Tables;

/// A job with its figures.
pub(super) struct Job<'a> {
    pub(super) input: &'a JobInput,
    pub(super) tables: &'a Tables,
    pub(super) figures: &'a JobFigures,
}

/// What a working consists of beside the overrule.
pub(super) struct Worked {
    pub(super) formula: Formula,
    pub(super) inputs: Vec<Input>,
    pub(super) result: Quantity,
}

impl Job<'_> {
    /// Tubes that a row could be begun with instead.
    pub(super) fn alternatives(&self, id: RowId) -> Vec<Alternative> {
        let row = self.input.rows.iter().find(|row| row.id == id);
        let context = Context::new(self.input, self.tables);
        row.map_or(Vec::new(), |row| context.alternatives(row))
    }

    /// An input that is a figure of its own and can be opened.
    pub(super) fn opened(&self, name: Name, value: f64, unit: Unit, figure: Figure) -> Input {
        opened(self.figures, name, value, unit, figure)
    }
}

/// What was computed and what stands instead, for an overruled figure.
pub(super) fn overruled(figures: &JobFigures, figure: Figure) -> (Option<f64>, Option<f64>) {
    let of_rows = figures.holes.iter().flat_map(|hole| &hole.findings);
    let said = figures.findings.iter().chain(of_rows);
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

/// An input that is a figure of its own and can be opened; it is computed or overruled.
pub(super) fn opened(
    figures: &JobFigures,
    name: Name,
    value: f64,
    unit: Unit,
    figure: Figure,
) -> Input {
    let origin = if overruled(figures, figure).1.is_some() {
        Origin::Overruled
    } else {
        Origin::Computed
    };
    Input {
        opens: Some(figure),
        ..plain(name, value, unit, origin)
    }
}

/// An input that cannot be opened.
pub(super) fn plain(name: Name, value: f64, unit: Unit, origin: Origin) -> Input {
    Input {
        name,
        value: Quantity { value, unit },
        origin,
        opens: None,
    }
}
