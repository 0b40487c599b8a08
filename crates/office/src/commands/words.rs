//! The words of a command line, one after the other.

use std::path::PathBuf;

use chrono::NaiveDate;

use crate::failure::Failure;

/// What is left of a command line.
#[derive(Clone, Debug)]
pub struct Words<'a> {
    left: std::slice::Iter<'a, String>,
}

impl<'a> Words<'a> {
    /// All of them.
    #[must_use]
    pub fn new(words: &'a [String]) -> Self {
        Self { left: words.iter() }
    }

    /// The next word, left where it is.
    #[must_use]
    pub fn peek(&self) -> Option<&'a str> {
        self.left.as_slice().first().map(String::as_str)
    }

    /// All but the first.
    #[must_use]
    pub fn past_first(mut self) -> Self {
        self.left.next();
        self
    }

    /// The next word.
    pub fn take(&mut self) -> Option<String> {
        self.left.next().cloned()
    }

    /// What stands behind an option.
    pub fn value(&mut self, option: &str) -> Result<String, Failure> {
        self.take().ok_or_else(|| {
            Failure::new(
                format!("{option} stands without its value"),
                "see quillbore --help",
            )
        })
    }

    /// A path behind an option.
    pub fn path(&mut self, option: &str) -> Result<PathBuf, Failure> {
        self.value(option).map(PathBuf::from)
    }

    /// A day behind an option.
    pub fn date(&mut self, option: &str) -> Result<NaiveDate, Failure> {
        let text = self.value(option)?;
        NaiveDate::parse_from_str(&text, "%Y-%m-%d").map_err(|_| {
            Failure::new(
                format!("\u{201c}{text}\u{201d} is no day"),
                "give it as year-month-day, as 2026-11-25",
            )
        })
    }
}

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
