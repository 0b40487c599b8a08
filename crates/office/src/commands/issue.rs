//! `quillbore issue` and `quillbore release`: a paper leaves the house without a window, with the
//! same things in its way.

use std::io::Write;
use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::{Edit, Line, Paper, SlipKind, apply};
use quillbore_paper::Sheet;

use super::ended::Ended;
use super::words::Words;
use super::{named, papers};
use crate::failure::Failure;
use crate::issue::{NotIssued, Seen, ToIssue};
use crate::office::read;
use crate::places;
use crate::words::issue as said;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Issue {
    job: String,
    paper: Paper,
    /// The other jobs of a quotation.
    with: Vec<String>,
    /// Parts that are released by themselves.
    parts: Option<u32>,
    sheet: Sheet,
    day: NaiveDate,
    adopt: bool,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

const ISSUE: &str = "quillbore issue JOB PAPER, as in quillbore issue 26-0107 quotation";
const RELEASE: &str = "quillbore release JOB";

pub(super) fn read_issue(words: Words<'_>, today: NaiveDate) -> Result<Issue, Failure> {
    read_words(words, today, None)
}

pub(super) fn read_release(words: Words<'_>, today: NaiveDate) -> Result<Issue, Failure> {
    read_words(words, today, Some(Paper::Traveler))
}

fn read_words(
    mut words: Words<'_>,
    today: NaiveDate,
    mut paper: Option<Paper>,
) -> Result<Issue, Failure> {
    let is_release = paper.is_some();
    let (mut job, mut parts, mut shelf, mut shop) = (None, None, None, None);
    let (mut with, mut sheet, mut day, mut adopt) = (Vec::new(), Sheet::A4, today, false);
    while let Some(word) = words.take() {
        match word.as_str() {
            "--sheet" => sheet = papers::sheet(&words.value("--sheet")?)?,
            "--date" => day = words.date("--date")?,
            "--adopt" => adopt = true,
            "--shelf" => shelf = Some(words.path("--shelf")?),
            "--shop" => shop = Some(words.path("--shop")?),
            "--with" if !is_release => {
                let list = words.value("--with")?;
                with.extend(list.split(',').map(|name| name.trim().to_owned()));
            }
            "--parts" if is_release => parts = Some(count(&words.value("--parts")?)?),
            _ if word.starts_with('-') => return Err(Failure::unknown(&word)),
            _ if job.is_none() => job = Some(word),
            _ if paper.is_none() => paper = Some(papers::paper(&word)?),
            _ => return Err(Failure::unknown(&word)),
        }
    }
    let usage = if is_release { RELEASE } else { ISSUE };
    let missing = |what: &str| Failure::new(format!("{what} is missing"), usage);
    let paper = paper.ok_or_else(|| missing("The paper"))?;
    if !with.is_empty() && paper != Paper::Quotation {
        return Err(Failure::new(
            "Only a quotation can be of several jobs",
            "leave --with out",
        ));
    }
    Ok(Issue {
        job: job.ok_or_else(|| missing("The job"))?,
        paper,
        with,
        parts,
        sheet,
        day,
        adopt,
        shelf,
        shop,
    })
}

fn count(text: &str) -> Result<u32, Failure> {
    let count = text.parse().ok().filter(|count| *count > 0);
    count.ok_or_else(|| {
        Failure::new(
            format!("\u{201c}{text}\u{201d} is no number of parts"),
            "give a whole number, as in --parts 12",
        )
    })
}

/// Issues the paper and writes where it is to `out`; what else is to be known, and what is in the
/// way, to `told`.
pub(super) fn run(
    asked: &Issue,
    out: &mut impl Write,
    told: &mut impl Write,
) -> Result<Ended, Failure> {
    let (shelf, shop) = (asked.shelf.as_deref(), asked.shop.as_deref());
    let (office, opened) = named::office_with(&asked.job, shelf, shop)?;
    if asked.adopt {
        office.shelf.adopt(&places::new_mark()?)?;
    }
    let mut job = Arc::clone(&opened.base);
    if let Some(parts) = asked.parts {
        let edit = Edit::AddSlip {
            kind: SlipKind::Release,
            lines: vec![
                (Line::Date, asked.day.to_string()),
                (Line::Quantity, parts.to_string()),
            ],
            unit: job.unit,
        };
        let (edited, _) = apply(&job, &edit)
            .map_err(|refused| Failure::new(refused.to_string(), refused.hint()))?;
        job = Arc::new(edited);
    }
    let mut others = Vec::new();
    for name in &asked.with {
        let key = crate::names::JobKey::new(name)?;
        let opened = read(&office.shelf, &key)?;
        others.push(Seen {
            job: Arc::clone(&opened.base),
            opened: Some(opened),
        });
    }
    let wanted = ToIssue {
        paper: asked.paper,
        own: Seen {
            job,
            opened: Some(opened),
        },
        others,
        sheet: asked.sheet,
        day: asked.day,
    };
    match office.issue(&wanted) {
        Ok(now) => {
            writeln!(out, "{}", now.place).map_err(|error| Failure::output(&error))?;
            for sentence in &now.told {
                writeln!(told, "{sentence}").map_err(|error| Failure::output(&error))?;
            }
            Ok(Ended::Done)
        }
        Err(NotIssued::InTheWay { of, blockers }) => {
            let sentence = said::in_the_way(of.as_deref(), &blockers);
            writeln!(told, "{sentence}").map_err(|error| Failure::output(&error))?;
            Ok(Ended::DoneWithStop)
        }
        Err(NotIssued::Failed { failure, .. }) => Err(failure),
        Err(not @ NotIssued::SavedMeanwhile { .. }) => Err(Failure::new(
            said::not_issued(&not),
            "do it again, once you have looked",
        )),
    }
}
