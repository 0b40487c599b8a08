//! What holes are drilled with, as far as a change of it takes time.

use crate::idx::Idx;
use crate::job_figures::HoleFigures;

/// Guide and tube by index, [`u32::MAX`] for none; lengths of one diameter share a guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Tool {
    guide: u32,
    tube: u32,
}

impl Tool {
    pub(super) fn of(figures: &HoleFigures) -> Self {
        Self {
            guide: small(figures.guide),
            tube: small(figures.tube),
        }
    }

    /// Another tube asks for another guide, unless it is another length of the same.
    pub(super) fn changes_guide(self, after: Self) -> bool {
        self.guide != after.guide || (self.guide == u32::MAX && self.tube != after.tube)
    }
}

fn small<T>(which: Option<Idx<T>>) -> u32 {
    which.map_or(u32::MAX, |which| {
        u32::try_from(which.at()).unwrap_or(u32::MAX)
    })
}
