//! Papers of jobs: made, and written without ever taking another file's place.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::answer::Answer;
use quillbore_job::life::Blocker;
use quillbore_job::results::{Results, Telling};
use quillbore_job::slip::kind;
use quillbore_job::{Field, Issued, Job, Paper, Shop, SlipKind, inspected, life, order, words};
use quillbore_paper::matter::unprintable::{self, Unprintable};
use quillbore_paper::page::Item;
use quillbore_paper::words::customer::{Words, titled};
use quillbore_paper::{Document, Issuer, Matter, PrintedOn, Remark, Sheet, Sides, pdf};

use crate::disk::Disk;
use crate::failure::Failure;
use crate::files;
use crate::shelf::folder::write_together;
use crate::words::print as said;

/// A job with its results, as papers are made of it.
#[derive(Clone, Copy, Debug)]
pub struct Sitting<'a> {
    /// The job.
    pub job: &'a Job,
    /// What was computed of it.
    pub results: &'a Results,
}

/// What makes a paper valid, or why it isn't.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Stamp<'a> {
    /// Its number, where it is issued.
    pub number: Option<&'a str>,
    /// The last day that it stands.
    pub valid_until: Option<NaiveDate>,
    /// Why it isn't valid yet, where it isn't.
    pub why_not: Option<&'a str>,
}

/// A paper as bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// What its file is called by behind the job's name.
    pub name: &'static str,
    /// What the file's name ends with.
    pub ending: &'static str,
    /// The file.
    pub bytes: Vec<u8>,
    /// What of it can't be printed as it is read; a substitute stands in its place.
    pub unprintable: Vec<Unprintable>,
}

/// The papers that a job has matter for: quotation and traveler always, the others when their time
/// has come.
#[must_use]
pub fn usual(job: &Job) -> Vec<Paper> {
    let has = |kind| job.slips(kind).next().is_some();
    let wanted = |paper: &Paper| match paper {
        Paper::Quotation | Paper::Traveler => true,
        Paper::Confirmation => has(SlipKind::Order),
        Paper::Receiving => has(SlipKind::Received),
        Paper::ToolReceipt => job.has_broken_tool(),
        Paper::Inspection => has(SlipKind::Run) || has(SlipKind::Inspection),
        Paper::FirstArticle => inspected::wants_first_article(job),
        Paper::Certificate | Paper::Packing | Paper::Label => has(SlipKind::Delivery),
    };
    Paper::ALL.iter().copied().filter(wanted).collect()
}

/// What is in the way of issuing a paper, as far as the job alone tells.
#[must_use]
pub fn in_the_way(paper: Paper, sitting: Sitting<'_>) -> Vec<Blocker> {
    life::blockers(paper, sitting.job, &sitting.results.found(), None)
}

/// Why a paper that is printed without being issued isn't valid.
#[must_use]
pub fn why_not(paper: Paper, sitting: Sitting<'_>) -> String {
    words::life::why_not(paper, &in_the_way(paper, sitting))
}

/// The page model of a paper that is not issued, with the reason on every sheet, as it is printed and
/// previewed; and what of it can't be printed as it is read.
#[must_use]
pub fn draft(
    paper: Paper,
    sitting: Sitting<'_>,
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
) -> (Document, Vec<Unprintable>) {
    let language = quillbore_paper::language_of(paper, sitting.job.language());
    let in_the_way = in_the_way(paper, sitting);
    let lead = (Words::of(language).frame.not_issued)(paper, in_the_way.is_empty());
    let why_not = words::life::because(lead, &in_the_way);
    let stamp = Stamp {
        why_not: Some(&why_not),
        ..Stamp::default()
    };
    checked(paper, &[sitting], shop, day, sheet, stamp)
}

/// The page model of a paper, each job by the shop that it goes by; and what of it can't be printed as it is read, field by field.
#[must_use]
pub fn checked(
    paper: Paper,
    sittings: &[Sitting<'_>],
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
    stamp: Stamp<'_>,
) -> (Document, Vec<Unprintable>) {
    laid_out(sittings, shop, day, sheet, stamp, |matters| {
        quillbore_paper::document(paper, matters)
    })
}

/// What is made of the matter of jobs, each by the shop that it goes by; and what of it can't be printed
/// as it is read, field by field.
pub(crate) fn laid_out(
    sittings: &[Sitting<'_>],
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
    stamp: Stamp<'_>,
    lay: impl FnOnce(&[Matter<'_>]) -> Document,
) -> (Document, Vec<Unprintable>) {
    let issuer = issuer(shop);
    let shops: Vec<Cow<'_, Shop>> = sittings
        .iter()
        .map(|sitting| shop.for_job(sitting.job))
        .collect();
    let with_shops = sittings.iter().zip(&shops);
    let remarks = with_shops.map(|(sitting, shop)| remarks(sitting, shop));
    let remarks: Vec<Vec<Remark>> = remarks.collect();
    let answers = sittings.iter().map(|sitting| sitting.results.answers());
    let answers: Vec<Vec<Answer>> = answers.collect();
    let matters: Vec<Matter<'_>> = sittings
        .iter()
        .zip(&shops)
        .zip(remarks.iter().zip(&answers))
        .map(|((sitting, shop), (remarks, answers))| Matter {
            job: sitting.job,
            input: &sitting.results.asked.input,
            figures: &sitting.results.figures,
            tables: &shop.tables,
            unknown: &sitting.results.asked.unknown,
            remarks,
            answers,
            issuer: &issuer,
            language: sitting.job.language(),
            sheet: PrintedOn {
                sheet,
                sides: Sides::of(shop.on_both_sides),
            },
            date: day,
            number: stamp.number,
            valid_until: stamp.valid_until,
            quotation: quotation(sitting.job),
            preview: stamp.why_not,
            annex: true,
        })
        .collect();
    let document = lay(&matters);
    let unprintable = unprintable::of(&document, &matters);
    (document, unprintable)
}

/// The quotation that the newest order answers.
fn quotation(job: &Job) -> Option<&Issued> {
    let order = job.slips_of::<kind::Order>().next_back()?;
    order::quotation_of(job, order)
}

fn issuer(shop: &Shop) -> Issuer {
    Issuer {
        name: shop.name.clone(),
        address: shop.address.clone(),
        identity: shop.identity.clone(),
        form: shop.form,
        sample_rates: shop.has_sample_rates(),
        logo: shop.logo.clone(),
        terms: shop.texts.terms.clone(),
        exclusions: shop.texts.exclusions.clone(),
        cautions: shop.texts.cautions.clone(),
    }
}

fn remarks(sitting: &Sitting<'_>, shop: &Shop) -> Vec<Remark> {
    let telling = Telling::new(sitting.job, shop);
    let notes = sitting.results.notes.iter();
    notes.map(|note| Remark::of(note, &telling)).collect()
}

/// A paper's PDF.
///
/// # Errors
/// Where it can't be made.
pub fn pdf_of(
    paper: Paper,
    document: &Document,
    job: &Job,
    shop: &Shop,
    day: NaiveDate,
) -> Result<Vec<u8>, Failure> {
    let papers = &Words::of(document.language).papers;
    pdf_called((papers.name)(paper), document, job, shop, day)
}

/// The PDF of what is called like this.
pub(crate) fn pdf_called(
    called: &str,
    document: &Document,
    job: &Job,
    shop: &Shop,
    day: NaiveDate,
) -> Result<Vec<u8>, Failure> {
    let title = titled(called, &job.number, job.text(Field::Part));
    let meta = pdf::Meta {
        title: title.trim().to_owned(),
        author: shop.name.clone(),
        date: day,
    };
    pdf::write(document, &meta).map_err(|error| said::no_pdf(called, &error))
}

/// The text of every page, a line for each run of it.
#[must_use]
pub fn texts(document: &Document) -> Vec<String> {
    let text = |item: &Item| match item {
        Item::Text(run) => Some(run.text.clone()),
        Item::Line(_) | Item::Path(_) | Item::Picture(_) | Item::Begin(_) | Item::End => None,
    };
    let page = |items: &[Item]| -> Vec<String> { items.iter().filter_map(text).collect() };
    let pages = document.pages.iter();
    pages.map(|p| page(&p.items).join("\n")).collect()
}

/// What can't be printed as it is read, each field once, as sentences.
#[must_use]
pub fn unprintable_said<'a>(found: impl IntoIterator<Item = &'a Unprintable>) -> Vec<String> {
    let each: BTreeSet<&Unprintable> = found.into_iter().collect();
    each.into_iter().map(Unprintable::sentence).collect()
}

/// Papers of a job as PDF, none of them issued.
///
/// # Errors
/// Where a PDF can't be made.
pub fn print(
    sitting: Sitting<'_>,
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
    papers: &[Paper],
) -> Result<Vec<Printed>, Failure> {
    let one = |paper: &Paper| {
        let (document, unprintable) = draft(*paper, sitting, shop, day, sheet);
        let bytes = pdf_of(*paper, &document, sitting.job, shop, day)?;
        Ok(Printed {
            name: paper.key(),
            ending: "pdf",
            bytes,
            unprintable,
        })
    };
    papers.iter().map(one).collect()
}

/// Writes papers into a folder as `NAME-traveler.pdf` and so on, all of them or none, and gives their
/// paths.
///
/// # Errors
/// Where a file with other bytes stands there and `replace` is not given, where something that is no
/// plain file has a paper's name, or a step fails; nothing is written then. Where what was written
/// can't be taken back either, the sentence says which papers are new.
pub fn write(
    disk: &Arc<dyn Disk>,
    printed: &[Printed],
    folder: &Path,
    name: &str,
    replace: bool,
) -> Result<Vec<PathBuf>, Failure> {
    let mut paths = Vec::new();
    let mut to_write = Vec::new();
    for paper in printed {
        let path = folder.join(file_name(name, paper));
        let most = paper.bytes.len() as u64;
        let there = files::stands(disk.as_ref(), &path, most)?;
        match &there {
            Some(there) if *there == paper.bytes => {}
            Some(_) if !replace => {
                return Err(said::another_stands(&path));
            }
            _ => to_write.push((path.clone(), paper.bytes.as_slice())),
        }
        paths.push(path);
    }
    let is_new = std::fs::symlink_metadata(folder).is_err();
    std::fs::create_dir_all(folder).map_err(|error| said::no_folder(&error, folder))?;
    if let Err(not) = write_together(disk, folder, &to_write) {
        if is_new {
            // Only an empty one goes.
            let _ = std::fs::remove_dir(folder);
        }
        return Err(said::not_together(&not, &paths));
    }
    Ok(paths)
}

/// What the file of a paper or list is called that is made without being issued.
#[must_use]
pub fn file_name(name: &str, paper: &Printed) -> String {
    let name = if name.is_empty() { "job" } else { name };
    format!("{name}-{}.{}", paper.name, paper.ending)
}
