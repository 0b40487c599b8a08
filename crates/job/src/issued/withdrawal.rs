//! Papers that no longer stand since somebody took them back, and those that stand again after all.

use std::sync::Arc;

use super::number::is_number;
use crate::job::{Issued, Job};
use crate::read_field::read_line;
use crate::slip::lists::{Line, SlipKind, kind, line};
use crate::slip::pinned::Slip;
use crate::slip::view::View;
use crate::words::issued::UNDONE;

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

    /// The job with the withdrawals of `saved` that are not on its sheet any more, such as after an
    /// undo, each as a slip that says so; `None` where there are none. A withdrawal that others may
    /// have read never goes without a trace.
    #[must_use]
    pub fn with_withdrawals_of(&self, saved: &Self) -> Option<Self> {
        let mut job = self.clone();
        for slip in saved.slips_of::<kind::Withdrawal>() {
            let Some(paper) = self.issued_as(slip.get(line::Paper)) else {
                continue;
            };
            let about = |there: View<'_, kind::Withdrawal>| {
                is_number(&paper.number, there.get(line::Paper))
            };
            if job.slips_of::<kind::Withdrawal>().any(about) {
                continue;
            }
            let mut lines = slip.slip().lines.as_ref().clone();
            let unit = slip.entry(line::Paper).unit().unwrap_or_default();
            lines
                .entry(Line::StandsAgain)
                .or_insert_with(|| read_line(Line::StandsAgain, UNDONE, unit));
            let id = if job.slip(slip.id()).is_none() {
                slip.id()
            } else {
                job.next_slip
            };
            job.next_slip = job.next_slip.max(id.saturating_add(1));
            job.slips.push(Arc::new(Slip {
                id,
                kind: SlipKind::Withdrawal,
                lines: Arc::new(lines),
            }));
        }
        (job.slips.len() > self.slips.len()).then_some(job)
    }
}
