//! From a file's bytes to a job.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_calc::RowId;

use super::format::FORMAT;
use super::parts::{Amount, Cell, Day, Finite, HashFile, Named, PlaceFile, UnitName};
use super::report::ReportFile;
use super::v2::{
    AnswerFile, FigureFile, IssuedFile, JobFile, OverruleFile, RowFile, SealFile, SlipFile,
};
use crate::ground::text::{TextError, decode, format_number, parse};
use crate::job::{Issued, IssuedLine, Job, Seal};
use crate::pinned::answer::Answer;
use crate::pinned::concern::Facts;
use crate::pinned::read_line::read_line;
use crate::pinned::report::MOST_REPORTS;
use crate::pinned::slip::lists::Line;
use crate::pinned::slip::pinned::Slip;
use crate::typed::entry::Unit;
use crate::typed::field::AngleBasis;
use crate::typed::overrule::{FigureKey, Overrule};
use crate::typed::read_field::read_field;
use crate::typed::read_overrule::read_overrule;
use crate::typed::row::{Row, RowReader};

/// Why a file holds no job that can be opened.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// Not a file of ours, or damaged.
    Text(#[from] TextError),
    /// Two rows with one identity.
    RowTwice {
        /// The identity.
        id: u32,
    },
    /// A row with an identity that is yet to be given out.
    RowTooLarge {
        /// The row's identity.
        id: u32,
        /// The next one to be given out.
        next: u32,
    },
    /// Two places of a row with one number.
    PlaceTwice {
        /// The row's identity.
        row: u32,
        /// The number.
        number: u32,
    },
    /// One figure with two overrules.
    FigureTwice,
    /// One check of a row with two answers.
    AnswerTwice {
        /// The row's identity.
        row: u32,
    },
    /// Two slips with one identity.
    SlipTwice {
        /// The identity.
        id: u32,
    },
    /// A slip with an identity that is yet to be given out.
    SlipTooLarge {
        /// The slip's identity.
        id: u32,
        /// The next one to be given out.
        next: u32,
    },
    /// A slip with a line that its kind doesn't have.
    LineElsewhere {
        /// The slip's identity.
        id: u32,
        /// The line.
        line: Line,
    },
    /// Two issued papers with one number.
    PaperTwice {
        /// The number.
        number: String,
    },
    /// More reports of pasted tables than a job keeps.
    TooManyReports {
        /// How many there are.
        reports: usize,
    },
    /// An issued paper whose inputs hold slips, papers or reports of their own.
    InputsTooDeep {
        /// The paper's number.
        number: String,
    },
}

/// Reads a job from a file's bytes; what was typed is read anew, so old text gains from better reading.
///
/// # Errors
/// Where the bytes are no job of a known format; nothing is taken from them then.
pub fn read_job(bytes: &[u8]) -> Result<Job, ReadError> {
    let text = decode(bytes)?;
    let found = format_number(text)?;
    if found > u64::from(FORMAT) {
        let newest = FORMAT;
        return Err(TextError::NewerFormat { found, newest }.into());
    }
    match found {
        // Format 2 has all names of format 1 with the same meaning: there is nothing to convert.
        1 | 2 => job(parse(text)?),
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
        answers,
        next_slip,
        slips,
        issued,
        reports,
    } = file;
    let mut job = Job {
        number,
        opened: opened.map(|Day(day)| day),
        unit: unit(shown_in),
        next_row,
        next_slip,
        ..Job::default()
    };
    let typed = Arc::make_mut(&mut job.fields);
    for (field, Cell(text, read_in)) in fields.0 {
        let entry = read_field(field, &text, unit(read_in));
        if !entry.is_empty() {
            typed.insert(field, entry);
        }
    }
    let basis = job.angle_basis();
    job.rows = self::rows(rows, next_row, basis)?.into();
    job.overrules = self::overrules(overrules)?.into();
    for answer in answers {
        let answer = self::answer(answer);
        if job.answer(answer.row, answer.concern).is_some() {
            let RowId(row) = answer.row;
            return Err(ReadError::AnswerTwice { row });
        }
        job.answers.push(answer);
    }
    job.slips = self::slips(slips, next_slip)?;
    job.issued = papers(issued)?;
    if reports.len() > MOST_REPORTS {
        return Err(ReadError::TooManyReports {
            reports: reports.len(),
        });
    }
    job.reports
        .extend(reports.into_iter().map(|ReportFile(report)| report));
    Ok(job)
}

fn rows(files: Vec<RowFile>, next_row: u32, basis: AngleBasis) -> Result<Vec<Arc<Row>>, ReadError> {
    let mut seen = BTreeSet::new();
    let mut reader = RowReader::new(basis);
    let read = files.into_iter().map(|file| {
        let id = file.id;
        if !seen.insert(id) {
            return Err(ReadError::RowTwice { id });
        }
        if id >= next_row {
            return Err(ReadError::RowTooLarge { id, next: next_row });
        }
        Ok(Arc::new(row(file, &mut reader)?))
    });
    read.collect()
}

fn overrules(files: Vec<OverruleFile>) -> Result<Vec<Overrule>, ReadError> {
    let mut figures = BTreeSet::new();
    let read = files.into_iter().map(|file| {
        let overrule = overrule(file);
        let is_first = figures.insert(overrule.figure.clone());
        is_first.then_some(overrule).ok_or(ReadError::FigureTwice)
    });
    read.collect()
}

fn slips(files: Vec<SlipFile>, next_slip: u32) -> Result<Vec<Arc<Slip>>, ReadError> {
    let mut seen = BTreeSet::new();
    let read = files.into_iter().map(|file| {
        let id = file.id;
        if !seen.insert(id) {
            return Err(ReadError::SlipTwice { id });
        }
        if id >= next_slip {
            return Err(ReadError::SlipTooLarge {
                id,
                next: next_slip,
            });
        }
        Ok(Arc::new(slip(file)?))
    });
    read.collect()
}

fn papers(files: Vec<IssuedFile>) -> Result<Vec<Arc<Issued>>, ReadError> {
    let mut numbers = BTreeSet::new();
    let read = files.into_iter().map(|file| {
        let paper = issued(file)?;
        if !numbers.insert(paper.number.clone()) {
            return Err(ReadError::PaperTwice {
                number: paper.number,
            });
        }
        Ok(Arc::new(paper))
    });
    read.collect()
}

fn row(file: RowFile, reader: &mut RowReader) -> Result<Row, ReadError> {
    let RowFile { id, cells, places } = file;
    let mut row = Row {
        id: RowId(id),
        ..Row::default()
    };
    for (column, Cell(text, read_in)) in cells.0 {
        reader.put(&mut row, column, &text, unit(read_in));
    }
    let mut numbers = BTreeSet::new();
    for PlaceFile(place) in &places {
        let number = place.number;
        if !numbers.insert(number) {
            return Err(ReadError::PlaceTwice { row: id, number });
        }
    }
    row.places = Arc::new(places.into_iter().map(|PlaceFile(place)| place).collect());
    Ok(row)
}

fn slip(file: SlipFile) -> Result<Slip, ReadError> {
    let SlipFile { id, kind, lines } = file;
    let Named(kind) = kind;
    let mut typed = BTreeMap::new();
    for (line, Cell(text, read_in)) in lines.0 {
        if !kind.lines().contains(&line) {
            return Err(ReadError::LineElsewhere { id, line });
        }
        let entry = read_line(line, &text, unit(read_in));
        if !entry.is_empty() {
            typed.insert(line, entry);
        }
    }
    Ok(Slip {
        id,
        kind,
        lines: Arc::new(typed),
    })
}

fn issued(file: IssuedFile) -> Result<Issued, ReadError> {
    let inputs = match file.inputs {
        // A paper rests on a sheet, never on other papers: no file is deeper than this.
        Some(inputs)
            if !inputs.issued.is_empty()
                || !inputs.slips.is_empty()
                || !inputs.reports.is_empty() =>
        {
            return Err(ReadError::InputsTooDeep {
                number: file.number,
            });
        }
        Some(inputs) => Some(Arc::new(job(*inputs)?)),
        None => None,
    };
    Ok(Issued {
        number: file.number,
        paper: file.paper.0,
        date: file.date.0,
        valid_until: file.valid_until.map(|Day(day)| day),
        file: file.file,
        kept_by: file.kept_by,
        hash: file.hash.0,
        lines: file
            .lines
            .into_iter()
            .map(|line| IssuedLine {
                job: line.job,
                part: line.part,
                revision: line.revision,
                quantity: line.quantity,
                each: line.each.map(|Amount(amount)| amount),
            })
            .collect(),
        currency: file.currency,
        rests_on: file
            .rests_on
            .into_iter()
            .map(|(name, Finite(number))| (name, number))
            .collect(),
        pages: file.pages,
        replaces: file.replaces,
        inputs,
        seal: file
            .seal
            .map(|SealFile(version, HashFile(hash))| Seal { version, hash }),
    })
}

fn overrule(file: OverruleFile) -> Overrule {
    let Cell(text, read_in) = file.value;
    let figure = match file.figure {
        FigureFile::Gap(row) => FigureKey::Gap(RowId(row)),
        FigureFile::Feed(row) => FigureKey::Feed(RowId(row)),
        FigureFile::HoleMinutes(row) => FigureKey::HoleMinutes(RowId(row)),
        FigureFile::Wear(row) => FigureKey::Wear(RowId(row)),
        FigureFile::Electrodes(name) => FigureKey::Electrodes(name),
        FigureFile::MachineHours => FigureKey::MachineHours,
        FigureFile::LaborHours => FigureKey::LaborHours,
        FigureFile::NotYetKnown => FigureKey::NotYetKnown,
        FigureFile::UnitPrice(quantity) => FigureKey::UnitPrice(quantity),
    };
    let value = read_overrule(&figure, &text, unit(read_in));
    Overrule {
        figure,
        value,
        reason: file.reason.0,
    }
}

fn answer(file: AnswerFile) -> Answer {
    Answer {
        row: RowId(file.row),
        concern: file.concern.0,
        facts: Facts {
            given: file.given.into_iter().map(|Finite(mm)| mm).collect(),
            by: file.by_mm.0,
        },
        how: file.how.0,
        said: file.said.0,
        by: file.by,
        date: file.date.0,
    }
}

const fn unit(name: UnitName) -> Unit {
    match name {
        UnitName::Mm => Unit::Mm,
        UnitName::Inch => Unit::Inch,
    }
}
