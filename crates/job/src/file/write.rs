//! From a job to a file's text.

use std::fmt::Write as _;

use quillbore_calc::input::Place;

use super::FORMAT;
use super::v1::{Cell, FigureFile, JobFile, OverruleFile, PlaceFile, RowFile, UnitName};
use crate::entry::{Entry, Unit};
use crate::job::{FigureKey, Job, Overrule};
use crate::row::{Column, Row};

/// A job's file: the same job gives the same text, the format number stands in its first line, and
/// there is one cell or place a line, so that two versions can be compared.
#[must_use]
pub fn write_job(job: &Job) -> String {
    let file = job_file(job);
    let pretty = ron::ser::PrettyConfig::new()
        .indentor("  ")
        .compact_structs(false)
        .depth_limit(6);
    let mut text = String::new();
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    // Strings, whole numbers and finite numbers only: there is nothing that RON can't write.
    if let Err(error) = options.to_writer_pretty(&mut text, &file, pretty) {
        let _ = write!(text, "// {error}");
    }
    text.push('\n');
    text
}

fn job_file(job: &Job) -> JobFile {
    JobFile {
        format: FORMAT,
        number: job.number.clone(),
        opened: job.opened.map(|day| day.format("%Y-%m-%d").to_string()),
        unit: unit(job.unit),
        fields: job
            .fields
            .iter()
            .filter_map(|(field, entry)| Some((field.key().to_owned(), cell(entry)?)))
            .collect(),
        next_row: job.next_row,
        rows: job.rows.iter().map(|row| row_file(row)).collect(),
        overrules: job.overrules.iter().map(overrule_file).collect(),
    }
}

fn cell<T>(entry: &Entry<T>) -> Option<Cell> {
    Some(Cell(entry.text().to_owned(), unit(entry.unit()?)))
}

fn row_file(row: &Row) -> RowFile {
    RowFile {
        id: row.id.0,
        cells: Column::ALL
            .iter()
            .filter_map(|column| {
                let look = row.cell(*column);
                Some((
                    column.key().to_owned(),
                    Cell(look.text.to_owned(), unit(look.unit?)),
                ))
            })
            .collect(),
        places: row.places.iter().map(place_file).collect(),
    }
}

fn place_file(place: &Place) -> PlaceFile {
    let Place {
        number,
        point_mm: [x, y, z],
        axis: [i, j, k],
    } = *place;
    PlaceFile(number, x, y, z, i, j, k)
}

fn overrule_file(overrule: &Overrule) -> OverruleFile {
    OverruleFile {
        figure: match &overrule.figure {
            FigureKey::Gap(row) => FigureFile::Gap(row.0),
            FigureKey::Feed(row) => FigureFile::Feed(row.0),
            FigureKey::HoleMinutes(row) => FigureFile::HoleMinutes(row.0),
            FigureKey::Wear(row) => FigureFile::Wear(row.0),
            FigureKey::Electrodes(name) => FigureFile::Electrodes(name.clone()),
            FigureKey::MachineHours => FigureFile::MachineHours,
            FigureKey::LaborHours => FigureFile::LaborHours,
            FigureKey::UnitPrice(quantity) => FigureFile::UnitPrice(*quantity),
        },
        value: cell(&overrule.value).unwrap_or(Cell(String::new(), UnitName::Mm)),
        reason: overrule.reason.clone(),
    }
}

const fn unit(unit: Unit) -> UnitName {
    match unit {
        Unit::Mm => UnitName::Mm,
        Unit::Inch => UnitName::Inch,
    }
}
