//! What is said of jobs that are opened, saved and merged.

use std::path::Path;

use quillbore_job::file::ReadError;
use quillbore_job::merge::Clash;
use quillbore_job::words::merge as words;
use quillbore_job::{Form, Job};

use crate::failure::Failure;
use crate::names::JobKey;

/// That no desk hears of another one.
pub(crate) const NO_LOCKS: &str = "This disk doesn't support locks, so no desk hears that another one has \
                                   the job open: let one desk work on it at a time.";

/// That there is no job of that name.
pub(crate) fn no_such_job(key: &JobKey, place: &Path) -> Failure {
    Failure::new(
        format!("The file can't be read: there is no job {key}"),
        "look for it on the shelf, or name another",
    )
    .at(place)
}

/// That what has the name of a job is none.
pub(crate) fn no_job(key: &JobKey, why: &ReadError, place: &Path) -> Failure {
    Failure::new(format!("Job {key}: {why}"), why.hint()).at(place)
}

/// That what has the name of a job are the data of a shop.
pub(crate) fn shop_as_job(key: &JobKey, place: &Path) -> Failure {
    Failure::new(
        format!("{key} is no job: it has the data of a shop"),
        "name a job, and the shop's file after --shop",
    )
    .at(place)
}

/// That somebody took a job off the shelf that was open.
pub(crate) fn gone(key: &JobKey) -> Failure {
    Failure::new(
        format!("Job {key} is gone from the shelf"),
        "save it under this or another name as a new job",
    )
}

/// That a file was renamed or copied by hand, so that its name is not the number in it.
pub(crate) fn renamed(key: &str, number: &str, has_papers: bool) -> String {
    let papers = if has_papers {
        "; the issued papers in it are those of the other job"
    } else {
        ""
    };
    format!(
        "The file is called {key}, but the job in it is {number}{papers}: nothing can be issued from \
         it until save as gives it a number of its own."
    )
}

/// That a line of the day's list is done where it stands.
pub(crate) fn done_in_its_place() -> Failure {
    Failure::new(
        "That is no call, and is done in its place",
        "open the job there",
    )
}

/// That a job was saved.
#[must_use]
pub fn saved(place: &str) -> String {
    format!("Saved: {place}")
}

/// That a copy was saved, and which papers stay with the first job.
#[must_use]
pub fn saved_as(place: &str, left_behind: &[String]) -> String {
    if left_behind.is_empty() {
        return saved(place);
    }
    let papers = left_behind.join(", ");
    format!(
        "Saved as a job of its own; {papers} stay with the job that it was copied from: {place}"
    )
}

/// That two desks' work was merged and saved, and what of it is not kept.
#[must_use]
pub fn merged(job: &Job, clashes: &[Clash], form: Form) -> String {
    let met = met(job, clashes, form);
    format!("Saved, merged with the other desk's work; {met}.")
}

/// That two desks' work was merged but could not be saved.
#[must_use]
pub fn merged_unsaved(job: &Job, clashes: &[Clash], why: &str, form: Form) -> String {
    let met = met(job, clashes, form);
    format!("Merged with the other desk's work, but not saved; undo reverses it; {met}. {why}")
}

fn met(job: &Job, clashes: &[Clash], form: Form) -> String {
    let met: Vec<String> = clashes
        .iter()
        .map(|clash| words::clash(job, clash, form))
        .collect();
    match met.as_slice() {
        [] => "nothing was changed by both".to_owned(),
        met => format!("look these over: {}", met.join("; ")),
    }
}

/// How it begins that a shelf's server can't be reached.
pub const NO_SERVER: &str = "The shelf can't be reached at its server";

/// That a job is shown as it was seen last.
pub(crate) const LAST_SEEN: &str = "The shelf's server can't be reached: this is the job as it was seen last at this desk. It can be \
     edited; it is saved, and put together with what others saved meanwhile, once the server is back.";
