//! What is said on the command line: how the program is used, and what can't be understood.

use std::io;

use quillbore_job::Paper;

use crate::failure::Failure;

/// How the program is used.
#[must_use]
pub fn usage() -> String {
    "\
Quillbore: quotes and travelers for small deep holes drilled by EDM.

  quillbore [JOB.ron]                  open the window, on the shelf or on that job
  quillbore papers JOB.ron --out DIR   write the papers as PDF and print their paths
      [--only traveler,quotation,...] [--sheet a4|letter] [--date YYYY-MM-DD] [--replace]
  quillbore figures JOB.ron            print every computed figure
      [--json] [--date YYYY-MM-DD]
  quillbore intake --holes FILE --material NAME --quantity N --out JOB.ron
      [--thickness \"12 mm\"] [--unit mm|inch] [--customer NAME] [--part NUMBER]
      [--column \"HEAD=WHAT\"]... [--date YYYY-MM-DD]
                                       make a job from a hole table (CSV, tab-separated)
  quillbore issue JOB PAPER            issue a paper of a job on a shelf: quotation, confirmation,
                                       receiving, traveler ...; prints where it is
      [--with JOB,JOB...] [--sheet a4|letter] [--date YYYY-MM-DD] [--adopt]
  quillbore release JOB                issue its traveler, so that the floor may begin
      [--parts N] [--sheet a4|letter] [--date YYYY-MM-DD] [--adopt]

  JOB            the job's file, or its number on the shelf
  --with         other jobs that stand on the same quotation
  --parts        so many of the parts that are here, by themselves
  --adopt        make the folder a shelf, where nobody said yet that it is one
  --shop FILE    the shop's own materials, tubes, machines and rates, with any of them
  --shelf DIR    the folder of jobs; without it the user's own
  --version      the version

Exit code 0: done; 1: done, but a finding says the job can't be done as it stands, or not
issued, since something in the job is in the way; 2: could not be done. Why stands on standard
error."
        .to_owned()
}

/// The program with its version.
pub(crate) const VERSION: &str = concat!("quillbore ", env!("CARGO_PKG_VERSION"));

/// How it is told what can be said.
pub(crate) const SEE_HELP: &str = "see quillbore --help";

/// How papers are asked for.
pub(crate) const USAGE_OF_PAPERS: &str = "quillbore papers JOB.ron --out DIR";

/// How a paper is issued.
pub(crate) const USAGE_OF_ISSUE: &str =
    "quillbore issue JOB PAPER, as in quillbore issue 26-0107 quotation";

/// How a traveler is released.
pub(crate) const USAGE_OF_RELEASE: &str = "quillbore release JOB";

/// The job, where it is missing.
pub(crate) const THE_JOB: &str = "The job";

/// The paper, where it is missing.
pub(crate) const THE_PAPER: &str = "The paper";

/// That something is missing that a command needs, which is used like this.
pub(crate) fn missing(what: &str, usage: &str) -> Failure {
    Failure::new(format!("{what} is missing"), usage)
}

/// That no job is named whose figures are asked for.
pub(crate) fn no_job_named() -> Failure {
    Failure::new("No job is named", "quillbore figures JOB.ron")
}

/// That a word means nothing where it stands.
pub(crate) fn unknown(word: &str) -> Failure {
    Failure::new(format!("{} means nothing here", quoted(word)), SEE_HELP)
}

/// That nothing stands behind an option.
pub(crate) fn no_value(option: &str) -> Failure {
    Failure::new(format!("{option} stands without its value"), SEE_HELP)
}

/// That a word is no day.
pub(crate) fn no_day(word: &str) -> Failure {
    Failure::new(
        format!("{} is no day", quoted(word)),
        "give it as year-month-day, as 2026-11-25",
    )
}

/// That a word names no paper.
pub(crate) fn no_paper(word: &str) -> Failure {
    let known: Vec<&str> = Paper::ALL.iter().map(|paper| paper.key()).collect();
    Failure::new(
        format!("{} is no paper", quoted(word)),
        format!("there are {}", known.join(", ")),
    )
}

/// That a word names no sheet.
pub(crate) fn no_sheet(word: &str) -> Failure {
    Failure::new(
        format!("{} is no sheet", quoted(word)),
        "--sheet a4 or --sheet letter",
    )
}

/// That a word names no unit.
pub(crate) fn no_unit(word: &str) -> Failure {
    Failure::new(
        format!("{} is no unit", quoted(word)),
        "--unit mm or --unit inch",
    )
}

/// That a word is no number of parts.
pub(crate) fn no_count(word: &str) -> Failure {
    Failure::new(
        format!("{} is no number of parts", quoted(word)),
        "give a whole number, as in --parts 12",
    )
}

/// That only a quotation is of several jobs.
pub(crate) fn only_a_quotation() -> Failure {
    Failure::new(
        "Only a quotation can be of several jobs",
        "leave --with out",
    )
}

/// That standard output can't be written.
pub(crate) fn not_written_out(error: &io::Error) -> Failure {
    Failure::new(
        format!("Standard output can't be written: {error}"),
        "check where it goes",
    )
}

fn quoted(word: &str) -> String {
    format!("\u{201c}{word}\u{201d}")
}
