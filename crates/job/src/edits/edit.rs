//! Everything that can be done to a job, as values that carry text.

use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;

use crate::pinned::answer::Answer;
use crate::pinned::concern::Concern;
use crate::pinned::report::Report;
use crate::pinned::slip::lists::{Line, SlipKind};
use crate::typed::entry::Unit;
use crate::typed::field::Field;
use crate::typed::overrule::FigureKey;
use crate::typed::row::Column;

/// One edit; `apply` reads its text, in one place, for window, import, commands and tests alike.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Put text into a field; empty text empties it.
    SetField {
        /// Which field.
        field: Field,
        /// What was typed.
        text: String,
        /// The unit that a bare number is meant in.
        unit: Unit,
    },
    /// Put a block of text into the table: typing and fill alike, one step.
    SetCells {
        /// The block's first cell.
        at: CellAt,
        /// Rows of cells; `None` leaves a cell as it is. Rows past the table's end are added.
        rows: Vec<Vec<Option<String>>>,
        /// The unit that bare numbers are meant in.
        unit: Unit,
    },
    /// Add empty rows.
    InsertRows {
        /// Before which row, by place in the table; the table's length adds at the end.
        before: usize,
        /// How many.
        count: usize,
    },
    /// Take rows out.
    DeleteRows {
        /// Which rows.
        rows: Vec<RowId>,
    },
    /// Give a row its places; none leaves it with its count alone.
    SetPlaces {
        /// Which row.
        row: RowId,
        /// Its places.
        places: Vec<Place>,
    },
    /// Put the rows of a table from elsewhere into the hole table: cells, places and report, one step.
    SetRows {
        /// Where they go.
        at: RowsAt,
        /// Each row's cells from the first column on; `None` leaves a cell as it is.
        cells: Vec<Vec<Option<String>>>,
        /// Each row's places; an empty list leaves a row those that it has.
        places: Vec<Vec<Place>>,
        /// The unit that bare numbers are meant in.
        unit: Unit,
        /// What became of the table's lines, where there is more to say than that they were taken.
        report: Option<Arc<Report>>,
    },
    /// Several edits as one step: all of them, or none.
    Together {
        /// One after the other.
        edits: Vec<Edit>,
    },
    /// Show and read in another unit; no text changes.
    SetUnit(Unit),
    /// Put a figure in place of the computed one.
    Overrule {
        /// Which figure.
        figure: FigureKey,
        /// The value as typed.
        text: String,
        /// Why.
        reason: String,
        /// The unit that a bare length is meant in.
        unit: Unit,
    },
    /// Pin a new slip to the sheet, with some of its lines filled in.
    AddSlip {
        /// What it is.
        kind: SlipKind,
        /// Lines and their texts.
        lines: Vec<(Line, String)>,
        /// The unit that bare numbers are meant in.
        unit: Unit,
    },
    /// Put text into a line of a slip; empty text empties it.
    SetLine {
        /// Which slip.
        slip: u32,
        /// Which line.
        line: Line,
        /// What was typed.
        text: String,
        /// The unit that a bare number is meant in.
        unit: Unit,
    },
    /// Put a block of text into the run records, which stand below each other as a table: typing, fill
    /// and paste alike, one step.
    SetRuns {
        /// The block's first cell.
        at: RunAt,
        /// Rows of cells; `None` leaves a cell as it is. Rows past the last record are new ones.
        rows: Vec<Vec<Option<String>>>,
        /// The unit that bare numbers are meant in.
        unit: Unit,
    },
    /// Take a slip off the sheet.
    RemoveSlip {
        /// Which slip.
        slip: u32,
    },
    /// Let the computed figure stand again.
    WithdrawOverrule {
        /// Which figure.
        figure: FigureKey,
    },
    /// Answer a check that concerns the customer; an answer that was there is replaced.
    Answer(Answer),
    /// Take the answer to a check back.
    WithdrawAnswer {
        /// The row.
        row: RowId,
        /// What was asked of it.
        concern: Concern,
    },
}

impl Edit {
    /// Several edits as one step; one alone stands by itself, and none are no edit.
    #[must_use]
    pub fn together(mut edits: Vec<Self>) -> Option<Self> {
        if edits.len() > 1 {
            return Some(Self::Together { edits });
        }
        edits.pop()
    }
}

/// Where the rows of a table from elsewhere go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowsAt {
    /// Below the table.
    Append,
    /// In place of the whole table: its rows are taken out, with what was answered and overruled of
    /// them.
    Replace,
    /// Over the rows from this one on, as a block is pasted over cells; rows past the table's end
    /// are added.
    Over {
        /// The first row, from 0; the table's length is the empty row below it.
        row: usize,
    },
}

/// A cell of the run records by place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RunAt {
    /// Row, from 0: which of the run records; their number is the empty row below the last.
    pub row: usize,
    /// Column, one of [`RUN_COLUMNS`](crate::slip::RUN_COLUMNS).
    pub line: Line,
}

/// A cell of the hole table by place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellAt {
    /// Row, from 0; the table's length is the empty row below it.
    pub row: usize,
    /// Column.
    pub column: Column,
}
