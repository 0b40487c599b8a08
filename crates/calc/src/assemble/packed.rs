//! What packing is asked for a lot, and what it answers.

use alloc::vec::Vec;

use super::Answers;
use super::electrodes::{Demand, clamp};
use super::prepare::{Prepared, Ready};
use crate::packing::{Effort, Electrode, Plan, by_hole_order, electrodes_for_lot};

/// One packing: a tube, a lot, a wear.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PackQuestion {
    demand: Demand,
    usable_mm: f64,
    parts: u32,
    /// For the kit, not for cost.
    kit: bool,
    /// Drilling in the table's order is wanted too.
    in_order: bool,
}

/// What packing found.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PackAnswer {
    /// Shared electrodes, fewest found.
    pub(super) shared: u64,
    /// No plan takes fewer.
    pub(super) at_least: u64,
    pub(super) plan: Plan,
    /// Shared electrodes in the table's order, where that was asked.
    pub(super) in_order: u64,
}

/// Up to so many kinds get the whole effort; the more there are, the less each costs.
const WHOLE_EFFORT_KINDS: u32 = 60;

impl PackQuestion {
    /// Effort by the number of kinds, so that the time does not grow without end: with hundreds of
    /// kinds there are hundreds of electrodes, and one more or less is lost in their spread. A kit
    /// needs no proof that it is the smallest.
    fn effort(&self) -> Effort {
        let whole = Effort::default();
        let kinds = clamp(self.demand.kinds.len() as u64).max(WHOLE_EFFORT_KINDS);
        let share = |of: u32| {
            let shared = u64::from(of) * u64::from(WHOLE_EFFORT_KINDS) / u64::from(kinds);
            clamp(shared)
        };
        Effort {
            kicks: share(whole.kicks) / if self.kit { 10 } else { 1 },
            columns: if self.kit { 0 } else { share(whole.columns) },
            seed: whole.seed,
        }
    }

    pub(super) fn answer(&self) -> PackAnswer {
        let kinds = self.demand.in_lot(self.parts);
        let electrode = Electrode::new(self.usable_mm);
        let plan = electrodes_for_lot(&kinds, &electrode, &self.effort());
        let apart = apart(&plan);
        let in_order = if self.in_order {
            by_hole_order(&self.demand.kinds, self.parts, &electrode).needed
        } else {
            0
        };
        PackAnswer {
            shared: plan.needed + apart,
            at_least: plan.at_least + apart,
            plan,
            in_order: in_order + apart,
        }
    }
}

/// Shared electrodes of a tube by one quick pass.
pub(super) fn packed_quickly(demand: &Demand, usable_mm: f64, parts: u32) -> u64 {
    let kinds = demand.in_lot(parts);
    let plan = electrodes_for_lot(&kinds, &Electrode::new(usable_mm), &Effort::quick());
    plan.needed + apart(&plan)
}

/// What fits on no electrode spoils one each; its row carries the finding.
fn apart(plan: &Plan) -> u64 {
    let kinds = plan.unplaceable.iter();
    kinds.map(|kind| u64::from(kind.count)).sum()
}

/// Quantities that are priced: the offered one first, each once.
pub(super) fn quantities(prepared: &Prepared<'_>) -> Vec<u32> {
    let mut quantities: Vec<u32> = Vec::new();
    let further = prepared.input.breaks.iter().copied();
    for quantity in prepared.input.quantity.into_iter().chain(further) {
        if quantity > 0 && !quantities.contains(&quantity) {
            quantities.push(quantity);
        }
    }
    quantities
}

/// Packings of a job: tube by tube the offered lot at high wear, then each quantity at the median.
pub(super) fn pack_questions(prepared: &Prepared<'_>, ready: &Ready) -> Vec<PackQuestion> {
    let quantities = quantities(prepared);
    let mut questions = Vec::new();
    for tube in &ready.tubes {
        let ask = |demand: &Demand, parts: u32| PackQuestion {
            demand: demand.clone(),
            usable_mm: tube.usable_mm,
            parts,
            kit: false,
            in_order: false,
        };
        if let Some(&offered) = quantities.first() {
            questions.push(PackQuestion {
                kit: true,
                ..ask(&tube.high, offered)
            });
        }
        for (at, &quantity) in quantities.iter().enumerate() {
            questions.push(PackQuestion {
                in_order: at == 0,
                ..ask(&tube.median, quantity)
            });
        }
    }
    questions
}

/// Where the answer for a tube and a quantity stands among the packings; the tube's kit stands just
/// before its first quantity.
pub(super) fn place(tube: usize, quantity: usize, quantities: usize) -> usize {
    tube * (quantities + 1) + 1 + quantity
}

/// Shared electrodes of each tube for a quantity (its index among [`quantities`]): packed where the
/// answers are at hand, else the quick bound.
pub(super) fn shared(
    prepared: &Prepared<'_>,
    ready: &Ready,
    quantity: usize,
    answers: Option<&Answers>,
) -> Vec<u64> {
    let quantities = quantities(prepared);
    let parts = quantities.get(quantity).copied().unwrap_or(0);
    let tubes = ready.tubes.iter().enumerate();
    tubes
        .map(|(at, tube)| {
            let packed = answers.and_then(|answers| {
                answers
                    .packings
                    .get(place(at, quantity, quantities.len()))
                    .map(|answer| answer.shared)
            });
            packed.unwrap_or_else(|| tube.median.at_least(tube.usable_mm, parts))
        })
        .collect()
}
