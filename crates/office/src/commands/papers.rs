//! `quillbore papers`: the papers of a job as PDF files.

use std::ffi::{OsStr, OsString};
use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::life::Blocker;
use quillbore_job::results::results_now;

use super::ended::{Came, Ended, Made};
use super::in_the_way;
use super::line::{Word, Words};
use super::named;
use super::saying::Saying;
use crate::blank::{self, MOST_BLANK_PAGES};
use crate::failure::Failure;
use crate::print::{self, Sitting};
use crate::threading;
use crate::words::{blank as said, commands as words, shown};
use quillbore_job::{Paper, Shop};
use quillbore_paper::BlankForm;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Papers {
    job: OsString,
    out: PathBuf,
    only: Option<Vec<Paper>>,
    blank: Vec<BlankForm>,
    pages: Option<usize>,
    threading: bool,
    sheet: Option<quillbore_paper::Sheet>,
    day: NaiveDate,
    replace: bool,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

pub(super) fn read(mut line: Words<'_>, today: NaiveDate) -> Result<Papers, Failure> {
    let (mut job, mut out, mut shelf, mut shop) = (None, None, None, None);
    let mut only = None;
    let (mut blank, mut pages) = (Vec::new(), None);
    let mut threading = false;
    let mut sheet = None;
    let (mut day, mut replace) = (today, false);
    while let Some(word) = line.take()? {
        match word {
            Word::Option("--out") => out = Some(line.path("--out")?),
            Word::Option("--only") => only = Some(papers(&line.text("--only")?)?),
            Word::Option("--blank") => blank = forms(&line.text("--blank")?)?,
            Word::Option("--pages") => pages = Some(pages_of(&line.text("--pages")?)?),
            Word::Option("--threading") => threading = true,
            Word::Option("--sheet") => sheet = Some(self::sheet(&line.text("--sheet")?)?),
            Word::Option("--date") => day = line.date("--date")?,
            Word::Option("--replace") => replace = true,
            Word::Option("--shop") => shop = Some(line.path("--shop")?),
            Word::Option("--shelf") => shelf = Some(line.path("--shelf")?),
            Word::Name(name) if job.is_none() => job = Some(name.to_owned()),
            _ => return Err(word.unknown()),
        }
    }
    if pages.is_some() && blank.is_empty() {
        return Err(words::pages_of_nothing());
    }
    let missing = |what: &str| words::missing(what, words::USAGE_OF_PAPERS);
    Ok(Papers {
        job: job.ok_or_else(|| missing(words::THE_JOB))?,
        out: out.ok_or_else(|| missing("--out"))?,
        only,
        blank,
        pages,
        threading,
        sheet,
        day,
        replace,
        shelf,
        shop,
    })
}

/// The papers of a list, each once.
fn papers(list: &str) -> Result<Vec<Paper>, Failure> {
    let mut papers = Vec::new();
    for name in list.split(',') {
        let paper = paper(OsStr::new(name.trim()))?;
        if !papers.contains(&paper) {
            papers.push(paper);
        }
    }
    Ok(papers)
}

/// The blank forms of a list, each once.
fn forms(list: &str) -> Result<Vec<BlankForm>, Failure> {
    let mut forms = Vec::new();
    for name in list.split(',') {
        let mut all = BlankForm::ALL.iter().copied();
        let form = all.find(|form| name.trim() == form.key());
        let form = form.ok_or_else(|| words::no_form(name.trim()))?;
        if !forms.contains(&form) {
            forms.push(form);
        }
    }
    Ok(forms)
}

/// How many blank pages are asked for.
fn pages_of(text: &str) -> Result<usize, Failure> {
    let pages = text.parse().ok();
    let pages = pages.filter(|pages| (1..=MOST_BLANK_PAGES).contains(pages));
    pages.ok_or_else(|| said::pages(MOST_BLANK_PAGES))
}

/// The paper of a name.
pub(super) fn paper(name: &OsStr) -> Result<Paper, Failure> {
    let mut papers = Paper::ALL.iter().copied();
    papers
        .find(|paper| name == paper.key())
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

/// The sheet that a shop lays its papers out for.
pub(super) fn sheet_of(shop: &Shop) -> quillbore_paper::Sheet {
    quillbore_paper::Sheet::of(shop.on_letter.unwrap_or(false))
}

/// Writes the papers and says their paths; tells why one of them can't be used as it stands.
pub(super) fn run(asked: &Papers, saying: &mut Saying<'_>) -> Result<Came, Failure> {
    let (shelf, shop) = (asked.shelf.as_deref(), asked.shop.as_deref());
    let (office, opened) = named::office_with(&asked.job, shelf, shop)?;
    saying.tell_not_used(&office.shop(), asked.shop.as_deref());
    let shop = office.shop_as_taught_for(asked.day, Some(&opened.key));
    let job = Arc::clone(&opened.base);
    let shop = shop.for_job(&job);
    let sheet = asked.sheet.unwrap_or_else(|| sheet_of(&shop));
    let results = results_now(&job, &shop);
    let name = opened.key.as_str();
    let sitting = Sitting {
        job: &job,
        results: &results,
    };
    let papers = match &asked.only {
        Some(papers) => papers.clone(),
        // Whoever wants blank forms or a list has the papers.
        None if asked.threading || !asked.blank.is_empty() => Vec::new(),
        None => print::usual(&job),
    };
    let mut printed = print::print(sitting, &shop, asked.day, sheet, &papers)?;
    for form in &asked.blank {
        let (pages, day) = (asked.pages, asked.day);
        printed.push(blank::print(*form, pages, sitting, &shop, day, sheet)?);
    }
    let mut told = Vec::new();
    if asked.threading {
        let threading = threading::list(sitting)?;
        printed.push(threading.printed);
        told = threading.told;
    }
    for path in print::write(&office.disk, &printed, &asked.out, name, asked.replace)? {
        saying.line(shown::name(path.as_os_str()));
    }
    told.iter().for_each(|sentence| saying.tell(sentence));
    let unprintable = printed.iter().flat_map(|paper| &paper.unprintable);
    let unprintable = print::unprintable_said(unprintable);
    unprintable
        .iter()
        .for_each(|sentence| saying.tell(sentence));
    let mut on_sheet: Vec<Blocker> = Vec::new();
    let mut ended = Ended::with_stop(results.stopped() || !unprintable.is_empty());
    for paper in &papers {
        // That an order or parts are awaited is no fault of the job.
        let in_the_way = print::in_the_way(*paper, sitting);
        if in_the_way.iter().all(Blocker::is_waiting) {
            continue;
        }
        ended = Ended::DoneWithStop;
        let why_not = print::why_not(*paper, sitting);
        saying.tell(format_args!("{}: {why_not}", paper.key()));
        on_sheet.extend(in_the_way);
    }
    for form in &asked.blank {
        let in_the_way = blank::in_the_way(sitting);
        let Some(why_not) = blank::why_not(*form, sitting) else {
            continue;
        };
        let is_waiting = |found: &Vec<Blocker>| found.iter().all(Blocker::is_waiting);
        if in_the_way.as_ref().is_some_and(is_waiting) {
            continue;
        }
        ended = Ended::DoneWithStop;
        saying.tell(format_args!("{}: {why_not}", said::form(*form)));
        on_sheet.extend(in_the_way.unwrap_or_default());
    }
    for line in in_the_way::told(&on_sheet, &job, &results, &shop) {
        saying.tell(line);
    }
    Ok(Came {
        ended,
        made: Made::Papers(asked.out.clone()),
    })
}
