//! A lot's question apart from the caller's names, so that its answer holds for every lot alike.

use alloc::vec::Vec;

use super::{
    Effort, Electrode, Kind, Plan,
    first_fit::needed,
    group::Group,
    hand_out::hand_out,
    lot::{Lot, Named},
    search::search,
};
use crate::stop::Stop;

/// A lot with its question, and what it takes to tell the answer by the caller's names.
pub struct Asked {
    /// What is to be searched.
    pub question: Question,
    named: Named,
}

/// Usable length, holes by reach and consumption, and effort: equal questions have equal answers.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Question {
    lot: Lot,
    effort: Effort,
}

/// The fewest electrodes that were found for a question, and what each drills.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    groups: Vec<Group>,
    at_least: u64,
}

impl Asked {
    /// The question of [`super::electrodes_for_lot`], whose arguments these are.
    #[must_use]
    pub fn new(kinds: &[Kind], electrode: &Electrode, effort: Effort) -> Self {
        let named = Named::new(kinds, electrode);
        Self {
            question: Question {
                lot: named.lot.clone(),
                effort,
            },
            named,
        }
    }

    /// The plan by the caller's names, of what was found for this question or an equal one.
    #[must_use]
    pub fn plan(&self, found: &Found) -> Plan {
        Plan {
            electrodes: hand_out(&self.named.ids, &found.groups),
            needed: found.needed(),
            at_least: found.at_least,
            unplaceable: self.named.unplaceable.clone(),
        }
    }

    /// Holes that no electrode can drill in one go.
    #[must_use]
    pub fn unplaceable(&self) -> u64 {
        let kinds = self.named.unplaceable.iter();
        kinds.map(|kind| u64::from(kind.count)).sum()
    }
}

impl Question {
    /// The same question with another effort.
    #[must_use]
    pub fn with(&self, effort: Effort) -> Self {
        Self {
            effort,
            ..self.clone()
        }
    }

    /// Searches, and asks at each kick and column whether to go on; none where it was stopped.
    #[must_use]
    pub fn answer(&self, stop: Stop<'_>) -> Option<Found> {
        let (groups, at_least) = search(&self.lot, &self.effort, stop)?;
        Some(Found { groups, at_least })
    }
}

impl Found {
    /// New electrodes that the plan takes.
    #[must_use]
    pub fn needed(&self) -> u64 {
        needed(&self.groups)
    }

    /// No plan takes fewer new electrodes than this.
    #[must_use]
    pub const fn at_least(&self) -> u64 {
        self.at_least
    }
}
