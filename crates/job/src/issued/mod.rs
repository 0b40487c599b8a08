//! Papers that left the house: numbered, dated, known by the hash of their PDF, with what they said
//! and what they rested on, so that nothing that changes later can change them.

mod seal;
mod withdrawal;

pub use seal::{Seal, SealState};

use std::sync::Arc;

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::file::Hash;
use crate::job::Job;
use crate::list::list;
use crate::to_input::same_name;

list! {
    /// A paper of a job, in the order of a job's life.
    pub enum Paper {
        /// The letter of its numbers.
        letter: char,
    }

    /// The quotation.
    Quotation "quotation" 'Q';
    /// The order confirmation.
    Confirmation "confirmation" 'C';
    /// The receiving slip.
    Receiving "receiving" 'R';
    /// The traveler.
    Traveler "traveler" 'T';
    /// The hole inspection record.
    Inspection "inspection" 'H';
    /// The certificate of conformance.
    Certificate "certificate" 'F';
    /// The packing list.
    Packing "packing" 'P';
    /// The box label.
    Label "label" 'B';
}

/// One issued paper: it never changes, and is withdrawn only by a slip that says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Issued {
    /// Its number: the job's, the paper's letter, the revision.
    pub number: String,
    /// Which paper.
    pub paper: Paper,
    /// The day on it.
    pub date: NaiveDate,
    /// The last day that it stands, where it has one.
    pub valid_until: Option<NaiveDate>,
    /// The name of its PDF in the folder of the job that keeps it.
    pub file: String,
    /// The job whose folder keeps the PDF, where that is another one.
    pub kept_by: Option<String>,
    /// What the PDF is known by.
    pub hash: Hash,
    /// What it offers, confirms or lists.
    pub lines: Vec<IssuedLine>,
    /// The rows of the shop that it rests on, as numbers.
    pub rests_on: Vec<(String, f64)>,
    /// Its text, page by page.
    pub pages: Vec<String>,
    /// Numbers of the papers that it takes the place of: they no longer stand.
    pub replaces: Vec<String>,
    /// What had been typed, without slips and issued papers.
    pub inputs: Option<Arc<Job>>,
    /// What shows whether the entry was changed since; papers issued before there were seals have
    /// none.
    pub seal: Option<Seal>,
}

/// One line of prices or parts on an issued paper.
#[derive(Clone, Debug, PartialEq)]
pub struct IssuedLine {
    /// The job that it is about.
    pub job: String,
    /// Part number.
    pub part: String,
    /// Its revision.
    pub revision: String,
    /// How many.
    pub quantity: u32,
    /// Price of one, where the paper has prices.
    pub each: Option<Decimal>,
}

/// Whether what somebody typed means the paper of this number: in capitals or not, with blanks around
/// it or without. Nothing typed means none.
#[must_use]
pub fn is_number(number: &str, typed: &str) -> bool {
    !typed.trim().is_empty() && same_name(number, typed)
}

impl Job {
    /// The issued papers of a kind that still stand, the newest last.
    pub fn standing(&self, paper: Paper) -> impl DoubleEndedIterator<Item = &Issued> {
        self.issued
            .iter()
            .map(Arc::as_ref)
            .filter(move |issued| issued.paper == paper && self.stands(issued))
    }

    /// Whether an issued paper still stands: nobody took it back, and no later one replaced it.
    #[must_use]
    pub fn stands(&self, issued: &Issued) -> bool {
        !self.is_withdrawn(issued) && self.replaced_by(&issued.number).is_none()
    }

    /// The later paper that took the place of the one with a number; it does so for good, also where
    /// it was withdrawn itself.
    #[must_use]
    pub fn replaced_by(&self, number: &str) -> Option<&Issued> {
        let mut papers = self.issued.iter().map(Arc::as_ref);
        papers.find(|issued| issued.replaces.iter().any(|old| is_number(old, number)))
    }

    /// The issued paper that a typed number means.
    #[must_use]
    pub fn issued_as(&self, typed: &str) -> Option<&Issued> {
        let mut papers = self.issued.iter().map(Arc::as_ref);
        papers.find(|issued| is_number(&issued.number, typed))
    }

    /// Numbers of the papers that the next one of a kind takes the place of: a quotation replaces
    /// those that stand; every other paper stands beside the earlier ones.
    #[must_use]
    pub fn to_replace(&self, paper: Paper) -> Vec<String> {
        let standing = self.standing(paper).map(|issued| issued.number.clone());
        standing.filter(|_| paper == Paper::Quotation).collect()
    }

    /// The number that the next paper of a kind gets: revisions run from 1 and are never used again.
    #[must_use]
    pub fn next_paper_number(&self, paper: Paper) -> String {
        let stem = format!("{}-{}", self.number, paper.letter());
        let taken = self
            .issued
            .iter()
            .filter_map(|issued| issued.number.strip_prefix(&stem)?.parse::<u32>().ok());
        format!("{stem}{}", taken.max().unwrap_or(0) + 1)
    }

    /// The job as it is frozen into an issued paper: what was typed on the sheet, without reports of
    /// where it came from.
    #[must_use]
    pub fn inputs(&self) -> Self {
        Self {
            slips: Vec::new(),
            next_slip: 0,
            issued: Vec::new(),
            reports: Vec::new(),
            ..self.clone()
        }
    }
}
