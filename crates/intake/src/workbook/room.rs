//! How much of a workbook is kept: cells, lines and texts that stand in proportion to the file, and no more than a
//! hole table has. Packed, a million cells that are alike take a few hundred bytes, and a text of the file stands
//! there once and may be in all of them.

use crate::delimited::MOST_CELLS_IN_ALL;

/// Most bytes of texts in cells: so many times the file, and what small files may have beyond that.
const MOST_TEXT_TIMES: usize = 10;
const MOST_TEXT_BESIDE: usize = 4_000_000;

/// Most cells for a byte of the file, and what small files may have beyond that: a cell with its place takes some
/// bytes however well it is packed.
const MOST_CELLS_TIMES: usize = 1;
const MOST_CELLS_BESIDE: usize = 300_000;

/// Bytes of the file for each line, and lines that small files may have beyond that.
const LINE: usize = 8;
const MOST_LINES_BESIDE: usize = 10_000;

/// Empty cells between others take less than filled ones.
const GAPS_FOR_CELL: usize = 4;

/// What is left for all sheets of a workbook.
pub(super) struct Room {
    cells: usize,
    lines: usize,
    text: usize,
}

/// Why a cell has no room.
pub(super) enum Full {
    /// There are more cells or lines.
    Cells,
    /// There is more text in them.
    Text,
}

impl Room {
    /// The room for a file of so many bytes.
    pub(super) fn for_file(bytes: usize) -> Self {
        let within = |times, beside| bytes.saturating_mul(times).saturating_add(beside);
        Self {
            cells: within(MOST_CELLS_TIMES, MOST_CELLS_BESIDE).min(MOST_CELLS_IN_ALL),
            lines: (bytes / LINE).saturating_add(MOST_LINES_BESIDE),
            text: within(MOST_TEXT_TIMES, MOST_TEXT_BESIDE),
        }
    }

    /// Takes room for so many cells.
    pub(super) fn take_cells(&mut self, count: usize) -> Result<(), Full> {
        self.cells = self.cells.checked_sub(count).ok_or(Full::Cells)?;
        Ok(())
    }

    /// Takes room for so many empty cells.
    pub(super) fn take_gaps(&mut self, count: usize) -> Result<(), Full> {
        self.take_cells(count / GAPS_FOR_CELL)
    }

    /// Takes room for a line.
    pub(super) fn take_line(&mut self) -> Result<(), Full> {
        self.lines = self.lines.checked_sub(1).ok_or(Full::Cells)?;
        Ok(())
    }

    /// Takes room for so many bytes of text.
    pub(super) fn take_text(&mut self, bytes: usize) -> Result<(), Full> {
        self.text = self.text.checked_sub(bytes).ok_or(Full::Text)?;
        Ok(())
    }
}
