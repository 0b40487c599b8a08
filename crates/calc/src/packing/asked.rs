//! A lot's question apart from the caller's names, so that its answer holds for every lot alike.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::{
    first_fit::needed,
    group::Group,
    hand_out::hand_out,
    lot::{Lot, Named},
    search::search,
    terms::{Effort, Electrode, HoleKind, Plan, Unplaceable},
};
use crate::stop::Stop;

/// A lot with its question, and what it takes to tell the answer by the caller's names.
///
/// Formula: that of [`super::electrodes_for_lot`], cut in two where the names come in.
///
/// ```
/// use quillbore_calc::packing::{PackingAsked, Effort, Electrode, HoleKind};
/// let kind = |id, consume_mm, count| HoleKind { id, reach_mm: 0.0, consume_mm, count };
/// // 100 mm: 60 and 40 share an electrode, twice. Three holes of 101 mm fit none.
/// let kinds = [kind(7, 60.0, 2), kind(8, 40.0, 2), kind(9, 101.0, 3)];
/// let asked = PackingAsked::new(&kinds, &Electrode::new(100.0), Effort::quick());
/// let plan = asked.plan(&asked.question.answer(&|| false).unwrap());
/// assert_eq!((plan.needed, plan.at_least), (2, 2));
/// assert_eq!(plan.electrodes[0].holes, [(7, 1), (8, 1)]);
/// assert_eq!(asked.unplaceable(), 3);
/// ```
///
/// Source: as [`super::electrodes_for_lot`].
pub struct PackingAsked {
    /// What is to be searched.
    pub question: PackingQuestion,
    /// Kinds that each item's holes came from, with their numbers.
    ids: Vec<Vec<(u32, u32)>>,
    unplaceable: Vec<Unplaceable>,
}

/// Usable length, holes by reach and consumption, and effort: equal questions have equal answers.
///
/// Formula: that of [`super::electrodes_for_lot`].
///
/// ```
/// use quillbore_calc::packing::{PackingAsked, Effort, Electrode, HoleKind};
/// let kinds = [HoleKind { id: 7, reach_mm: 0.0, consume_mm: 60.0, count: 5 }];
/// let asked = PackingAsked::new(&kinds, &Electrode::new(130.0), Effort::quick());
/// let found = asked.question.answer(&|| false).unwrap();
/// assert_eq!((found.needed(), found.at_least()), (3, 3)); // two on each
/// ```
///
/// Source: as [`super::electrodes_for_lot`].
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PackingQuestion {
    lot: Arc<Lot>,
    effort: Effort,
}

/// The fewest electrodes that were found for a question, and what each drills.
///
/// Formula: electrodes counted, the part-used one left out.
///
/// ```
/// use quillbore_calc::packing::{PackingAsked, Effort, Electrode, HoleKind};
/// let kinds = [HoleKind { id: 7, reach_mm: 0.0, consume_mm: 60.0, count: 5 }];
/// let begun = Electrode { part_used_mm: Some(65.0), ..Electrode::new(130.0) };
/// let asked = PackingAsked::new(&kinds, &begun, Effort::quick());
/// // One hole on what is left in the holder, two on each new one.
/// assert_eq!(asked.question.answer(&|| false).unwrap().needed(), 2);
/// ```
///
/// Source: definition.
#[derive(Clone, Debug, PartialEq)]
pub struct Packed {
    groups: Vec<Group>,
    at_least: u64,
}

impl PackingAsked {
    /// The question of [`super::electrodes_for_lot`], whose arguments these are.
    ///
    /// - `kinds`: holes alike in reach and consumption [mm], 0 and up, with their number.
    /// - `electrode`: usable length [mm], 0 to 1e9, of a new one and of the part-used one.
    /// - `effort`: how long to look.
    ///
    /// Result: the question, and the names of its holes.
    #[must_use]
    pub fn new(kinds: &[HoleKind], electrode: &Electrode, effort: Effort) -> Self {
        let Named {
            lot,
            ids,
            unplaceable,
        } = Named::new(kinds, electrode);
        Self {
            question: PackingQuestion {
                lot: Arc::new(lot),
                effort,
            },
            ids,
            unplaceable,
        }
    }

    /// The plan by the caller's names, of what was found for this question or an equal one.
    ///
    /// - `found`: the answer to such a question; what was found for another is nonsense here.
    ///
    /// Result: plan; lengths in [mm].
    #[must_use]
    pub fn plan(&self, found: &Packed) -> Plan {
        Plan {
            electrodes: hand_out(&self.ids, &found.groups),
            needed: found.needed(),
            at_least: found.at_least,
            unplaceable: self.unplaceable.clone(),
        }
    }

    /// Holes that no electrode can drill in one go.
    ///
    /// Result: number of holes.
    #[must_use]
    pub fn unplaceable(&self) -> u64 {
        let kinds = self.unplaceable.iter();
        kinds.map(|kind| u64::from(kind.count)).sum()
    }
}

impl PackingQuestion {
    /// The same question with another effort.
    ///
    /// Formula: lot as it is, effort in place of its own.
    ///
    /// - `effort`: how long to look.
    ///
    /// Result: the question of the same lot that looks so long.
    ///
    /// ```
    /// use quillbore_calc::packing::{PackingAsked, Effort, Electrode, HoleKind};
    /// let kind = |id, consume_mm, count| HoleKind { id, reach_mm: 0.0, consume_mm, count };
    /// let kinds = [kind(7, 60.0, 2), kind(8, 40.0, 2)];
    /// let ask = |effort| PackingAsked::new(&kinds, &Electrode::new(100.0), effort).question;
    /// let (settled, first) = (ask(Effort::default()), ask(Effort::quick()));
    /// assert_ne!(settled, first);
    /// assert_eq!(settled.with(Effort::quick()), first);
    /// assert_eq!(first.with(Effort::default()), settled);
    /// ```
    ///
    /// Source: definition.
    #[must_use]
    pub fn with(&self, effort: Effort) -> Self {
        Self {
            effort,
            ..self.clone()
        }
    }

    /// Searches, and asks at each kick and column whether to go on; none where it was stopped.
    ///
    /// - `stop`: true where nobody wants the answer any more.
    ///
    /// Result: what was found, or `None` where it was stopped.
    #[must_use]
    pub fn answer(&self, stop: Stop<'_>) -> Option<Packed> {
        let (groups, at_least) = search(&self.lot, &self.effort, stop)?;
        Some(Packed { groups, at_least })
    }
}

impl Packed {
    /// New electrodes that the plan takes.
    ///
    /// Result: number of electrodes.
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
