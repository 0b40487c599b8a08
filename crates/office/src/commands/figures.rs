//! `quillbore figures`: every computed figure of a job, as text or as JSON.

mod document;
mod json;
mod text;

use std::ffi::OsString;
use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::Form;
use quillbore_job::results::foot::foot;
use quillbore_job::results::promise::promise;
use quillbore_job::results::results_now;

use self::json::FiguresJson;
use super::ended::{Came, Ended, Made};
use super::line::{Word, Words};
use super::named;
use super::saying::Saying;
use crate::failure::Failure;
use crate::words::{commands as words, figures as said};

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    job: OsString,
    json: bool,
    day: NaiveDate,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

pub(super) fn read(mut line: Words<'_>, today: NaiveDate) -> Result<Figures, Failure> {
    let (mut job, mut json, mut day) = (None, false, today);
    let (mut shelf, mut shop) = (None, None);
    while let Some(word) = line.take()? {
        match word {
            Word::Option("--json") => json = true,
            Word::Option("--date") => day = line.date("--date")?,
            Word::Option("--shop") => shop = Some(line.path("--shop")?),
            Word::Option("--shelf") => shelf = Some(line.path("--shelf")?),
            Word::Name(name) if job.is_none() => job = Some(name.to_owned()),
            _ => return Err(word.unknown()),
        }
    }
    let job = job.ok_or_else(words::no_job_named)?;
    Ok(Figures {
        job,
        json,
        day,
        shelf,
        shop,
    })
}

pub(super) fn run(asked: &Figures, saying: &mut Saying<'_>) -> Result<Came, Failure> {
    let (shelf, shop) = (asked.shelf.as_deref(), asked.shop.as_deref());
    let (office, opened) = named::office_with(&asked.job, shelf, shop)?;
    saying.tell_not_used(&office.shop(), asked.shop.as_deref());
    let mut shop = office.shop_as_taught_for(asked.day, Some(&opened.key));
    if asked.json {
        // Programs read its sentences too: they don't change with what a shop likes to see.
        shop.form = Form::PLAIN;
    }
    let job = Arc::clone(&opened.base);
    let shop = shop.for_job(&job);
    let results = results_now(&job, &shop);
    // What has no lot promises nothing, and a shelf is long to look through.
    let queue = results.figures.lot.as_ref().map(|_| {
        let queue = office.queue_before(&job, &opened.key, asked.day);
        queue.ok()
    });
    let queue = queue.unwrap_or_default();
    let hours = queue.map_or(0.0, |queue| queue.hours);
    let promise = promise(&job, &results, &shop, hours, asked.day);
    if asked.json {
        let figures = FiguresJson {
            job: &job,
            shop: &shop,
            results: &results,
            promise,
        };
        let written = saying.json(&figures);
        written.map_err(|error| said::not_written(&error))?;
    } else {
        let foot = foot(&job, &results, &shop, promise.as_ref());
        let promised = promise.map(|promise| said::promised(&promise, queue, shop.form));
        text::figures_lines(&job, &shop, &results, promised, &foot, |line| {
            saying.line(line);
        });
    }
    Ok(Came {
        ended: Ended::with_stop(results.stopped()),
        made: Made::Nothing,
    })
}
