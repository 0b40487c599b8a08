//! Where two desks met, with what does not stand.

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;

use crate::ground::hash::Hash;
use crate::pinned::answer::Answer;
use crate::pinned::concern::Concern;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::Line;
use crate::typed::entry::{Entry, Unit};
use crate::typed::field::Field;
use crate::typed::overrule::{FigureKey, Overrule};
use crate::typed::row::Column;

/// Something that two desks did, each in its way; rows and slips by their identity in the merged job.
#[derive(Clone, Debug, PartialEq)]
pub enum Clash {
    /// They switched to this unit; ours stays.
    Unit(Unit),
    /// The job's number, with theirs.
    Number(String),
    /// The day it was opened, with theirs.
    Opened(Option<NaiveDate>),
    /// A field, with their text.
    Field(Field, Typed),
    /// A cell of a row, with their text.
    Cell(RowId, Column, Typed),
    /// The places of a row, with theirs.
    Places(RowId, Arc<Vec<Place>>),
    /// A row that one took out and the other changed: it stays.
    Row(RowId, Side),
    /// An overruled figure.
    Overrule(FigureKey, Met<Overrule>),
    /// The answer to a check of a row.
    Answer(RowId, Concern, Met<Answer>),
    /// A line of a slip, with their text.
    Line(u32, Line, Typed),
    /// A slip that one took off and the other changed: it stays.
    Slip(u32, Side),
    /// Both issued a paper of one number: theirs keeps it, ours is kept under another.
    PaperTwice {
        /// Which paper.
        paper: Paper,
        /// The number that both carry in print.
        number: String,
        /// The day on ours.
        date: NaiveDate,
        /// What the PDF of ours is known by.
        hash: Hash,
        /// The number that ours is kept under.
        kept_as: String,
    },
}

/// One of the two desks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// This desk.
    Ours,
    /// The other one.
    Theirs,
}

/// How two desks met in something that hangs on a row or on the job.
#[derive(Clone, Debug, PartialEq)]
pub enum Met<T> {
    /// Both changed it: ours stands, this is theirs.
    Theirs(T),
    /// This one took it back, and the other changed it: what was changed stands.
    TakenBack(Side),
    /// It went with a row that the other desk took out.
    RowGone {
        /// The mark that the row had.
        mark: String,
        /// Whose it was.
        of: Side,
        /// What it was.
        lost: T,
    },
}

/// A text that does not stand, as it was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Typed {
    /// The text; empty where the cell was emptied.
    pub text: String,
    /// The unit that its bare numbers are meant in, where there is a text.
    pub unit: Option<Unit>,
}

impl<T> From<&Entry<T>> for Typed {
    fn from(entry: &Entry<T>) -> Self {
        Self {
            text: entry.text().to_owned(),
            unit: entry.unit(),
        }
    }
}

/// A typed text with the unit that it was committed in.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Text<'a> {
    /// The text.
    pub(super) text: &'a str,
    /// The unit, where there is a text.
    pub(super) unit: Option<Unit>,
    /// Whether the unit makes a difference to what it says.
    pub(super) is_measured: bool,
}

impl From<&Text<'_>> for Typed {
    fn from(typed: &Text<'_>) -> Self {
        Self {
            text: typed.text.to_owned(),
            unit: typed.unit,
        }
    }
}
