//! Which papers of a job stand, and what the next one replaces.

use std::sync::Arc;

use crate::job::{Issued, Job};
use crate::pinned::number::is_number;
use crate::pinned::paper::Paper;

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
