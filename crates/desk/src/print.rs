//! Papers of a job: made, and written without ever taking another file's place.

use std::fs;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use quillbore_job::results::{Beside, Results};
use quillbore_job::{Field, Job, Shop};
use quillbore_paper::{Document, Issuer, Matter, Remark, Sheet, pdf, quotation, traveler};

use crate::commands::Failure;

/// A paper of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// The traveler.
    Traveler,
    /// The quotation.
    Quotation,
}

impl Kind {
    /// Every paper there is.
    pub const ALL: &[Self] = &[Self::Traveler, Self::Quotation];

    /// Its name in commands and in file names.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Traveler => "traveler",
            Self::Quotation => "quotation",
        }
    }
}

/// A paper as bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// Which paper.
    pub kind: Kind,
    /// The PDF.
    pub bytes: Vec<u8>,
}

/// Why a traveler isn't valid yet: no parts are on record as received.
const PREVIEW: &str = "parts not received, not released to the floor";
/// Why a quotation isn't valid yet.
const DRAFT: &str = "draft, not issued";

/// The page model of a paper, as it is printed and previewed.
#[must_use]
pub fn document(
    kind: Kind,
    job: &Job,
    results: &Results,
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
) -> Document {
    let remarks: Vec<Remark> = results
        .notes
        .iter()
        .map(|note| Remark {
            level: note.level,
            code: note.code,
            row: match note.beside {
                Beside::Row(row, _) => Some(row),
                Beside::Field(_) | Beside::Plan | Beside::Price => None,
            },
            text: note.text.clone(),
        })
        .collect();
    let issuer = Issuer {
        name: shop.name.clone(),
        address: shop.address.clone(),
        terms: shop.texts.terms.clone(),
        exclusions: shop.texts.exclusions.clone(),
        cautions: shop.texts.cautions.clone(),
    };
    let matter = Matter {
        job,
        input: &results.asked.input,
        figures: &results.figures,
        tables: &shop.tables,
        remarks: &remarks,
        issuer: &issuer,
        sheet,
        date: day,
        preview: Some(match kind {
            Kind::Traveler => PREVIEW,
            Kind::Quotation => DRAFT,
        }),
        annex: true,
    };
    match kind {
        Kind::Traveler => traveler(&matter),
        Kind::Quotation => quotation(&matter),
    }
}

/// Papers of a job as PDF.
///
/// # Errors
/// Where a PDF can't be made.
pub fn print(
    job: &Job,
    results: &Results,
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
    kinds: &[Kind],
) -> Result<Vec<Printed>, Failure> {
    kinds
        .iter()
        .map(|kind| {
            let document = document(*kind, job, results, shop, day, sheet);
            let title = format!("{} {} {}", kind.key(), job.number, job.text(Field::Part));
            let meta = pdf::Meta {
                title: title.trim().to_owned(),
                author: shop.name.clone(),
                date: day,
            };
            let bytes = pdf::write(&document, &meta)
                .map_err(|error| Failure::new(error.to_string(), error.hint()))?;
            Ok(Printed { kind: *kind, bytes })
        })
        .collect()
}

/// Writes papers into a folder as `NAME-traveler.pdf` and so on, and gives their paths.
///
/// # Errors
/// Where a file with other bytes stands there and `replace` is not given, nothing is written.
pub fn write(
    printed: &[Printed],
    folder: &Path,
    name: &str,
    replace: bool,
) -> Result<Vec<PathBuf>, Failure> {
    let name = if name.is_empty() { "job" } else { name };
    let planned: Vec<(PathBuf, &Printed)> = printed
        .iter()
        .map(|paper| {
            (
                folder.join(format!("{name}-{}.pdf", paper.kind.key())),
                paper,
            )
        })
        .collect();
    let mut to_write = Vec::new();
    for (path, paper) in &planned {
        match fs::read(path) {
            Ok(there) if there == paper.bytes => {}
            Ok(_) if !replace => {
                return Err(Failure::new(
                    "Another paper stands there already and nothing was written",
                    "print into another folder, or say --replace",
                )
                .at(path));
            }
            _ => to_write.push((path, paper)),
        }
    }
    fs::create_dir_all(folder)
        .map_err(|error| Failure::io("The folder can't be made", &error, folder))?;
    for (path, paper) in to_write {
        quillbore_job::file::write_whole(&quillbore_job::file::RealDisk, path, &paper.bytes)
            .map_err(|error| Failure::new(error.to_string(), error.hint()).at(path))?;
    }
    Ok(planned.into_iter().map(|(path, _)| path).collect())
}
