//! `quillbore papers`: the papers of a job as PDF files.

use std::io::Write;
use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::life::Blocker;
use quillbore_job::results::results_now;

use super::ended::Ended;
use super::line::Words;
use super::named;
use super::say::say;
use crate::failure::Failure;
use crate::print::{self, Sitting};
use crate::words::commands as words;
use quillbore_job::Paper;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Papers {
    job: String,
    out: PathBuf,
    only: Option<Vec<Paper>>,
    sheet: quillbore_paper::Sheet,
    day: NaiveDate,
    replace: bool,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

pub(super) fn read(mut line: Words<'_>, today: NaiveDate) -> Result<Papers, Failure> {
    let (mut job, mut out, mut shelf, mut shop) = (None, None, None, None);
    let mut only = None;
    let mut sheet = quillbore_paper::Sheet::A4;
    let (mut day, mut replace) = (today, false);
    while let Some(word) = line.take() {
        match word.as_str() {
            "--out" => out = Some(line.path("--out")?),
            "--only" => only = Some(papers(&line.value("--only")?)?),
            "--sheet" => sheet = self::sheet(&line.value("--sheet")?)?,
            "--date" => day = line.date("--date")?,
            "--replace" => replace = true,
            "--shop" => shop = Some(line.path("--shop")?),
            "--shelf" => shelf = Some(line.path("--shelf")?),
            _ if job.is_none() && !word.starts_with('-') => job = Some(word),
            _ => return Err(words::unknown(&word)),
        }
    }
    let missing = |what: &str| words::missing(what, words::USAGE_OF_PAPERS);
    Ok(Papers {
        job: job.ok_or_else(|| missing(words::THE_JOB))?,
        out: out.ok_or_else(|| missing("--out"))?,
        only,
        sheet,
        day,
        replace,
        shelf,
        shop,
    })
}

fn papers(list: &str) -> Result<Vec<Paper>, Failure> {
    list.split(',').map(|name| paper(name.trim())).collect()
}

/// The paper of a name.
pub(super) fn paper(name: &str) -> Result<Paper, Failure> {
    let mut papers = Paper::ALL.iter().copied();
    papers
        .find(|paper| paper.key() == name)
        .ok_or_else(|| words::no_paper(name))
}

/// The sheet of a name.
pub(super) fn sheet(name: &str) -> Result<quillbore_paper::Sheet, Failure> {
    match name.to_lowercase().as_str() {
        "a4" => Ok(quillbore_paper::Sheet::A4),
        "letter" => Ok(quillbore_paper::Sheet::Letter),
        other => Err(words::no_sheet(other)),
    }
}

/// Writes the papers and their paths to `out`; why one of them can't be used as it stands to `told`.
pub(super) fn run(
    asked: &Papers,
    out: &mut impl Write,
    told: &mut impl Write,
) -> Result<Ended, Failure> {
    let (shelf, shop) = (asked.shelf.as_deref(), asked.shop.as_deref());
    let (office, opened) = named::office_with(&asked.job, shelf, shop)?;
    let shop = office.shop_on(asked.day);
    let job = Arc::clone(&opened.base);
    let results = results_now(&job, &shop);
    let name = opened.key.as_str();
    let sitting = Sitting {
        job: &job,
        results: &results,
    };
    let papers = asked.only.clone().unwrap_or_else(|| print::usual(&job));
    let printed = print::print(sitting, &shop, asked.day, asked.sheet, &papers)?;
    for path in print::write(&office.disk, &printed, &asked.out, name, asked.replace)? {
        say(out, path.display())?;
    }
    let unprintable = printed.iter().flat_map(|paper| &paper.unprintable);
    let unprintable = print::unprintable_said(unprintable);
    for sentence in &unprintable {
        say(told, sentence)?;
    }
    let mut ended = if results.stopped() || !unprintable.is_empty() {
        Ended::DoneWithStop
    } else {
        Ended::Done
    };
    for paper in &papers {
        // That an order or parts are awaited is no fault of the job.
        let in_the_way = print::in_the_way(*paper, sitting);
        if in_the_way.iter().all(Blocker::is_waiting) {
            continue;
        }
        ended = Ended::DoneWithStop;
        let why_not = print::why_not(*paper, sitting);
        say(told, format!("{}: {why_not}", paper.key()))?;
    }
    Ok(ended)
}
