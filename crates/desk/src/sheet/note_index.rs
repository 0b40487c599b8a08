//! The side notes of a job by where they stand, and which of them say the same: reckoned once for each
//! state of the figures, and only for notes that somebody looks at. There may be thousands.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_job::results::{Beside, Results, SideNote, Telling};

use super::shared::{Anchors, Shared};

/// The side notes of a job by where they stand, each by its place among them.
pub struct NoteIndex {
    results: Arc<Results>,
    by_row: BTreeMap<RowId, Vec<u32>>,
    others: Vec<u32>,
    /// Beside each note that was looked at those that say the same of other rows, itself among them.
    alike: Vec<Option<Arc<[u32]>>>,
}

impl NoteIndex {
    /// The index of the notes as they are now.
    pub(super) fn of<'i>(kept: &'i mut Option<Self>, results: &Arc<Results>) -> &'i mut Self {
        let is_kept = |index: &Self| Arc::ptr_eq(&index.results, results);
        if !kept.as_ref().is_some_and(is_kept) {
            *kept = None;
        }
        kept.get_or_insert_with(|| Self::new(results))
    }

    fn new(results: &Arc<Results>) -> Self {
        let mut by_row: BTreeMap<RowId, Vec<u32>> = BTreeMap::new();
        let mut others = Vec::new();
        for (at, note) in (0..).zip(&results.notes) {
            match note.beside {
                Beside::Row(row, _) => by_row.entry(row).or_default().push(at),
                _ => others.push(at),
            }
        }
        Self {
            alike: vec![None; results.notes.len()],
            results: Arc::clone(results),
            by_row,
            others,
        }
    }

    /// The notes about lines in sight, in their order.
    pub(super) fn seen(&self, anchors: &Anchors) -> Vec<u32> {
        let of_rows = anchors.rows().filter_map(|row| self.by_row.get(&row));
        let others = self.others.iter().filter(|at| {
            let note = self.results.notes.get(**at as usize);
            note.is_some_and(|note| anchors.find(note.beside).is_some())
        });
        let mut seen: Vec<u32> = of_rows.flatten().chain(others).copied().collect();
        seen.sort_unstable();
        seen.dedup();
        seen
    }

    /// The notes that say the same as one about a row without being worded, in the order of their rows.
    pub(super) fn alike(
        &mut self,
        at: u32,
        shared: &Shared<'_>,
        telling: &Telling<'_>,
    ) -> Arc<[u32]> {
        if let Some(Some(known)) = self.alike.get(at as usize) {
            return Arc::clone(known);
        }
        let results = Arc::clone(&self.results);
        let Some(note) = results.notes.get(at as usize) else {
            return Arc::new([]);
        };
        let words = |note: &SideNote| telling.offer(note).map(|offer| offer.words.clone());
        let offer = words(note);
        let says_same = |other: &SideNote| {
            note.kind.is_like(&other.kind) && note.has_facts_of(other) && words(other) == offer
        };
        let of_rows = self.by_row.values().flatten().copied();
        let mut found: Vec<u32> = of_rows
            .filter(|other| {
                let other_note = results.notes.get(*other as usize);
                *other == at || other_note.is_some_and(says_same)
            })
            .collect();
        found.sort_by_cached_key(|at| {
            let note = results.notes.get(*at as usize);
            note.and_then(row_of)
                .and_then(|row| shared.job.row_index(row))
        });
        let found: Arc<[u32]> = found.into();
        for at in found.iter() {
            if let Some(known) = self.alike.get_mut(*at as usize) {
                *known = Some(Arc::clone(&found));
            }
        }
        found
    }
}

/// The row that a note stands beside.
pub(super) const fn row_of(note: &SideNote) -> Option<RowId> {
    match note.beside {
        Beside::Row(row, _) => Some(row),
        _ => None,
    }
}
