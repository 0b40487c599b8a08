//! Which holes of a drawing or a solid are to be drilled: by kind, by size, or one by one.

use std::collections::BTreeMap;

use quillbore_job::Column;

use super::{Drawn, NEAR_MM, cells};
use crate::seen::SeenHole;

/// Holes that are alike in everything but their places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindView<'a> {
    /// The first of them, which stands for all.
    pub first: &'a SeenHole,
    /// Which holes they are, by their places in the file.
    pub holes: &'a [usize],
    /// How many of them are to be drilled.
    pub taken: usize,
}

impl Drawn {
    /// The kinds of its holes, by rising diameter.
    pub fn kinds(&self) -> impl Iterator<Item = KindView<'_>> {
        self.kinds.iter().filter_map(|holes| {
            let first = self.seen.holes.get(*holes.first()?)?;
            let taken = holes.iter().filter(|at| self.takes(**at)).count();
            Some(KindView {
                first,
                holes,
                taken,
            })
        })
    }

    /// What the cells of such a hole's row would be but for mark and count, and what of them is to be looked at.
    /// Before its unit is known they are the file's own numbers.
    #[must_use]
    pub fn cells(&self, hole: &SeenHole) -> (BTreeMap<Column, String>, Vec<String>) {
        cells::cells(hole, self.unit.unwrap_or_default())
    }

    /// Whether a hole is to be drilled, by its place in the file.
    #[must_use]
    pub fn takes(&self, hole: usize) -> bool {
        self.taken.get(hole).copied().unwrap_or(false)
    }

    /// How many holes are to be drilled.
    #[must_use]
    pub fn taken(&self) -> usize {
        self.taken.iter().filter(|taken| **taken).count()
    }

    /// Chooses a hole, or not.
    pub fn choose(&mut self, hole: usize, is_taken: bool) {
        if let Some(taken) = self.taken.get_mut(hole) {
            *taken = is_taken;
        }
    }

    /// Chooses all holes of a kind, by its place among the kinds, or none of them.
    pub fn choose_kind(&mut self, kind: usize, is_taken: bool) {
        let holes = self.kinds.get(kind).cloned().unwrap_or_default();
        holes.into_iter().for_each(|at| self.choose(at, is_taken));
    }

    /// Chooses all holes, or none.
    pub fn choose_all(&mut self, is_taken: bool) {
        self.taken.fill(is_taken);
    }

    /// Chooses the holes whose diameters lie between two [mm], and no others.
    pub fn only_between(&mut self, least_mm: f64, most_mm: f64) {
        let is_within =
            |hole: &SeenHole| (least_mm - NEAR_MM..=most_mm + NEAR_MM).contains(&hole.diameter);
        self.taken = self.seen.holes.iter().map(is_within).collect();
    }
}
