//! From a job to a file's text.

use super::format::FORMAT;
use super::parts::{
    Amount, Cell, Cells, Day, Finite, HashFile, Named, PlaceFile, Reason, UnitName,
};
use super::report::ReportFile;
use super::v2::{
    AnswerFile, FigureFile, IssuedFile, IssuedLineFile, JobFile, OverruleFile, RowFile, SealFile,
    SlipFile,
};
use crate::ground::text::written;
use crate::job::{Issued, Job};
use crate::pinned::answer::Answer;
use crate::pinned::slip::pinned::Slip;
use crate::typed::entry::{Entry, Unit};
use crate::typed::overrule::{FigureKey, Overrule};
use crate::typed::row::{Column, Row};

/// A job's file: the same job gives the same text, the format number stands in its first lines, and
/// there is one cell or place a line, so that two versions can be compared.
#[must_use]
pub fn write_job(job: &Job) -> String {
    written(&job_file(job))
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
        answers: job.answers.iter().map(answer_file).collect(),
        next_slip: job.next_slip,
        slips: job.slips.iter().map(|slip| slip_file(slip)).collect(),
        issued: job.issued.iter().map(|paper| issued_file(paper)).collect(),
        reports: job.reports.iter().cloned().map(ReportFile).collect(),
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
            FigureKey::NotYetKnown => FigureFile::NotYetKnown,
            FigureKey::UnitPrice(quantity) => FigureFile::UnitPrice(*quantity),
        },
        value: cell(&overrule.value).unwrap_or(Cell(String::new(), UnitName::Mm)),
        reason: Reason(overrule.reason.clone()),
    }
}

fn answer_file(answer: &Answer) -> AnswerFile {
    AnswerFile {
        row: answer.row.0,
        concern: Named(answer.concern),
        given: answer.facts.given.iter().copied().map(Finite).collect(),
        by_mm: Finite(answer.facts.by),
        how: Named(answer.how),
        said: Reason(answer.said.clone()),
        by: answer.by.clone(),
        date: Day(answer.date),
    }
}

fn slip_file(slip: &Slip) -> SlipFile {
    let lines = slip.lines.iter();
    SlipFile {
        id: slip.id,
        kind: Named(slip.kind),
        lines: Cells(
            lines
                .filter_map(|(line, entry)| Some((*line, cell(entry)?)))
                .collect(),
        ),
    }
}

fn issued_file(issued: &Issued) -> IssuedFile {
    IssuedFile {
        number: issued.number.clone(),
        paper: Named(issued.paper),
        date: Day(issued.date),
        valid_until: issued.valid_until.map(Day),
        file: issued.file.clone(),
        kept_by: issued.kept_by.clone(),
        hash: HashFile(issued.hash),
        seal: issued
            .seal
            .map(|seal| SealFile(seal.version, HashFile(seal.hash))),
        lines: issued
            .lines
            .iter()
            .map(|line| IssuedLineFile {
                job: line.job.clone(),
                part: line.part.clone(),
                revision: line.revision.clone(),
                quantity: line.quantity,
                each: line.each.map(Amount),
            })
            .collect(),
        currency: issued.currency.clone(),
        rests_on: issued
            .rests_on
            .iter()
            .map(|(name, number)| (name.clone(), Finite(*number)))
            .collect(),
        pages: issued.pages.clone(),
        replaces: issued.replaces.clone(),
        inputs: issued.inputs.as_ref().map(|job| Box::new(job_file(job))),
    }
}

const fn unit(unit: Unit) -> UnitName {
    match unit {
        Unit::Mm => UnitName::Mm,
        Unit::Inch => UnitName::Inch,
    }
}
