//! Which holes of a drawing or a solid are to be drilled: by kind, by size, or one by one.

use std::collections::BTreeMap;

use quillbore_job::{Column, Unit, read_quantity};

use super::guesses::guesses;
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
        let unit = self.unit.unwrap_or_default();
        let (mut cells, mut doubts) = cells::cells(hole, unit, false);
        cells.remove(&Column::Count);
        doubts.extend(guesses(&[hole], unit));
        (cells, doubts)
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

    /// Chooses the holes of these sizes, and no others: `0.8`, `0.5-1.2`, or several of them with a space or a
    /// semicolon between. What has no unit of its own is in the file's. False where a part of it is no size:
    /// nothing changes then.
    pub fn only_sizes(&mut self, text: &str) -> bool {
        let unit = self.unit.unwrap_or_default();
        let parts = text.split([';', ' ']).filter(|part| !part.is_empty());
        // A unit may stand behind a space.
        let alone = between(text.trim(), unit).map(|size| vec![size]);
        let each = || parts.map(|part| between(part, unit)).collect();
        let sizes: Option<Vec<[f64; 2]>> = alone.or_else(each);
        let Some(sizes) = sizes.filter(|sizes| !sizes.is_empty()) else {
            return false;
        };
        let is_one = |hole: &SeenHole| {
            let near = |[least, most]: &[f64; 2]| {
                (least - NEAR_MM..=most + NEAR_MM).contains(&hole.diameter)
            };
            sizes.iter().any(near)
        };
        self.taken = self.seen.holes.iter().map(is_one).collect();
        true
    }
}

/// Least and most of `0.8` or `0.5-1.2` [mm].
fn between(text: &str, unit: Unit) -> Option<[f64; 2]> {
    let length = |text: &str| Some(read_quantity::length(text, unit).ok()?.mm());
    // A dash may stand within a fraction of an inch: `1-3/64`.
    if let Some(mm) = length(text) {
        return Some([mm, mm]);
    }
    let (least, most) = text.split_once(['-', '\u{2013}'])?;
    let [least, most] = [length(least)?, length(most)?];
    (least <= most).then_some([least, most])
}
