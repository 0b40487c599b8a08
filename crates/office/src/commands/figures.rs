//! `quillbore figures`: every computed figure of a job, as text or as JSON.

mod document;
mod json;
mod text;

use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::results::results_now;

use super::ended::Ended;
use super::line::Words;
use super::named;
use super::say::say;
use crate::failure::Failure;
use crate::words::{commands as words, figures as said};

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    job: String,
    json: bool,
    day: NaiveDate,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

pub(super) fn read(mut line: Words<'_>, today: NaiveDate) -> Result<Figures, Failure> {
    let (mut job, mut json, mut day) = (None, false, today);
    let (mut shelf, mut shop) = (None, None);
    while let Some(word) = line.take() {
        match word.as_str() {
            "--json" => json = true,
            "--date" => day = line.date("--date")?,
            "--shop" => shop = Some(line.path("--shop")?),
            "--shelf" => shelf = Some(line.path("--shelf")?),
            _ if job.is_none() && !word.starts_with('-') => job = Some(word),
            _ => return Err(words::unknown(&word)),
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

pub(super) fn run(asked: &Figures, out: &mut impl std::io::Write) -> Result<Ended, Failure> {
    let (shelf, shop) = (asked.shelf.as_deref(), asked.shop.as_deref());
    let (office, opened) = named::office_with(&asked.job, shelf, shop)?;
    let shop = office.shop_on(asked.day);
    let job = Arc::clone(&opened.base);
    let results = results_now(&job, &shop);
    let text = if asked.json {
        json::figures_json(&job, &shop, &results).map_err(|error| said::not_written(&error))?
    } else {
        text::figures_text(&job, &shop, &results)
    };
    say(out, text)?;
    Ok(if results.stopped() {
        Ended::DoneWithStop
    } else {
        Ended::Done
    })
}
