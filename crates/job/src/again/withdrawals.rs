//! Withdrawals that an undo must not take back without a trace.

use std::sync::Arc;

use crate::job::Job;
use crate::pinned::number::is_number;
use crate::pinned::read_line::read_line;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};
use crate::pinned::slip::pinned::Slip;
use crate::pinned::slip::view::View;
use crate::words::issued::UNDONE;

impl Job {
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
                free_id(&job)
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

/// An identity that no slip has: the next one; where all were given, which no work of hands comes to,
/// one that is free again, since without it the job could not be saved.
fn free_id(job: &Job) -> u32 {
    if job.next_slip < u32::MAX {
        return job.next_slip;
    }
    let free = (0..u32::MAX).find(|id| job.slip(*id).is_none());
    free.unwrap_or(job.next_slip)
}
