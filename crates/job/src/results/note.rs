//! One side note: a sentence beside a line of the sheet.

use std::sync::Arc;

use quillbore_calc::finding::Level;
use quillbore_calc::{Remedy, RowId};

use super::kind::NoteKind;
use crate::asked::question::Question;
use crate::pinned::concern::Customer;
use crate::pinned::slip::lists::Line;
use crate::results::remedy::Offer;
use crate::typed::field::Field;
use crate::typed::row::Column;

/// A sentence beside a line of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SideNote {
    /// How much it matters.
    pub level: Level,
    /// What it says, as a kind.
    pub kind: NoteKind,
    /// The line it stands beside.
    pub beside: Beside,
    /// What it says, where the calculation didn't find it: that is worded by [`Telling`]. Notes that say the
    /// same share it: there may be as many as a job has rows.
    pub(super) own: Arc<str>,
    /// What can be done about it, worded by [`Telling`] too; apart, since most notes have none and a job
    /// may have many.
    pub(super) offering: Option<Box<Offering>>,
    /// How it concerns the customer.
    pub customer: Customer,
    /// What it asks before anything is quoted or released, and how that was answered.
    pub question: Option<Box<Question>>,
    /// The line of a slip that would settle it, once somebody types there.
    pub settled_by: Option<(u32, Line)>,
}

/// What can be done about a note.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Offering {
    /// The calculation's remedy, of the row that stands there.
    Remedy { remedy: Remedy, at: Option<usize> },
    /// An edit with its words.
    Edit(Offer),
}

impl SideNote {
    /// A note that only says something.
    pub(super) fn new(
        level: Level,
        kind: NoteKind,
        beside: Beside,
        own: impl Into<Arc<str>>,
    ) -> Self {
        Self {
            level,
            kind,
            beside,
            own: own.into(),
            offering: None,
            customer: Customer::Shop,
            question: None,
            settled_by: None,
        }
    }

    /// Whether another note rests on the same facts, so that it says the same without being worded.
    #[must_use]
    pub fn has_facts_of(&self, other: &Self) -> bool {
        let same = self.kind == other.kind && self.own == other.own;
        same && self.is_unanswered() && other.is_unanswered()
    }

    /// Whether nobody answered what it asks, if it asks anything.
    fn is_unanswered(&self) -> bool {
        let asks = self.question.as_ref();
        asks.is_none_or(|asks| asks.answer.is_none() && asks.outdated.is_none())
    }

    /// What it says, where the calculation didn't find it, without the answer to it.
    #[must_use]
    pub fn own_words(&self) -> &str {
        &self.own
    }

    /// Whether it offers something that can be done about it.
    #[must_use]
    pub const fn is_offering(&self) -> bool {
        self.offering.is_some()
    }

    /// Its stable code, for what is printed and written.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        self.kind.code()
    }

    /// The same note with something that can be done about it.
    pub(super) fn offering(self, offer: Option<Offer>) -> Self {
        Self {
            offering: offer.map(|offer| Box::new(Offering::Edit(offer))),
            ..self
        }
    }
}

/// The line of the sheet that a note stands beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Beside {
    /// A field of the inquiry, plan or price.
    Field(Field),
    /// A row, and the column where the note is about one cell.
    Row(RowId, Option<Column>),
    /// The plan as a whole.
    Plan,
    /// The price as a whole.
    Price,
    /// The papers that were issued.
    Papers,
    /// A slip, and the line where the note is about one.
    Slip(u32, Option<Line>),
}
