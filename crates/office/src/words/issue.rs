//! What is said of papers that are issued, or could not be.

use std::path::Path;

use quillbore_job::Paper;
use quillbore_job::life::Blocker;
use quillbore_job::words::{life, slips};

use crate::failure::Failure;
use crate::issue::outcome::{IssuedNow, NotIssued};
use crate::names::JobKey;
use crate::save::SaveError;
use crate::shelf::{CommitError, ShelfError};

/// That nothing keeps another desk out.
pub(crate) const NO_LOCKS: &str = "This disk doesn't support locks: let one desk issue at a time, since nothing keeps another one out.";

/// How it begins that a paper was not issued.
const NOT_ISSUED: &str = "Not issued";

/// That another desk changed the shop while a paper was to be issued.
const SHOP_CHANGED: &str = "Not issued: another desk changed the shop meanwhile, and the figures are reckoned anew. Look at them, then issue it.";

/// That figures went without the shelf's run records.
const RECORDS_READ: &str = "Not issued: these figures were made without the shelf's run records. They are read now, and the figures are reckoned anew: look at them, then issue it.";

/// That the shelf's run records can't be read.
pub(crate) const NO_RECORDS: &str = "Not issued, since these figures were made without the shelf's run records and they can't be read now.";

/// That a paper was issued, and what else is to be known.
#[must_use]
pub fn issued(now: &IssuedNow) -> String {
    let mut said = format!("Issued: {}", now.place);
    for told in &now.told {
        said += ". ";
        said += told.trim_end_matches('.');
    }
    said
}

/// Why a paper was not issued.
#[must_use]
pub fn not_issued(why: &NotIssued) -> String {
    match why {
        NotIssued::InTheWay { of, blockers } => in_the_way(of.as_deref(), blockers),
        NotIssued::SavedMeanwhile { jobs, .. } => {
            let jobs: Vec<&str> = jobs.iter().map(JobKey::as_str).collect();
            let jobs = jobs.join(" and ");
            format!(
                "Not issued: somebody saved {jobs} meanwhile. Look at what they did, then issue it."
            )
        }
        NotIssued::ShopChanged { .. } => SHOP_CHANGED.to_owned(),
        NotIssued::RecordsRead => RECORDS_READ.to_owned(),
        NotIssued::Failed { failure, .. } => {
            let said = failure.to_string();
            match said.starts_with(NOT_ISSUED) {
                true => said,
                false => format!("{NOT_ISSUED}: {said}"),
            }
        }
    }
}

/// That somebody saved a job, or changed the shop, while a command issued a paper.
pub(crate) fn saved_meanwhile(why: &NotIssued) -> Failure {
    Failure::new(not_issued(why), "do it again, once you have looked")
}

/// That a paper was to be issued by another shop than the shelf's own.
pub(crate) fn by_another_shop(shelf: &str) -> Failure {
    Failure::new(
        "Not issued: the shelf has a shop of its own, and papers leave by that one alone",
        "leave --shop out, or type on the shop's page (F7) what has to be another; papers and figures take --shop",
    )
    .at(Path::new(shelf))
}

/// What is in the way of a paper.
#[must_use]
pub fn in_the_way(of: Option<&str>, blockers: &[Blocker]) -> String {
    let said: Vec<String> = blockers.iter().map(life::blocker).collect();
    let said = said.join("; ");
    match of {
        Some(number) => format!("Not issued: in {number} {said}."),
        None => format!("Not issued: {said}."),
    }
}

/// That the disk did not confirm what was issued.
pub(crate) fn not_settled(error: &ShelfError) -> String {
    Failure::from(error.clone()).to_string()
}

/// That a quotation of several jobs is known to the first of them alone.
pub(crate) fn half_done(number: &str, why: &CommitError) -> String {
    format!("Not every job of {number} knows of it yet ({why}): opening them again completes that")
}

/// That a paper lies beside its job without an entry.
pub(crate) fn interrupted(paper: Paper, number: &str, place: &str) -> String {
    format!(
        "Interrupted issue: {} {number} is beside this job, but the job doesn't name it, so it \
         is not valid and its number is not given again. Discard what was printed of it, issue \
         it again, and add \u{201c}paper withdrawn\u{201d} with that number to settle it: {place}",
        slips::paper(paper)
    )
}

/// That a job of a joint quotation knows of it now.
pub(crate) fn completed(number: &str, job: &str, frozen: bool) -> String {
    let sheet = if frozen {
        ""
    } else {
        "; its sheet gives other prices by now, so what it was quoted by is not kept there"
    };
    format!("An interrupted issue was completed: {job} knows of {number} now{sheet}.")
}

/// That a job of a joint quotation still doesn't know of it.
pub(crate) fn not_completed(number: &str, job: &str, why: &SaveError) -> String {
    format!("An interrupted issue is still half done: {job} does not know of {number} ({why}).")
}

/// That there is nothing to issue a paper of.
pub(crate) fn no_job() -> Failure {
    Failure::new("There is no job to issue a paper of", "open one")
}

/// That every number of a paper is taken.
pub(crate) fn no_number_left() -> Failure {
    Failure::new(
        "No number is left for this paper",
        "have a look at the job's folder",
    )
}

/// That another job of a joint quotation is not on a shelf yet.
pub(crate) fn other_unsaved() -> Failure {
    Failure::new(
        "Another job of this quotation is not saved yet",
        "save it first",
    )
}

/// That another job of a joint quotation is another customer's.
pub(crate) fn other_customer(own: &str, other: &str, its: &str) -> Failure {
    let named = |name: &str| match name {
        "" => "nobody by name".to_owned(),
        name => format!("\u{201c}{name}\u{201d}"),
    };
    Failure::new(
        format!(
            "One quotation goes to one customer: this job is for {}, {other} for {}",
            named(own),
            named(its)
        ),
        "quote them apart, or give both the same customer",
    )
}

/// That another job of a joint quotation is quoted in another currency.
pub(crate) fn other_currency(own: &str, other: &str, its: &str) -> Failure {
    Failure::new(
        format!("One quotation has one currency: this job is quoted in {own}, {other} in {its}"),
        "give both the same currency, or quote them apart",
    )
}

/// That a job is not on a shelf.
pub(crate) fn on_no_shelf() -> Failure {
    Failure::new(
        "Nothing is issued from a job that is not on a shelf, since its number could be \
         given twice",
        "open it from its shelf, say yes to making its folder one, or save it onto the shelf",
    )
}

/// That a file's name is not the number of the job in it.
pub(crate) fn other_number(key: &str, number: &str) -> Failure {
    Failure::new(
        format!(
            "The file is called {key}, but the job in it is {number}, so its papers' numbers could \
             be given twice"
        ),
        "save it under its own name with save as",
    )
}

/// That a paper has characters that can't be printed.
pub(crate) fn unprintable(said: &[String]) -> Failure {
    Failure::new(
        format!("Not issued. {}", said.join(" ").trim_end_matches('.')),
        "change those fields, then issue it again",
    )
}
