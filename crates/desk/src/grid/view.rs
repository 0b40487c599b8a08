//! Where the cursor is, what is selected, and the text being typed.

use egui::Key;

/// A cell by row and column, both from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct GridAt {
    /// Row from 0.
    pub row: usize,
    /// Column from 0.
    pub col: usize,
}

impl GridAt {
    /// The cell in this row and column.
    #[must_use]
    pub const fn new(row: usize, col: usize) -> Self {
        Self { row, col }
    }
}

/// A block of cells, its corners within it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CellBlock {
    /// Upper left cell.
    pub from: GridAt,
    /// Lower right cell.
    pub to: GridAt,
}

impl CellBlock {
    /// Whether a cell lies in the block.
    #[must_use]
    pub fn contains(&self, at: GridAt) -> bool {
        (self.from.row..=self.to.row).contains(&at.row)
            && (self.from.col..=self.to.col).contains(&at.col)
    }

    /// How many rows the block has.
    #[must_use]
    pub fn row_count(&self) -> usize {
        self.to.row - self.from.row + 1
    }

    /// Whether the block is one cell.
    #[must_use]
    pub fn is_one_cell(&self) -> bool {
        self.from == self.to
    }
}

/// The view state of a grid: nothing of it is in the document.
#[derive(Debug, Clone, Default)]
pub struct GridView {
    pub(super) cursor: GridAt,
    pub(super) anchor: GridAt,
    pub(super) draft: Option<CellDraft>,
    /// The column a run of Tab keys started in; Enter goes back to it.
    pub(super) tab_from: Option<usize>,
    /// The cursor moved: bring it into sight.
    pub(super) follow: bool,
    /// The grid had the keyboard at the end of the last frame.
    pub(super) active: bool,
    /// A block is being drawn with the pointer.
    pub(super) dragging: bool,
    /// Rows in sight, for the page keys.
    pub(super) page: usize,
    /// What was copied from this grid last.
    pub(super) own_copy: Option<String>,
    /// A key that a word outside the grid stands for.
    pub(super) pressed: Option<Key>,
    /// The keyboard is wanted here as soon as the grid is drawn.
    pub(super) wanted: bool,
}

/// The text being typed in the cursor's cell.
#[derive(Debug, Clone)]
pub(super) struct CellDraft {
    pub(super) text: String,
    /// Opened on the text that stood there, so the arrows move in the text.
    pub(super) in_text: bool,
    /// The editor has not been drawn yet.
    pub(super) new: bool,
}

impl GridView {
    /// The cell one is at.
    #[must_use]
    pub fn cursor(&self) -> GridAt {
        self.cursor
    }

    /// Goes to a cell, leaving any selection.
    pub fn go_to(&mut self, at: GridAt) {
        self.cursor = at;
        self.anchor = at;
        self.follow = true;
    }

    /// Stands in another row, with the same selection and with what is being typed: the table moved under
    /// it.
    pub fn stand_in(&mut self, row: usize) {
        let selected = self.anchor.row.saturating_sub(self.cursor.row);
        let above = self.cursor.row.saturating_sub(self.anchor.row);
        self.anchor.row = (row + selected).saturating_sub(above);
        self.cursor.row = row;
        self.follow = true;
    }

    /// Does in the next frame what a key would, for a word that stands outside the grid:
    /// `Insert` inserts rows, `Delete` takes rows away.
    pub fn press_later(&mut self, key: Key) {
        self.pressed = Some(key);
    }

    /// Takes the keyboard in the next frame, as a click on the cell would, and comes into sight.
    pub fn take_keyboard(&mut self) {
        self.wanted = true;
    }

    /// The selected block; the cursor's cell at least.
    #[must_use]
    pub fn block(&self) -> CellBlock {
        let (a, b) = (self.cursor, self.anchor);
        CellBlock {
            from: GridAt::new(a.row.min(b.row), a.col.min(b.col)),
            to: GridAt::new(a.row.max(b.row), a.col.max(b.col)),
        }
    }

    /// The text being typed, if a cell is being edited.
    #[must_use]
    pub fn draft(&self) -> Option<&str> {
        self.draft.as_ref().map(|draft| draft.text.as_str())
    }

    /// Whether the grid has the keyboard.
    #[must_use]
    pub fn is_active(&self) -> bool {
        self.active
    }

    /// Keeps cursor and selection on the table after rows or columns went away.
    pub(super) fn clamp(&mut self, rows: usize, cols: usize) {
        for at in [&mut self.cursor, &mut self.anchor] {
            at.row = at.row.min(rows.saturating_sub(1));
            at.col = at.col.min(cols.saturating_sub(1));
        }
    }
}
