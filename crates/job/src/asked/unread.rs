//! What was typed and can't be read, and which figures rest on it: those are not computed, since every
//! value in its place would be one that nobody typed.

use std::collections::BTreeSet;

use quillbore_calc::{Idx, RowId, Tables};

use crate::ground::same_name::same_name;
use crate::job::Job;
use crate::typed::field::Field;
use crate::typed::overrule::{FigureKey, Overrule};
use crate::typed::quantity::LimitsGiven;
use crate::typed::row::{Column, Row};

/// What of a job rows rest on beside their own cells, as far as it can't be read.
pub(super) struct Unread {
    tolerance: bool,
    angle_basis: bool,
    overruled: BTreeSet<RowId>,
}

impl Unread {
    pub(super) fn of(job: &Job) -> Self {
        let unread = |field| job.field(field).why().is_some();
        let overruled = job.overrules.iter().filter(|overrule| is_unread(overrule));
        Self {
            tolerance: unread(Field::DefaultTolerance),
            angle_basis: unread(Field::AngleBasis),
            overruled: overruled.filter_map(|o| o.figure.row()).collect(),
        }
    }

    /// Whether figures of a row rest on something unread: a cell of its own, an overruled figure, or a
    /// line of the sheet that stands in for what the row doesn't say.
    pub(super) fn is_under(&self, row: &Row) -> bool {
        let cells = || {
            let mut columns = Column::ALL.iter();
            columns.any(|column| row.cell(*column).why.is_some() && row_rests_on(row, *column))
        };
        let no_limits = || {
            let size = row.size.value();
            size.is_some_and(|size| size.given == LimitsGiven::None)
        };
        row.is_unread() && cells()
            || self.overruled.contains(&row.id)
            || self.tolerance && no_limits()
            || self.angle_basis && has_bare_angle(row)
    }
}

/// Whether figures of a row rest on one of its cells.
pub(crate) fn row_rests_on(row: &Row, column: Column) -> bool {
    match column {
        Column::Mark | Column::Note => false,
        // Places say how many holes there are.
        Column::Count => row.places.is_empty(),
        _ => true,
    }
}

/// Whether a row is tilted, at entry or exit, by an angle that doesn't say what it is measured from.
pub(crate) fn has_bare_angle(row: &Row) -> bool {
    let is_bare = |text: &str| !text.chars().any(char::is_alphabetic);
    let says_no = |text: &str| {
        let text = text.to_lowercase();
        !text.contains("normal") && !text.contains("surface")
    };
    let angle = row.angle.value();
    let exit = row.exit.value();
    angle.is_some_and(|angle| angle.from_normal.deg() != 0.0) && is_bare(row.angle.text())
        || exit.is_some_and(|exit| exit.tilt_deg.is_some_and(|tilt| tilt != 0.0))
            && says_no(row.exit.text())
}

/// Whether figures or papers rest on a field.
pub(crate) const fn rests_on(field: Field) -> bool {
    // Days that the customer asks for, or that somebody wants to be reminded of.
    !matches!(field, Field::Due | Field::FollowUp)
}

/// Whether the price rests on something unread that is not a row's.
pub(super) fn price_is_unread(job: &Job, tables: &Tables) -> bool {
    // Wall, tolerance and basis of angles are asked row by row; on the others papers alone rest.
    let is_priced = |field: Field| {
        rests_on(field)
            && !matches!(
                field,
                Field::Thickness
                    | Field::DefaultTolerance
                    | Field::AngleBasis
                    | Field::Spares
                    | Field::OutsideDays
                    | Field::LeadDays
                    | Field::ValidDays
            )
    };
    let mut fields = job.fields.iter();
    let mut overrules = job.overrules.iter();
    fields.any(|(field, entry)| entry.why().is_some() && is_priced(*field))
        || overrules.any(|overrule| {
            overrule.figure.row().is_none()
                && (is_unread(overrule) || tube_not_there(&overrule.figure, tables).is_some())
        })
}

/// Whether an overruled figure's value can't be read.
fn is_unread(overrule: &Overrule) -> bool {
    overrule.value.why().is_some()
}

/// The tube that a figure is of, where the shop doesn't have it.
pub(super) fn tube_not_there<'a>(figure: &'a FigureKey, tables: &Tables) -> Option<&'a str> {
    let FigureKey::Electrodes(name) = figure else {
        return None;
    };
    let found = Idx::find(&tables.tubes, |tube| same_name(&tube.name, name));
    found.is_none().then_some(name)
}
