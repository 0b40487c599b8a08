//! A quotation of several jobs: each of them knows of it, one keeps it; what a crash left half done
//! is completed from the keeper's entry.

use std::sync::Arc;

use quillbore_job::results::results_now;
use quillbore_job::{Issued, Job};

use crate::names::JobKey;
use crate::office::{Office, read};
use crate::save::{Opened, save};

/// The entries of the jobs that a paper is about, the keeper's first.
#[must_use]
pub fn entries<'a>(own: &Issued, mut jobs: impl Iterator<Item = &'a Arc<Job>>) -> Vec<Issued> {
    let Some(keeper) = jobs.next() else {
        return Vec::new();
    };
    let others = jobs.map(|job| entry(own, &keeper.number, Some(Arc::new(job.inputs()))));
    std::iter::once(own.clone()).chain(others).collect()
}

/// The entry of a job that another one keeps the paper of.
fn entry(own: &Issued, keeper: &str, inputs: Option<Arc<Job>>) -> Issued {
    // What it rests on and who keeps it are others here: so is its seal.
    Issued {
        kept_by: Some(keeper.to_owned()),
        inputs,
        ..own.clone()
    }
    .sealed()
}

/// Completes the joint quotations that a job keeps and that other jobs of theirs don't know of, and
/// those that `keepers` keep and this one doesn't know of. Whether this job itself was written, and
/// what is to be told.
pub(crate) fn complete(
    office: &Office,
    opened: &Opened,
    keepers: &[JobKey],
) -> (bool, Vec<String>) {
    let mut told = Vec::new();
    for issued in kept(&opened.base) {
        for number in others(issued, &opened.base.number) {
            told.extend(complete_one(office, opened, issued, &number));
        }
    }
    let of_keepers = told.len();
    for keeper in keepers {
        let Ok(keeper) = read(&opened.shelf, keeper) else {
            continue;
        };
        for issued in kept(&keeper.base) {
            if issued
                .lines
                .iter()
                .any(|line| line.job == opened.base.number)
            {
                told.extend(complete_one(office, &keeper, issued, &opened.base.number));
            }
        }
    }
    (told.len() > of_keepers, told)
}

/// The papers that a job keeps, that still stand, and that nobody changed.
fn kept(job: &Job) -> impl Iterator<Item = &Issued> {
    let papers = job.issued.iter().map(Arc::as_ref);
    papers.filter(|issued| issued.kept_by.is_none() && job.stands(issued) && issued.is_trusted())
}

/// The other jobs that a paper has lines of, each once.
fn others(issued: &Issued, own: &str) -> Vec<String> {
    let mut numbers: Vec<String> = Vec::new();
    for line in &issued.lines {
        if line.job != own && !numbers.contains(&line.job) {
            numbers.push(line.job.clone());
        }
    }
    numbers
}

fn complete_one(office: &Office, keeper: &Opened, issued: &Issued, number: &str) -> Option<String> {
    let key = JobKey::new(number).ok()?;
    let other = read(&keeper.shelf, &key).ok()?;
    let knows = |job: &Job| job.issued.iter().any(|there| there.number == issued.number);
    if knows(&other.base) {
        return None;
    }
    // What it was quoted by is frozen only where the sheet still gives those prices.
    let inputs = still_gives(office, &other.base, issued).then(|| Arc::new(other.base.inputs()));
    let frozen = inputs.is_some();
    let mut job = other.base.as_ref().clone();
    job.issued
        .push(Arc::new(entry(issued, &keeper.base.number, inputs)));
    let saved = save(&other.shelf, &key, &Arc::new(job), Some(other.version));
    Some(match saved {
        Ok(_) => crate::words::issue::completed(&issued.number, number, frozen),
        Err(error) => crate::words::issue::not_completed(&issued.number, number, &error),
    })
}

fn still_gives(office: &Office, job: &Job, issued: &Issued) -> bool {
    let shop = office.shop_as_taught(issued.date);
    let results = results_now(job, &shop.for_job(job));
    let now = results.figures.price.iter().flat_map(|price| &price.breaks);
    let now: Vec<_> = now.map(|at| (at.quantity, Some(at.each))).collect();
    let then = issued.lines.iter().filter(|line| line.job == job.number);
    let then: Vec<_> = then.map(|line| (line.quantity, line.each)).collect();
    now == then
}
