//! `quillbore figures`: every computed figure of a job, as text or as JSON.

use std::path::PathBuf;

use chrono::NaiveDate;
use quillbore_job::results::results_now;

use super::failure::Failure;
use super::words::Words;
use super::{Ended, figures_json, figures_text};
use crate::files;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    job: PathBuf,
    json: bool,
    day: NaiveDate,
    shop: Option<PathBuf>,
}

pub(super) fn read(mut words: Words<'_>, today: NaiveDate) -> Result<Figures, Failure> {
    let (mut job, mut json, mut day, mut shop) = (None, false, today, None);
    while let Some(word) = words.take() {
        match word.as_str() {
            "--json" => json = true,
            "--date" => day = words.date("--date")?,
            "--shop" => shop = Some(words.path("--shop")?),
            "--shelf" => {
                words.path("--shelf")?;
            }
            _ if job.is_none() && !word.starts_with('-') => job = Some(PathBuf::from(word)),
            _ => return Err(Failure::unknown(&word)),
        }
    }
    let job = job.ok_or_else(|| Failure::new("No job is named", "quillbore figures JOB.ron"))?;
    Ok(Figures {
        job,
        json,
        day,
        shop,
    })
}

pub(super) fn run(asked: &Figures, out: &mut impl std::io::Write) -> Result<Ended, Failure> {
    let shop = files::shop_on(asked.shop.as_deref(), asked.day)?;
    let job = files::open_job(&asked.job)?;
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
