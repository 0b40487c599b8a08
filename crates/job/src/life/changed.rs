//! What differs between two sheets.

use std::collections::BTreeMap;

use quillbore_calc::RowId;

use crate::job::Job;
use crate::pinned::concern::Concern;
use crate::typed::entry::Unit;
use crate::typed::field::Field;
use crate::typed::overrule::FigureKey;
use crate::typed::row::{Column, Row};

/// Something on the sheet that differs from the job before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Changed {
    /// A field: before and now.
    Field(Field, String, String),
    /// A cell of a row by its mark: before and now.
    Cell(String, Column, String, String),
    /// A row that is new, by its mark.
    NewRow(String),
    /// A row that is gone, by its mark.
    RowGone(String),
    /// The places of a row moved or changed in number.
    Places(String),
    /// An overruled figure, with the mark where it is of a row: before and now, empty where it is as
    /// computed.
    Overrule(FigureKey, String, String, String),
    /// The answer to a check of a row by its mark.
    Answer(String, Concern),
}

/// What differs between two sheets, in the sheet's order; of fields, those that are `wanted`.
pub(crate) fn differing(old: &Job, new: &Job, wanted: impl Fn(Field) -> bool) -> Vec<Changed> {
    let mut found = Vec::new();
    for &field in Field::ALL {
        let (was, is) = (old.field(field), new.field(field));
        let alike = was.value() == is.value();
        let differs = was_and_is((was.text(), was.unit()), (is.text(), is.unit()), alike);
        if let Some((was, is)) = differs.filter(|_| wanted(field)) {
            found.push(Changed::Field(field, was, is));
        }
    }
    let (before, now) = (by_id(old), by_id(new));
    for row in &new.rows {
        let mark = row.mark.text().trim().to_owned();
        let Some(was) = before.get(&row.id) else {
            found.push(Changed::NewRow(mark));
            continue;
        };
        for &column in Column::ALL {
            let alike = was.reads_alike(row, column);
            let (was, is) = (was.cell(column), row.cell(column));
            if let Some((was, is)) = was_and_is((was.text, was.unit), (is.text, is.unit), alike) {
                found.push(Changed::Cell(mark.clone(), column, was, is));
            }
        }
        if was.places != row.places {
            found.push(Changed::Places(mark));
        }
    }
    for row in &old.rows {
        if !now.contains_key(&row.id) {
            found.push(Changed::RowGone(row.mark.text().trim().to_owned()));
        }
    }
    found
}

fn by_id(job: &Job) -> BTreeMap<RowId, &Row> {
    job.rows.iter().map(|row| (row.id, row.as_ref())).collect()
}

/// What was typed then and now, where that differs; the same text meant in another unit differs where
/// it isn't read `alike`.
fn was_and_is(
    (was, was_in): (&str, Option<Unit>),
    (is, is_in): (&str, Option<Unit>),
    alike: bool,
) -> Option<(String, String)> {
    let (was, is) = (was.trim(), is.trim());
    if was != is {
        return Some((was.to_owned(), is.to_owned()));
    }
    if alike || was_in == is_in {
        return None;
    }
    let with = |unit: Option<Unit>| {
        let sign = unit.map_or("", Unit::symbol);
        format!("{was} {sign}")
    };
    Some((with(was_in), with(is_in)))
}
