//! Papers that no longer stand since somebody took them back, and those that stand again after all.

use crate::job::{Issued, Job};
use crate::pinned::number::is_number;
use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;

impl Job {
    /// Whether a slip takes an issued paper back, and nobody said on it why the paper stands again.
    #[must_use]
    pub fn is_withdrawn(&self, issued: &Issued) -> bool {
        self.withdrawals()
            .any(|slip| is_number(&issued.number, slip.get(line::Paper)))
    }

    /// The slips that take a paper back, without those on which somebody said why it stands again.
    pub fn withdrawals(&self) -> impl Iterator<Item = View<'_, kind::Withdrawal>> {
        self.slips_of::<kind::Withdrawal>()
            .filter(|slip| slip.get(line::StandsAgain).is_empty())
    }

    /// The paper that a withdrawal slip is about, where it is one of this job's.
    #[must_use]
    pub fn taken_back_by(&self, slip: View<'_, kind::Withdrawal>) -> Option<&Issued> {
        self.issued_as(slip.get(line::Paper))
    }
}
