//! A table and what stands in it.

use super::column::Column;
use crate::page::{MOST_PAGES, Style};

/// Rows that a table keeps: more than any paper has room for, as low as a row can be.
pub(super) const MOST_ROWS: usize = 60 * MOST_PAGES;

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<TableRow>,
    /// Whether each column has rules of its own, to write on.
    pub written_on: bool,
    /// Whether its many columns stand closer together than usual.
    pub tight: bool,
    /// How remarks under rows are set, where that is not as usual.
    pub notes: Option<Style>,
    /// Height of what comes after it and stays on the page of its last row.
    pub after: f64,
    /// Rows were left out, and what it stands in is given up when it is set.
    pub(super) is_cut: bool,
}

impl Table {
    /// A table without rows.
    pub fn new(columns: impl IntoIterator<Item = Column>) -> Self {
        Self {
            columns: columns.into_iter().collect(),
            rows: Vec::new(),
            written_on: false,
            tight: false,
            notes: None,
            after: 0.0,
            is_cut: false,
        }
    }

    /// The same table with rules to write on, column by column.
    pub fn written_on(self) -> Self {
        Self {
            written_on: true,
            ..self
        }
    }

    /// The same table with its columns closer together.
    pub fn tight(self) -> Self {
        Self {
            tight: true,
            ..self
        }
    }

    /// The same table, its last row on one page with `height` points of what comes after it.
    pub fn followed_by(self, height: f64) -> Self {
        Self {
            after: height,
            ..self
        }
    }

    /// The same table with remarks under its rows in another style.
    pub fn notes(self, notes: Style) -> Self {
        Self {
            notes: Some(notes),
            ..self
        }
    }

    /// Adds a row; one that no paper has room for gives the paper up.
    pub fn row(&mut self, row: TableRow) {
        if self.rows.len() < MOST_ROWS {
            self.rows.push(row);
        } else {
            self.is_cut = true;
        }
    }

    /// Whether it has more rows than any paper has room for, so that nobody needs to add others.
    pub fn is_cut(&self) -> bool {
        self.is_cut
    }
}

/// What stands in one place of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    pub(crate) text: String,
    pub(crate) style: Option<Style>,
    pub(crate) square: bool,
}

impl Cell {
    /// A text or a figure.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            ..Self::default()
        }
    }

    /// A text in a style of its own.
    pub fn styled(text: impl Into<String>, style: Style) -> Self {
        Self {
            text: text.into(),
            style: Some(style),
            square: false,
        }
    }

    /// A square to check off.
    pub fn square() -> Self {
        Self {
            square: true,
            ..Self::default()
        }
    }

    /// An empty place to write in by hand.
    pub fn blank() -> Self {
        Self::default()
    }
}

impl<T: Into<String>> From<T> for Cell {
    fn from(text: T) -> Self {
        Self::new(text)
    }
}

/// One row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TableRow {
    pub(crate) cells: Vec<Cell>,
    pub(crate) note: String,
    pub(crate) least: f64,
    pub(crate) with_next: bool,
}

impl TableRow {
    /// A row of cells.
    pub fn new(cells: impl IntoIterator<Item = Cell>) -> Self {
        Self {
            cells: cells.into_iter().collect(),
            ..Self::default()
        }
    }

    /// The same row with a remark under it, across the table.
    pub fn note(self, note: impl Into<String>) -> Self {
        Self {
            note: note.into(),
            ..self
        }
    }

    /// The same row, on one page with the row after it where a page has room for both.
    pub fn with_next(self) -> Self {
        Self {
            with_next: true,
            ..self
        }
    }

    /// The same row, at least `height` points high.
    pub fn at_least(self, height: f64) -> Self {
        Self {
            least: height,
            ..self
        }
    }
}
