//! A sheet's cells by line and column, merged ones filled, on their way into lines.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use super::{Sheet, WorkbookError};
use crate::delimited::{MOST_CELLS, MOST_CELLS_IN_ALL, clean};
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

/// Cells of several lines that are one: its first and last line and its first column, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Merged {
    pub(super) lines: [u32; 2],
    pub(super) column: u32,
}

/// There are more cells than a hole table has.
pub(super) struct TooMany;

impl Cells {
    /// Puts a text into a cell, its line breaks as blanks; one of nothing but blanks is left out.
    pub(super) fn put(&mut self, line: u32, column: u32, text: &str) -> Result<(), TooMany> {
        let text = clean(Cow::Borrowed(text));
        if text.is_empty() {
            return Ok(());
        }
        self.count += 1;
        let wide = usize::try_from(column).is_ok_and(|column| column < MOST_CELLS);
        if !wide || self.count > MOST_CELLS_IN_ALL {
            return Err(TooMany);
        }
        self.lines
            .entry(line)
            .or_default()
            .insert(column, text.into_owned());
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
            lines.push(shown(*line), 0, row);
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
        for area in merged {
            let [first, last] = area.lines;
            let there = self
                .lines
                .get(&first)
                .and_then(|cells| cells.get(&area.column));
            let (Some(text), true) = (there.cloned(), first < last) else {
                continue;
            };
            for (line, cells) in self.lines.range_mut(first + 1..=last) {
                cells.entry(area.column).or_insert_with(|| {
                    filled.insert(*line);
                    text.clone()
                });
            }
        }
        filled
    }
}

fn shown(line: u32) -> usize {
    usize::try_from(line).map_or(usize::MAX, |line| line.saturating_add(1))
}
