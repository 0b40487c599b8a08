//! From a job to a file's text.

use super::FORMAT;
use super::v1::{
    Cell, Cells, Day, FigureFile, JobFile, OverruleFile, PlaceFile, Reason, RowFile, UnitName,
};
use crate::entry::{Entry, Unit};
use crate::job::{FigureKey, Job, Overrule};
use crate::row::{Column, Row};

/// A job's file: the same job gives the same text, the format number stands in its first lines, and
/// there is one cell or place a line, so that two versions can be compared.
#[must_use]
pub fn write_job(job: &Job) -> String {
    let pretty = ron::ser::PrettyConfig::new()
        .new_line("\n")
        .indentor("  ")
        .extensions(ron::extensions::Extensions::IMPLICIT_SOME);
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    // RON can write whatever a job holds; if it ever couldn't, saving refuses the empty text.
    let written = options.to_string_pretty(&job_file(job), pretty);
    written.map(|text| text + "\n").unwrap_or_default()
}

fn job_file(job: &Job) -> JobFile {
    let fields = job.fields.iter();
    JobFile {
        format: FORMAT,
        number: job.number.clone(),
        opened: job.opened.map(Day),
        unit: unit(job.unit),
        fields: Cells(
            fields
                .filter_map(|(field, entry)| Some((*field, cell(entry)?)))
                .collect(),
        ),
        next_row: job.next_row,
        rows: job.rows.iter().map(|row| row_file(row)).collect(),
        overrules: job.overrules.iter().map(overrule_file).collect(),
    }
}

fn cell<T>(entry: &Entry<T>) -> Option<Cell> {
    Some(Cell(entry.text().to_owned(), unit(entry.unit()?)))
}

fn row_file(row: &Row) -> RowFile {
    let columns = Column::ALL.iter();
    RowFile {
        id: row.id.0,
        cells: Cells(
            columns
                .filter_map(|column| {
                    let look = row.cell(*column);
                    Some((*column, Cell(look.text.to_owned(), unit(look.unit?))))
                })
                .collect(),
        ),
        places: row.places.iter().map(|place| PlaceFile(*place)).collect(),
    }
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
        reason: Reason(overrule.reason.clone()),
    }
}

const fn unit(unit: Unit) -> UnitName {
    match unit {
        Unit::Mm => UnitName::Mm,
        Unit::Inch => UnitName::Inch,
    }
}
