//! What packing is asked of a tube for a lot: first with little effort, then to the end.

use super::demand::Demand;
use crate::packing::{Effort, Electrode, Packed, PackingAsked, PackingQuestion, Plan};

/// A packing of one tube's ends: what is asked, and how its answer is told.
pub(super) struct Packing {
    asked: PackingAsked,
    /// With little effort, so that there is a plan at once.
    pub(super) first: PackingQuestion,
    /// Shared electrodes that no plan goes below, found without a search.
    pub(super) bound: u64,
}

/// Up to so many kinds get the whole effort; the more there are, the less each costs.
const WHOLE_EFFORT_KINDS: u32 = 60;

/// A first plan takes so small a part of the whole effort.
const FIRST_PART: u32 = 20;

impl Packing {
    /// What a lot asks; a kit needs no proof that it is the smallest.
    pub(super) fn new(demand: &Demand, usable_mm: f64, parts: u32, kit: bool) -> Self {
        let kinds = demand.in_lot(parts);
        let whole = effort(kinds.len(), kit);
        let first = Effort {
            kicks: whole.kicks / FIRST_PART,
            columns: whole.columns / FIRST_PART,
            seed: whole.seed,
        };
        let asked = PackingAsked::new(&kinds, &Electrode::new(usable_mm), whole);
        Self {
            first: asked.question.with(first),
            bound: demand.at_least(usable_mm, parts),
            asked,
        }
    }

    /// The question with the whole effort.
    pub(super) const fn settled(&self) -> &PackingQuestion {
        &self.asked.question
    }

    /// Shared electrodes that were found; what fits on no electrode spoils one each, its row carries the
    /// finding.
    pub(super) fn shared(&self, found: &Packed) -> u64 {
        found.needed() + self.asked.unplaceable()
    }

    /// Shared electrodes that no plan goes below, by what was found.
    pub(super) fn at_least(&self, found: &Packed) -> u64 {
        found.at_least() + self.asked.unplaceable()
    }

    /// What is drilled on which electrode, by the kinds of the demand.
    pub(super) fn plan(&self, found: &Packed) -> Plan {
        self.asked.plan(found)
    }
}

/// Effort by the number of kinds, so that the time does not grow without end: with hundreds of kinds
/// there are hundreds of electrodes, and one more or less is lost in their spread.
fn effort(kinds: usize, kit: bool) -> Effort {
    let whole = Effort::default();
    let kinds = u32::try_from(kinds).unwrap_or(u32::MAX);
    let kinds = u64::from(kinds.max(WHOLE_EFFORT_KINDS));
    let share = |of: u32| {
        let shared = u64::from(of) * u64::from(WHOLE_EFFORT_KINDS) / kinds;
        u32::try_from(shared).unwrap_or(u32::MAX)
    };
    Effort {
        kicks: share(whole.kicks) / if kit { 10 } else { 1 },
        columns: if kit { 0 } else { share(whole.columns) },
        seed: whole.seed,
    }
}
