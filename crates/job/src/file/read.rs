//! From a file's bytes to a job.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;

use super::FORMAT;
use super::text::{TextError, decode, format_number, parse};
use super::v1::{Cell, FigureFile, JobFile, OverruleFile, PlaceFile, RowFile, UnitName};
use crate::entry::Unit;
use crate::field::{AngleBasis, Field};
use crate::job::{FigureKey, Job, Overrule};
use crate::places::unit_vector;
use crate::read_cell::put;
use crate::read_field::read_field;
use crate::read_overrule::read_overrule;
use crate::row::{Column, Row};

/// Why a file holds no job that can be opened.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// Not a file of ours, or damaged.
    #[error(transparent)]
    Text(#[from] TextError),
    /// A name that this format does not have.
    #[error("The job has no {what} called \u{201c}{name}\u{201d}.")]
    UnknownName {
        /// Field or column.
        what: &'static str,
        /// The name found.
        name: String,
    },
    /// Two rows with one identity.
    #[error("Two rows of the job have the identity {id}.")]
    RowTwice {
        /// The identity.
        id: u32,
    },
    /// A row with an identity that is yet to be given out.
    #[error("A row has the identity {id}, but the next one is {next}.")]
    RowTooLarge {
        /// The row's identity.
        id: u32,
        /// The next one to be given out.
        next: u32,
    },
    /// A place that is no place.
    #[error("Place {number} of row {id} has no usable point or direction.")]
    Place {
        /// The row's identity.
        id: u32,
        /// The place's number.
        number: u32,
    },
    /// A day that is no day.
    #[error("\u{201c}{text}\u{201d} is no day.")]
    Day {
        /// The text found.
        text: String,
    },
    /// An overrule without a reason.
    #[error("An overrule of the job has no reason.")]
    ReasonMissing,
}

impl ReadError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Text(error) => error.hint(),
            _ => "Put it right in a text editor, or take the previous version.",
        }
    }
}

/// Reads a job from a file's bytes; what was typed is read anew, so old text gains from better reading.
///
/// # Errors
/// Where the bytes are no job of a known format; nothing is taken from them then.
pub fn read_job(bytes: &[u8]) -> Result<Job, ReadError> {
    let text = decode(bytes)?;
    let found = format_number(text)?;
    if found > u64::from(FORMAT) {
        return Err(TextError::NewerFormat {
            found,
            newest: FORMAT,
        }
        .into());
    }
    match found {
        1 => job(parse(text)?),
        _ => Err(TextError::UnknownFormat { found }.into()),
    }
}

fn job(file: JobFile) -> Result<Job, ReadError> {
    let JobFile {
        format: _,
        number,
        opened,
        unit: shown_in,
        fields,
        next_row,
        rows,
        overrules,
    } = file;
    let mut job = Job {
        number,
        opened: opened.map(day).transpose()?,
        unit: unit(shown_in),
        next_row,
        ..Job::default()
    };
    let typed = Arc::make_mut(&mut job.fields);
    for (key, Cell(text, unit_name)) in fields {
        let field = *Field::ALL
            .iter()
            .find(|field| field.key() == key)
            .ok_or_else(|| ReadError::UnknownName {
                what: "field",
                name: key.clone(),
            })?;
        let entry = read_field(field, &text, unit(unit_name));
        if !entry.is_empty() {
            typed.insert(field, entry);
        }
    }
    let basis = job.angle_basis();
    let mut seen = BTreeSet::new();
    for row in rows {
        if !seen.insert(row.id) {
            return Err(ReadError::RowTwice { id: row.id });
        }
        if row.id >= next_row {
            return Err(ReadError::RowTooLarge {
                id: row.id,
                next: next_row,
            });
        }
        job.rows.push(Arc::new(self::row(row, basis)?));
    }
    job.overrules = overrules
        .into_iter()
        .map(overrule)
        .collect::<Result<_, _>>()?;
    Ok(job)
}

fn row(file: RowFile, basis: AngleBasis) -> Result<Row, ReadError> {
    let RowFile { id, cells, places } = file;
    let mut row = Row {
        id: RowId(id),
        ..Row::default()
    };
    for (key, Cell(text, unit_name)) in cells {
        let column = *Column::ALL
            .iter()
            .find(|column| column.key() == key)
            .ok_or_else(|| ReadError::UnknownName {
                what: "column",
                name: key.clone(),
            })?;
        put(&mut row, column, &text, unit(unit_name), basis);
    }
    row.places = Arc::new(
        places
            .into_iter()
            .map(|place| self::place(id, &place))
            .collect::<Result<_, _>>()?,
    );
    Ok(row)
}

/// A place whose axis is a unit vector up to rounding; it is taken as it stands, so that what was
/// saved is what is opened.
fn place(id: u32, file: &PlaceFile) -> Result<Place, ReadError> {
    let PlaceFile(number, x, y, z, i, j, k) = *file;
    let axis = [i, j, k];
    let unit_length = unit_vector(axis).is_some_and(|unit| {
        unit.iter()
            .zip(axis)
            .all(|(unit, given)| (unit - given).abs() < 1e-9)
    });
    if !unit_length || ![x, y, z].iter().all(|part| part.is_finite()) {
        return Err(ReadError::Place { id, number });
    }
    Ok(Place {
        number,
        point_mm: [x, y, z],
        axis,
    })
}

fn overrule(file: OverruleFile) -> Result<Overrule, ReadError> {
    let OverruleFile {
        figure,
        value: Cell(text, unit_name),
        reason,
    } = file;
    if reason.trim().is_empty() {
        return Err(ReadError::ReasonMissing);
    }
    let figure = match figure {
        FigureFile::Gap(row) => FigureKey::Gap(RowId(row)),
        FigureFile::Feed(row) => FigureKey::Feed(RowId(row)),
        FigureFile::HoleMinutes(row) => FigureKey::HoleMinutes(RowId(row)),
        FigureFile::Wear(row) => FigureKey::Wear(RowId(row)),
        FigureFile::Electrodes(name) => FigureKey::Electrodes(name),
        FigureFile::MachineHours => FigureKey::MachineHours,
        FigureFile::LaborHours => FigureKey::LaborHours,
        FigureFile::UnitPrice(quantity) => FigureKey::UnitPrice(quantity),
    };
    let value = read_overrule(&figure, &text, unit(unit_name));
    Ok(Overrule {
        figure,
        value,
        reason,
    })
}

fn day(text: String) -> Result<NaiveDate, ReadError> {
    NaiveDate::parse_from_str(&text, "%Y-%m-%d").map_err(|_| ReadError::Day { text })
}

const fn unit(name: UnitName) -> Unit {
    match name {
        UnitName::Mm => Unit::Mm,
        UnitName::Inch => Unit::Inch,
    }
}
