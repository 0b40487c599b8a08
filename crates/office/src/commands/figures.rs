//! `quillbore figures`: every computed figure of a job, as text or as JSON.

use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::results::results_now;

use super::ended::Ended;
use super::words::Words;
use super::{figures_json, figures_text, named};
use crate::failure::Failure;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    job: String,
    json: bool,
    day: NaiveDate,
    shelf: Option<PathBuf>,
    shop: Option<PathBuf>,
}

pub(super) fn read(mut words: Words<'_>, today: NaiveDate) -> Result<Figures, Failure> {
    let (mut job, mut json, mut day) = (None, false, today);
    let (mut shelf, mut shop) = (None, None);
    while let Some(word) = words.take() {
        match word.as_str() {
            "--json" => json = true,
            "--date" => day = words.date("--date")?,
            "--shop" => shop = Some(words.path("--shop")?),
            "--shelf" => shelf = Some(words.path("--shelf")?),
            _ if job.is_none() && !word.starts_with('-') => job = Some(word),
            _ => return Err(Failure::unknown(&word)),
        }
    }
    let job = job.ok_or_else(|| Failure::new("No job is named", "quillbore figures JOB.ron"))?;
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
        figures_json::figures_json(&job, &shop, &results).map_err(|error| {
            Failure::new(
                format!("The figures can't be written: {error}"),
                "report it",
            )
        })?
    } else {
        figures_text::figures_text(&job, &shop, &results)
    };
    writeln!(out, "{text}").map_err(|error| Failure::output(&error))?;
    Ok(if results.stopped() {
        Ended::DoneWithStop
    } else {
        Ended::Done
    })
}
