//! A sheet's cells by line and column, merged ones filled, on their way into lines.

use std::collections::{BTreeMap, BTreeSet};

use super::{Sheet, WorkbookError};
use crate::delimited::{MOST_CELLS, MOST_CELLS_IN_ALL};
use crate::lines::Lines;

/// The cells of a sheet that have anything in them.
#[derive(Default)]
pub(super) struct Cells {
    /// By line and column, from 0.
    lines: BTreeMap<u32, BTreeMap<u32, String>>,
    count: usize,
    pub(super) dates: BTreeSet<u32>,
    pub(super) uncalculated: BTreeSet<u32>,
}

/// Cells that are one: first and last line, first and last column, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Merged {
    pub(super) lines: [u32; 2],
    pub(super) columns: [u32; 2],
}

/// There are more cells than a hole table has.
pub(super) struct TooMany;

impl Cells {
    /// Puts a text into a cell; one of nothing but blanks is left out.
    pub(super) fn put(&mut self, line: u32, column: u32, text: &str) -> Result<(), TooMany> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(());
        }
        self.count += 1;
        let wide = usize::try_from(column).is_ok_and(|column| column < MOST_CELLS);
        if !wide || self.count > MOST_CELLS_IN_ALL {
            return Err(TooMany);
        }
        self.lines.entry(line).or_default().insert(column, text.to_owned());
        Ok(())
    }

    /// The sheet. What is merged over several lines stands in each of them that has anything else in it; what
    /// is merged over several columns stands in the first.
    pub(super) fn sheet(
        mut self,
        name: String,
        is_hidden: bool,
        merged: &[Merged],
    ) -> Result<Sheet, WorkbookError> {
        let filled = self.fill(merged);
        let mut lines = Lines::default();
        for (line, cells) in &self.lines {
            let last = cells.last_key_value().map_or(0, |(column, _)| column + 1);
            let row = (0..last).map(|column| cells.get(&column).map_or("", String::as_str));
            let breaks = cells.values().map(|cell| cell.lines().count().saturating_sub(1)).sum();
            lines.push(shown(*line), breaks, row);
            if lines.cells() > MOST_CELLS_IN_ALL {
                return Err(WorkbookError::TooManyCells(name));
            }
        }
        let shown = |lines: BTreeSet<u32>| lines.into_iter().map(shown).collect();
        Ok(Sheet {
            name,
            is_hidden,
            lines,
            merged: shown(filled),
            uncalculated: shown(self.uncalculated),
            dates: shown(self.dates),
        })
    }

    fn fill(&mut self, merged: &[Merged]) -> BTreeSet<u32> {
        let mut filled = BTreeSet::new();
        for Merged { lines: [first, last], columns: [column, _] } in merged {
            let there = self.lines.get(first).and_then(|cells| cells.get(column));
            let Some(text) = there.cloned() else { continue };
            for (line, cells) in self.lines.range_mut(first + 1..=*last) {
                if !cells.contains_key(column) {
                    cells.insert(*column, text.clone());
                    filled.insert(*line);
                }
            }
        }
        filled
    }
}

fn shown(line: u32) -> usize {
    usize::try_from(line).map_or(usize::MAX, |line| line.saturating_add(1))
}
