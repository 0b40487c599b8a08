//! `quillbore issue` and `quillbore release`: a paper leaves the house without a window, with the
//! same things in its way.

use std::ffi::OsString;
use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::prefilled::release_of;
use quillbore_job::results::results_now;
use quillbore_job::{Form, Job, Paper, apply, order};
use quillbore_paper::Sheet;

use super::ended::{Came, Ended, Made};
use super::in_the_way;
use super::line::{Word, Words};
use super::saying::Saying;
use super::{named, papers};
use crate::failure::Failure;
use crate::issue::{NotIssued, Seen, ToIssue};
use crate::names::JobKey;
use crate::office::shop_lost::shop_file;
use crate::office::{Office, read};
use crate::places;
use crate::words::commands as words;
use crate::words::issue as said;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Issue {
    job: OsString,
    paper: Paper,
    /// The other jobs of a quotation.
    with: Vec<String>,
    /// Parts that are released by themselves.
    parts: Option<u32>,
    sheet: Option<Sheet>,
    day: NaiveDate,
    adopt: bool,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

pub(super) fn read_issue(words: Words<'_>, today: NaiveDate) -> Result<Issue, Failure> {
    read_words(words, today, None)
}

pub(super) fn read_release(words: Words<'_>, today: NaiveDate) -> Result<Issue, Failure> {
    read_words(words, today, Some(Paper::Traveler))
}

fn read_words(
    mut line: Words<'_>,
    today: NaiveDate,
    mut paper: Option<Paper>,
) -> Result<Issue, Failure> {
    let is_release = paper.is_some();
    let (mut job, mut parts, mut shelf, mut shop) = (None, None, None, None);
    let (mut with, mut sheet, mut day, mut adopt) = (Vec::new(), None, today, false);
    while let Some(word) = line.take()? {
        match word {
            Word::Option("--sheet") => sheet = Some(papers::sheet(&line.text("--sheet")?)?),
            Word::Option("--date") => day = line.date("--date")?,
            Word::Option("--adopt") => adopt = true,
            Word::Option("--shelf") => shelf = Some(line.path("--shelf")?),
            Word::Option("--shop") => shop = Some(line.path("--shop")?),
            Word::Option("--with") if !is_release => {
                let list = line.text("--with")?;
                for name in list.split(',').map(str::trim) {
                    // Each once, however often it is named.
                    if !with.iter().any(|other| other == name) {
                        with.push(name.to_owned());
                    }
                }
            }
            Word::Option("--parts") if is_release => parts = Some(count(&line.text("--parts")?)?),
            Word::Name(name) if job.is_none() => job = Some(name.to_owned()),
            Word::Name(name) if paper.is_none() => paper = Some(papers::paper(name)?),
            _ => return Err(word.unknown()),
        }
    }
    let usage = if is_release {
        words::USAGE_OF_RELEASE
    } else {
        words::USAGE_OF_ISSUE
    };
    let missing = |what: &str| words::missing(what, usage);
    let paper = paper.ok_or_else(|| missing(words::THE_PAPER))?;
    if !with.is_empty() && paper != Paper::Quotation {
        return Err(words::only_a_quotation());
    }
    Ok(Issue {
        job: job.ok_or_else(|| missing(words::THE_JOB))?,
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
    count.ok_or_else(|| words::no_count(text))
}

/// Issues the paper and says where it is; tells what else is to be known, and what is in the way.
pub(super) fn run(asked: &Issue, saying: &mut Saying<'_>) -> Result<Came, Failure> {
    let (shelf, shop) = (asked.shelf.as_deref(), asked.shop.as_deref());
    let (office, opened) = named::office_with(&asked.job, shelf, shop)?;
    if office.has_named_shop() {
        if shop_file(office.shelf.as_ref())?.is_some() {
            return Err(said::by_another_shop(&office.shelf.place()));
        }
    } else {
        office.look_at_shop()?;
    }
    saying.tell_not_used(&office.shop(), asked.shop.as_deref());
    if asked.with.iter().any(|name| name == opened.key.as_str()) {
        return Err(words::with_itself(opened.key.as_str()));
    }
    if asked.adopt {
        office.shelf.adopt(&places::new_mark()?)?;
    }
    let job = match asked.parts {
        Some(parts) => Arc::new(with_release(
            &opened.base,
            parts,
            asked.day,
            office.shop().form,
        )?),
        None => Arc::clone(&opened.base),
    };
    let others = asked.with.iter().map(|name| seen(&office, name));
    let others = others.collect::<Result<Vec<Seen>, Failure>>()?;
    let wanted = ToIssue {
        paper: asked.paper,
        own: Seen {
            job,
            opened: Some(opened),
        },
        others,
        sheet: asked
            .sheet
            .unwrap_or_else(|| papers::sheet_of(&office.shop())),
        day: asked.day,
        lessons: office.teaching(asked.day).lessons,
        // A command that can't read them has ended by now.
        without_records: false,
        shop: office.shop_version(),
    };
    match office.issue(&wanted) {
        Ok(now) => {
            saying.line(&now.place);
            now.told.iter().for_each(|sentence| saying.tell(sentence));
            Ok(Came {
                ended: Ended::Done,
                made: Made::Issued(PathBuf::from(now.place)),
            })
        }
        Err(NotIssued::InTheWay { of, blockers }) => {
            saying.tell(said::in_the_way(of.as_deref(), &blockers));
            let all = wanted.others.iter().chain([&wanted.own]);
            let job = |seen: &&Seen| match &of {
                Some(number) => seen.job.number == *number,
                None => Arc::ptr_eq(&seen.job, &wanted.own.job),
            };
            if let Some(seen) = all.into_iter().find(job) {
                let key = seen.opened.as_ref().map(|opened| &opened.key);
                let shop = office.shop_as_taught_for(asked.day, key);
                let shop = shop.for_job(&seen.job);
                let results = results_now(&seen.job, &shop);
                for line in in_the_way::told(&blockers, &seen.job, &results, &shop) {
                    saying.tell(line);
                }
            }
            Ok(Came {
                ended: Ended::DoneWithStop,
                made: Made::Nothing,
            })
        }
        Err(NotIssued::Failed { failure, .. }) => Err(failure),
        Err(
            not @ (NotIssued::SavedMeanwhile { .. }
            | NotIssued::ShopChanged { .. }
            | NotIssued::RecordsRead),
        ) => Err(said::saved_meanwhile(&not)),
    }
}

/// The job with so many parts released by themselves.
fn with_release(job: &Job, parts: u32, day: NaiveDate, form: Form) -> Result<Job, Failure> {
    let edit = release_of(job, parts, day, form);
    let (edited, _) =
        apply(job, &edit).map_err(|refused| Failure::new(refused.to_string(), refused.hint()))?;
    // One that was called off before comes first, and its number would be released in the place of this.
    match order::followed(&edited).quantity {
        Some(first) if first != parts => Err(words::called_off_before(first)),
        _ => Ok(edited),
    }
}

/// Another job of the shelf, as it stands there.
fn seen(office: &Office, name: &str) -> Result<Seen, Failure> {
    let opened = read(&office.shelf, &JobKey::new(name)?)?;
    Ok(Seen {
        job: Arc::clone(&opened.base),
        opened: Some(opened),
    })
}
