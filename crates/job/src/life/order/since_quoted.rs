//! What the sheet says of what was quoted, where that is something else by now.

use super::difference::{Difference, FieldChange, HoleChange};
use crate::job::Job;
use crate::life::changed::{Changed, differing};
use crate::typed::field::Field;
use crate::typed::row::Column;

/// What the quotation is about beside its holes, where that is another than was quoted.
pub(super) fn scope(quoted: &Job, now: &Job) -> Option<Difference> {
    let is_quoted = |field| {
        matches!(
            field,
            Field::Material
                | Field::Condition
                | Field::Hardness
                | Field::Coating
                | Field::Thickness
                | Field::DefaultTolerance
                | Field::LiabilityCap
                | Field::Exclusions
        )
    };
    // What was left open when it was quoted is open no more once it is told: that is no change, but for
    // what binds the shop.
    let is_told = |field, was: &str| {
        was.is_empty() && !matches!(field, Field::LiabilityCap | Field::Exclusions)
    };
    let changed = differing(quoted, now, is_quoted).into_iter();
    let changed = changed.filter_map(|changed| match changed {
        Changed::Field(field, was, is) if !is_told(field, &was) => Some(FieldChange {
            field: field.key().to_owned(),
            was,
            is,
        }),
        _ => None,
    });
    let changed: Vec<FieldChange> = changed.collect();
    (!changed.is_empty()).then_some(Difference::Scope { changed })
}

/// What the drawing says of the holes, where that is another than was quoted.
pub(super) fn holes(quoted: &Job, now: &Job) -> Option<Difference> {
    let changed = differing(quoted, now, |_| false).into_iter();
    let changed = changed.filter_map(|changed| match changed {
        Changed::Cell(mark, column, was, is) if is_of_the_drawing(column) => {
            let column = column.key().to_owned();
            Some(HoleChange::Said {
                mark,
                column,
                was,
                is,
            })
        }
        Changed::NewRow(mark) => Some(HoleChange::New(mark)),
        Changed::RowGone(mark) => Some(HoleChange::Gone(mark)),
        _ => None,
    });
    let changed: Vec<HoleChange> = changed.collect();
    (!changed.is_empty()).then_some(Difference::Holes { changed })
}

/// Whether a column is what was asked for, and neither its name nor how the shop does it.
const fn is_of_the_drawing(column: Column) -> bool {
    match column {
        Column::Count
        | Column::Size
        | Column::Depth
        | Column::End
        | Column::Angle
        | Column::Surface
        | Column::Exit
        | Column::Recess
        | Column::Broken
        | Column::Below
        | Column::Wire
        | Column::LeastExit
        | Column::ToProfile
        | Column::Proved
        | Column::Behind
        | Column::Layers => true,
        Column::Mark
        | Column::Backed
        | Column::CoreTrapped
        | Column::Tried
        | Column::Ends
        | Column::Tube
        | Column::DressEvery
        | Column::Characteristic
        | Column::Zone
        | Column::Note => false,
    }
}
