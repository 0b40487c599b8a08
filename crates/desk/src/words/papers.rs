//! What is written at the papers of a job.

use quillbore_job::words::{names, slips};
use quillbore_job::{Field, Paper};
use quillbore_paper::BlankForm;
use quillbore_paper::pdf::PdfError;

/// The head of the block.
pub const HEAD: &str = "Papers";

/// Before the papers that can be laid out.
pub const PREVIEW: &str = "preview";

/// Prints previews.
pub const PRINT_PREVIEWS: &str = "print previews";

/// Before the pages that the floor runs out of.
pub const FOR_THE_FLOOR: &str = "for the floor";

/// An empty page of a record, to be printed and written on.
#[must_use]
pub const fn blank(form: BlankForm) -> &'static str {
    match form {
        BlankForm::RunRecord => "blank run-record page",
        BlankForm::Inspection => "blank inspection page",
    }
}

/// Writes where the start holes lie and which wire goes into each.
pub const THREADING: &str = "threading list (CSV)";

/// Says the lead time that nine lots in ten keep.
#[must_use]
pub fn lead_days(days: u32) -> String {
    format!("say lead time: {days} working days")
}

/// What the quotation says of its terms, by those that are left open.
#[must_use]
pub fn terms(open: &[Field]) -> String {
    match open {
        [] => "It names lead time and validity.".to_owned(),
        open => {
            let open: Vec<&str> = open.iter().map(|field| names::field(*field)).collect();
            format!("It leaves open: {}.", open.join(", "))
        }
    }
}

/// Says how long the quotation stands.
#[must_use]
pub fn valid_days(days: u32) -> String {
    format!("say valid for: {days} days")
}

/// Writes a letter with the paper that stands.
#[must_use]
pub fn mail(number: Option<&str>) -> String {
    number.map_or_else(|| "mail".to_owned(), |number| format!("mail {number}"))
}

/// Why a preview is not sent.
pub const ISSUE_FIRST: &str = "Issue it first: a preview is not sent.";

/// Closes the pages.
pub const CLOSE_PREVIEW: &str = "close preview";

/// The key that closes them.
pub const ESC: &str = "Esc";

/// Before what keeps a paper from being issued.
pub const IN_THE_WAY: &str = "a preview; in the way of issuing it:";

/// How many pages there are.
#[must_use]
pub fn pages(count: usize) -> String {
    match count {
        1 => "1 page".to_owned(),
        count => format!("{count} pages"),
    }
}

/// A page, counted from 1.
#[must_use]
pub fn page(number: usize, of: usize) -> String {
    format!("page {number} of {of}")
}

/// Releases the traveler.
pub const RELEASE_TRAVELER: &str = "release the traveler";

/// That a paper has more pages than one may have, and what to do.
#[must_use]
pub fn too_long() -> String {
    let error = PdfError::TooLong;
    format!("{error}. {}.", error.hint())
}

/// When a paper was issued.
#[must_use]
pub fn of(date: &str) -> String {
    format!("of {date}")
}

/// How long a paper holds.
#[must_use]
pub fn valid_until(date: &str) -> String {
    format!(", valid until {date}")
}

/// The price that a paper names.
#[must_use]
pub fn each_at(each: &str, quantity: &str) -> String {
    format!(", {each} each at {quantity}")
}

/// That a paper was withdrawn.
pub const WITHDRAWN: &str = ", withdrawn";

/// Which paper replaces one.
#[must_use]
pub fn replaced_by(number: &str) -> String {
    format!(", replaced by {number}")
}

/// The word that issues a paper.
#[must_use]
pub fn issue(paper: Paper) -> String {
    match paper {
        Paper::Traveler => RELEASE_TRAVELER.to_owned(),
        _ => format!("issue the {}", slips::paper(paper)),
    }
}

/// The word that issues another paper of a kind that stands.
#[must_use]
pub fn issue_another(paper: Paper) -> String {
    format!("issue another {}", slips::paper(paper))
}

/// The word that issues one quotation of several jobs.
#[must_use]
pub fn issue_together(others: &[String]) -> String {
    format!("issue one together with {}", others.join(", "))
}
