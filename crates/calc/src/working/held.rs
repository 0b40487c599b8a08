//! How the clamp of a setup came about.

use super::job::{Job, Worked, plain};
use crate::figure::{Figure, Formula, Input, Name, Origin, Quantity, Unit};
use crate::row_id::RowId;

/// What a clamp must give in a setup, counted from 0.
pub(super) fn clamp(job: &Job<'_>, setup: u32) -> Option<Worked> {
    let setup = job.figures.setups.get(usize::try_from(setup).ok()?)?;
    let held = setup.held?;
    let newtons = |name, value| plain(name, value, Unit::Newton, Origin::Computed);
    Some(Worked {
        formula: Formula::HeldAgainstPush,
        inputs: alloc::vec![
            Input {
                opens: hardest(job, &setup.rows).map(Figure::Push),
                ..newtons(Name::Push, held.push_n)
            },
            plain(
                Name::PartMass,
                job.input.mass_kg?,
                Unit::Kilogram,
                Origin::Typed
            ),
            newtons(Name::StopForce, held.stop_n),
        ],
        result: Quantity {
            value: held.clamp_n,
            unit: Unit::Newton,
        },
    })
}

/// The row of a setup whose holes push hardest.
fn hardest(job: &Job<'_>, rows: &[RowId]) -> Option<RowId> {
    let holes = job.figures.holes.iter();
    let there = holes.filter(|hole| rows.contains(&hole.row));
    let pushes = there.filter_map(|hole| Some((hole.push_n?, hole.row)));
    pushes
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, row)| row)
}
