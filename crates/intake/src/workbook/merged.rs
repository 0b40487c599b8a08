//! A sheet's cells by line and column, merged ones filled, on their way into lines.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::room::{Full, Room};
use super::{Sheet, WorkbookError, in_sentence};
use crate::delimited::{MOST_CELLS, clean};
use crate::lines::Lines;

/// The cells of a sheet that have anything in them.
#[derive(Default)]
pub(super) struct Cells {
    /// Their texts, one behind the other.
    texts: String,
    there: Vec<There>,
    pub(super) dates: BTreeSet<u32>,
    pub(super) fractions: BTreeSet<u32>,
    pub(super) struck: BTreeSet<u32>,
    uncalculated: BTreeSet<u32>,
}

/// Where a cell is, from 0, and where its text.
#[derive(Clone, Copy)]
struct There {
    line: u32,
    column: u32,
    text: Text,
}

/// Where a text is among those of the sheet.
#[derive(Clone, Copy)]
pub(super) struct Text {
    begins: u32,
    ends: u32,
}

impl Text {
    const fn bytes(self) -> std::ops::Range<usize> {
        self.begins as usize..self.ends as usize
    }
}

/// Cells of several lines that are one: its first and last line and its first column, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Merged {
    pub(super) lines: [u32; 2],
    pub(super) column: u32,
}

impl Cells {
    /// Keeps a text for cells, its line breaks as blanks; `None` of nothing but blanks.
    pub(super) fn text(&mut self, text: &str) -> Result<Option<Text>, Full> {
        let text = clean(Cow::Borrowed(text));
        let at = |place: usize| u32::try_from(place).map_err(|_| Full::Text);
        let begins = at(self.texts.len())?;
        self.texts.push_str(&text);
        let ends = at(self.texts.len())?;
        Ok((begins < ends).then_some(Text { begins, ends }))
    }

    /// Puts a text into a cell.
    pub(super) fn put(
        &mut self,
        line: u32,
        column: u32,
        text: Text,
        room: &mut Room,
    ) -> Result<(), Full> {
        if !is_within(column) {
            return Err(Full::Cells);
        }
        room.take_cells(1)?;
        room.take_text(text.bytes().len())?;
        if self.there.last().is_none_or(|last| last.line != line) {
            room.take_line()?;
        }
        self.there.push(There { line, column, text });
        Ok(())
    }

    /// Notes a line in which a formula has no result.
    pub(super) fn without_result(&mut self, line: u32, room: &mut Room) -> Result<(), Full> {
        if self.uncalculated.insert(line) {
            room.take_line()?;
        }
        Ok(())
    }

    /// The sheet. What is merged over several lines stands in each of them that has anything else in it; what
    /// is merged over several columns stands in the first.
    pub(super) fn sheet(
        mut self,
        name: &str,
        is_hidden: bool,
        merged: &[Merged],
        room: &mut Room,
    ) -> Result<Sheet, WorkbookError> {
        self.in_order();
        let filled = self.fill(merged, room);
        let filled = filled.map_err(|full| full.error(name))?;
        let mut lines = Lines::default();
        for row in self.there.chunk_by(|one, other| one.line == other.line) {
            let (Some(first), Some(last)) = (row.first(), row.last()) else {
                continue;
            };
            let width = last.column as usize + 1;
            let gaps = room.take_gaps(width - row.len());
            gaps.map_err(|full| full.error(name))?;
            let mut next = row.iter().peekable();
            let cells = (0..=last.column).map(|column| {
                let there = next.next_if(|there| there.column == column);
                let text = there.map(|there| there.text);
                text.and_then(|text| self.texts.get(text.bytes()))
                    .unwrap_or("")
            });
            lines.push(shown(first.line), 0, cells);
        }
        let shown = |lines: BTreeSet<u32>| lines.into_iter().map(shown).collect();
        Ok(Sheet {
            name: in_sentence(name),
            is_hidden,
            lines,
            merged: shown(filled),
            uncalculated: shown(self.uncalculated),
            dates: shown(self.dates),
            fractions: shown(self.fractions),
            struck: shown(self.struck),
        })
    }

    /// Puts the cells in order; of two in one place the later one stays.
    fn in_order(&mut self) {
        self.there.sort_by_key(|there| (there.line, there.column));
        // Of equal neighbors the first is the one that stays, so the later one is put there.
        self.there.dedup_by(|later, there| {
            let is_same = (later.line, later.column) == (there.line, there.column);
            if is_same {
                *there = *later;
            }
            is_same
        });
    }

    fn fill(&mut self, merged: &[Merged], room: &mut Room) -> Result<BTreeSet<u32>, Full> {
        let mut filled = BTreeSet::new();
        let mut more = Vec::new();
        let mut lines: Vec<u32> = self.there.iter().map(|there| there.line).collect();
        lines.dedup();
        for area in merged {
            let [first, last] = area.lines;
            let (Some(text), true) = (self.find(first, area.column), first < last) else {
                continue;
            };
            let from = lines.partition_point(|line| *line <= first);
            let until = lines.partition_point(|line| *line <= last);
            // Areas that lie on one another are looked at again and again.
            room.take_cells(until - from)?;
            for line in lines.get(from..until).unwrap_or_default() {
                if self.find(*line, area.column).is_none() {
                    room.take_text(text.bytes().len())?;
                    filled.insert(*line);
                    more.push(There {
                        line: *line,
                        column: area.column,
                        text,
                    });
                }
            }
        }
        self.there.extend(more);
        self.there.sort_by_key(|there| (there.line, there.column));
        self.there.dedup_by_key(|there| (there.line, there.column));
        Ok(filled)
    }

    fn find(&self, line: u32, column: u32) -> Option<Text> {
        let key = |there: &There| (there.line, there.column);
        let at = self.there.binary_search_by_key(&(line, column), key);
        self.there.get(at.ok()?).map(|there| there.text)
    }
}

impl Full {
    /// What is said of a sheet that has no room.
    pub(super) fn error(&self, sheet: &str) -> WorkbookError {
        match self {
            Self::Cells => WorkbookError::TooManyCells(in_sentence(sheet)),
            Self::Text => WorkbookError::TooLarge,
        }
    }
}

/// Whether a hole table has so many columns.
pub(super) fn is_within(column: u32) -> bool {
    usize::try_from(column).is_ok_and(|column| column < MOST_CELLS)
}

fn shown(line: u32) -> usize {
    usize::try_from(line).map_or(usize::MAX, |line| line.saturating_add(1))
}
