//! A column of a foreign table: what becomes of it, how that is known, and what is asked about one
//! that is not understood.

use quillbore_job::Column;

use crate::head::Head;
use crate::meaning::Meaning;
use crate::values::Look;

/// What becomes of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// It is taken as this.
    A(Meaning),
    /// It is left out.
    LeftOut,
}

/// How it is known what a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Its head says so.
    Head,
    /// It has no head, and lies there in the hole table or in the hole table's order.
    Place,
    /// It is a guess.
    Guess(Why),
    /// Somebody said so of this head in an earlier table of the same customer.
    Memory,
    /// Somebody said so.
    Said,
    /// It is not known.
    NotUnderstood,
}

/// Why a column is guessed to hold something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// Its values look like it.
    Values,
    /// Its head can mean several things, and its values look like this one.
    HeadAndValues,
    /// The columns beside it leave this, by where it stands and by what is larger than what.
    Beside,
    /// It counts the lines, beside a column with the marks: it is left out.
    RowNumber,
}

/// A column as it is shown before anything is taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ColumnView {
    /// Its number, head and first values.
    pub about: Question,
    /// What becomes of it; `None` where it is not understood.
    pub holds: Option<Holds>,
    /// How that is known.
    pub how: How,
}

/// A column that is not understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Which column, from 0.
    pub column: usize,
    /// Its head; empty where it has none.
    pub head: String,
    /// The first of its values.
    pub values: Vec<String>,
    /// There are more values than those.
    pub more: bool,
}

/// A column of a foreign table.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ForeignColumn {
    pub(crate) head: Head,
    /// The column of the hole table that it lies on.
    pub(crate) place: Option<Column>,
    /// What its values look like.
    pub(crate) look: Look,
    pub(crate) holds: Option<Holds>,
    pub(crate) how: How,
}

impl ForeignColumn {
    pub(crate) fn holds(&self, meaning: Meaning) -> bool {
        self.holds == Some(Holds::A(meaning))
    }

    /// Whether somebody said what it holds, now or of an earlier table.
    pub(crate) const fn is_said(&self) -> bool {
        matches!(self.how, How::Said | How::Memory)
    }

    /// Whether it gives way where somebody says that another column holds the same.
    pub(crate) const fn gives_way(&self) -> bool {
        !matches!(self.how, How::Head | How::Said)
    }

    pub(crate) const fn set(&mut self, holds: Holds, how: How) {
        self.holds = Some(holds);
        self.how = how;
    }

    pub(crate) const fn unset(&mut self) {
        self.holds = None;
        self.how = How::NotUnderstood;
    }
}
