//! What is said on the command line: how the program is used, and what can't be understood.

use std::ffi::OsStr;
use std::io;
use std::path::Path;

use quillbore_job::Paper;
use quillbore_job::shop::sheet::ShopNote;
use quillbore_paper::BlankForm;

use super::shown;
use crate::commands::Made;
use crate::failure::Failure;

/// How the program is used.
#[must_use]
pub fn usage() -> String {
    "\
Quillbore: quotes and travelers for small deep holes drilled by EDM.

  quillbore [JOB.ron]                  open the window, on the shelf or on that job
  quillbore --samples                  open a window on sample jobs of an invented shop
  quillbore papers JOB.ron --out DIR   write the papers as PDF and print their paths
      [--only traveler,quotation,...] [--sheet a4|letter] [--date YYYY-MM-DD] [--replace]
      [--blank run-record,inspection] [--pages N]
                                       or empty pages of records, to be written on by hand
      [--threading]                    or the list of start holes for wire EDM, as CSV
  quillbore figures JOB.ron            print every computed figure
      [--json] [--date YYYY-MM-DD]
  quillbore intake --holes FILE --material NAME --quantity N --out JOB.ron
      [--thickness \"12 mm\"] [--unit mm|inch] [--customer NAME] [--part NUMBER]
      [--column \"HEAD=WHAT\"]... [--worksheet NAME] [--sizes \"0.5-1.2\"]
      [--callouts \"1,3,5-9\"] [--json] [--date YYYY-MM-DD]
                                       make a job from a hole table (CSV, tab-separated, .xlsx,
                                       .xlsm, .ods), a drawing (.dxf, .pdf) or a solid (.step)
  quillbore issue JOB PAPER            issue a paper of a job on a shelf: quotation, confirmation,
                                       receiving, traveler ...; prints where it is
      [--with JOB,JOB...] [--sheet a4|letter] [--date YYYY-MM-DD] [--adopt]
  quillbore release JOB                issue its traveler, so that the floor may begin
      [--parts N] [--sheet a4|letter] [--date YYYY-MM-DD] [--adopt]
  quillbore shelf make ADDRESS         make a shelf in a database of a server, or bring its tables up
  quillbore shelf copy FROM TO         copy a shelf, folder or server, onto another place; what is
                                       copied is compared, and a second time only the rest is

  JOB            the job's file, or its number on the shelf
  --with         other jobs for the same quotation
  --worksheet    the sheet of a workbook, where several may be the hole table
  --sizes        take only holes of such diameters from a drawing (.dxf) or a solid
  --callouts     take these callouts of a drawing (.pdf), or all; without it they are listed
  --parts        release only so many of the parts that are here
  --adopt        make the folder a shelf, where nobody said yet that it is one
  --shop FILE    the shop's own materials, tubes, machines and rates, with any of them; issue and
                 release take it only where the shelf has no shop of its own
  --shelf PLACE  the folder of jobs, or a server's database (postgresql://user@host/database, the
                 password in PGPASSWORD or the password file); without it the user's own folder
  --version      the version
  --             what follows are names, also those that begin with a dash

A value that begins with a dash is given with an equals sign, as in --part=-A7. Each option is
given once, except --with and --column.

Exit code 0: done; 1: done, but a finding says the job can't be done as it stands, or not
issued, since something in the job is in the way; 2: could not be done, or what was done could
not be written out. The reason is on standard error."
        .to_owned()
}

/// What of the shop's sheet is not used, in one line.
pub(crate) fn not_used(note: &ShopNote, file: Option<&Path>) -> String {
    match file {
        Some(file) => {
            let file = shown::name(file.as_os_str());
            format!("In the shop's data: {note} Correct it in {file}.")
        }
        None => format!("In the shop's data: {note} Correct it on the page of the shop (F7)."),
    }
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

/// How shelves are made and copied.
pub(crate) fn shelf_usage() -> Failure {
    Failure::new(
        "What to do with the shelf is not understood",
        "quillbore shelf make ADDRESS, or quillbore shelf copy FROM TO",
    )
}

/// The job, where it is missing.
pub(crate) const THE_JOB: &str = "The job";

/// The paper, where it is missing.
pub(crate) const THE_PAPER: &str = "The paper";

/// That something is missing that a command needs, which is used like this.
pub(crate) fn missing(what: &str, usage: &str) -> Failure {
    Failure::new(format!("{what} is missing"), usage)
}

/// That the sample jobs are a shelf of their own.
pub(crate) fn samples_alone() -> Failure {
    Failure::new(
        "--samples names the shelf of the sample jobs, and --shelf another one",
        "give one of the two",
    )
}

/// That no job is named whose figures are asked for.
pub(crate) fn no_job_named() -> Failure {
    Failure::new("No job is named", "quillbore figures JOB.ron")
}

/// That a word means nothing where it stands.
pub(crate) fn unknown(word: &OsStr) -> Failure {
    Failure::new(
        format!("{} is not understood here", quoted_name(word)),
        SEE_HELP,
    )
}

/// That a word is empty.
pub(crate) fn empty_word() -> Failure {
    Failure::new("An empty word is given where a name is needed", SEE_HELP)
}

/// That an option is given a second time.
pub(crate) fn twice(option: &str) -> Failure {
    Failure::new(format!("{option} is given twice"), "give it once")
}

/// That an option takes no value.
pub(crate) fn takes_no_value(option: &str) -> Failure {
    Failure::new(format!("{option} takes no value"), "give it alone")
}

/// That what stands behind an option is empty.
pub(crate) fn empty_value(option: &str) -> Failure {
    Failure::new(
        format!("The value of {option} is empty"),
        "give a value, or leave the option out",
    )
}

/// That the value of an option is not text.
pub(crate) fn no_text(option: &str, value: &OsStr) -> Failure {
    Failure::new(
        format!("{} after {option} is not text", quoted_name(value)),
        "give it in UTF-8",
    )
}

/// That nothing stands behind an option, or what looks like the next one.
pub(crate) fn no_value(option: &str, next: Option<&OsStr>) -> Failure {
    let message = format!("{option} has no value");
    match next {
        None => Failure::new(message, SEE_HELP),
        Some(next) => Failure::new(
            message,
            format!(
                "if {} is meant as the value, type {}",
                quoted_name(next),
                quoted(&format!("{option}={}", shown::name(next)))
            ),
        ),
    }
}

/// That a word is not a date.
pub(crate) fn no_day(word: &str) -> Failure {
    Failure::new(
        format!("{} is not a date", quoted(word)),
        "give it as year-month-day, such as 2026-11-25",
    )
}

/// That a word names no paper.
pub(crate) fn no_paper(word: &OsStr) -> Failure {
    let known: Vec<&str> = Paper::ALL.iter().map(|paper| paper.key()).collect();
    Failure::new(
        format!("{} is not a paper", quoted_name(word)),
        format!("there are {}", known.join(", ")),
    )
}

/// That a word names no blank form.
pub(crate) fn no_form(word: &str) -> Failure {
    let known: Vec<&str> = BlankForm::ALL.iter().map(|form| form.key()).collect();
    Failure::new(
        format!("{} is no blank form", quoted(word)),
        format!("there are {}", known.join(", ")),
    )
}

/// That pages are counted of which nobody said what they are.
pub(crate) fn pages_of_nothing() -> Failure {
    Failure::new(
        "--pages counts blank pages, and no blank form is named",
        "name it, as in --blank run-record --pages 2",
    )
}

/// That a word names no sheet.
pub(crate) fn no_sheet(word: &str) -> Failure {
    Failure::new(
        format!("{} is not a sheet size", quoted(word)),
        "--sheet a4 or --sheet letter",
    )
}

/// That a word names no unit.
pub(crate) fn no_unit(word: &str) -> Failure {
    Failure::new(
        format!("{} is not a unit", quoted(word)),
        "--unit mm or --unit inch",
    )
}

/// That a word is no number of parts.
pub(crate) fn no_count(word: &str) -> Failure {
    Failure::new(
        format!("{} is not a number of parts", quoted(word)),
        "give a whole number, as in --parts 12",
    )
}

/// That only a quotation is of several jobs.
pub(crate) fn only_a_quotation() -> Failure {
    Failure::new("Only a quotation can hold several jobs", "leave --with out")
}

/// That a job is named as another one of its own quotation.
pub(crate) fn with_itself(job: &str) -> Failure {
    Failure::new(
        format!("{job} keeps this quotation and can't be on it twice"),
        "name other jobs after --with",
    )
}

/// That standard output can't be written, and what was done all the same.
pub(crate) fn not_written_out(error: &io::Error, made: &Made) -> Failure {
    let why = format!("standard output can't be written: {error}");
    let done = |done: &str| Failure::new(format!("{done}, but {why}"), "look for it here");
    match made {
        Made::Nothing => Failure::new(
            format!("Standard output can't be written: {error}"),
            "check where it goes",
        ),
        Made::Papers(folder) => Failure::new(
            format!("The papers are printed, but {why}"),
            "look for them here",
        )
        .at(folder),
        Made::Job(path) => done("The job is made").at(path),
        Made::Issued(path) => done("The paper is issued").at(path),
    }
}

fn quoted_name(name: &OsStr) -> String {
    quoted(&shown::name(name))
}

fn quoted(word: &str) -> String {
    format!("\u{201c}{word}\u{201d}")
}

/// That parts which were called off before have to be released first.
pub(crate) fn called_off_before(parts: u32) -> Failure {
    Failure::new(
        format!("A call-off of {parts} has no traveler yet and comes before these parts"),
        "release it without --parts, or delete that call-off in the window",
    )
}
