//! What a grid shows, and what it asks.

use std::borrow::Cow;

use super::table::ROW_HEIGHT;
use super::view::GridAt;

/// What a grid shows; typing below its last row makes a new one.
pub trait GridModel {
    /// What one row is called; cells are named after it: "hole 3 size".
    fn row_name(&self) -> &str;
    /// How many rows there are.
    fn row_count(&self) -> usize;
    /// The columns, from the left.
    fn columns(&self) -> &[GridColumn];
    /// The text that stands in a cell.
    fn text(&self, at: GridAt) -> Cow<'_, str>;
    /// What of it was typed: that is what is edited and copied.
    fn typed(&self, at: GridAt) -> Cow<'_, str> {
        self.text(at)
    }
    /// How the text of a cell came about.
    fn state(&self, at: GridAt) -> CellState;
    /// How many columns from the left stay in sight.
    fn sticky_columns(&self) -> usize {
        1
    }
    /// The height of a row.
    fn row_height(&self) -> f32 {
        ROW_HEIGHT
    }
    /// What is pencilled above the text of a cell, in rows that are higher than one line; the row below
    /// the last one may have it, too.
    fn pencilled(&self, _: GridAt) -> String {
        String::new()
    }
}

/// One column of a grid.
#[derive(Debug, Clone, PartialEq)]
pub struct GridColumn {
    /// The head, as written.
    pub head: String,
    /// The unit, under the head; empty for none.
    pub unit: String,
    /// The word cells of this column are named by: "hole 3 size".
    pub word: String,
    /// The width, in points: it never changes.
    pub width: f32,
    /// Whether the column is set right, as figures are.
    pub right: bool,
    /// Whether nothing can be typed here.
    pub read_only: bool,
}

/// How the text of a cell came about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CellState {
    /// Typed, pasted or read.
    Plain,
    /// Typed or pasted, and could not be read.
    Unread,
    /// Nothing was typed; what stands there is as usual.
    Usual,
    /// Computed; it opens its working.
    Computed,
    /// Computed, then overruled; it opens its working.
    Overruled,
}

/// What is wanted of the one who keeps the rows.
#[derive(Debug, Clone, PartialEq)]
pub enum GridAsk {
    /// Put these texts in these cells, rows past the last one being new; one step.
    /// Texts over a read-only column are for the receiver to name and to leave out.
    SetCells {
        /// The upper left cell.
        at: GridAt,
        /// The texts, row by row.
        rows: Vec<Vec<String>>,
        /// What was done.
        why: SetWhy,
    },
    /// Make empty rows above a row.
    InsertRows {
        /// The row that moves down.
        at: usize,
        /// How many.
        count: usize,
    },
    /// Take rows away.
    DeleteRows {
        /// The first of them.
        at: usize,
        /// How many.
        count: usize,
    },
    /// Show how a computed figure came about.
    OpenWorking(GridAt),
    /// Somebody typed where nothing can be: it is for the receiver to say so.
    NotTyped(GridAt),
}

/// What was done to set cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SetWhy {
    /// One cell was typed.
    Typed,
    /// A block was pasted.
    Pasted,
    /// A block was pasted that had been copied from this table.
    Repeated,
    /// The first row of a block was filled down, or one pasted cell fills a selection.
    Filled,
    /// A block was emptied.
    Cleared,
    /// A block was cut.
    Cut,
}
