//! Answers to checks that concern the customer: told and agreed, or accepted by the shop.

use chrono::NaiveDate;
use quillbore_calc::RowId;

use crate::ground::keyed_list::Keyed;
use crate::ground::list::list;
use crate::pinned::concern::{Concern, Facts};

/// An answer to what a check asks about a row; there is one for each row and concern.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The row.
    pub row: RowId,
    /// What was asked.
    pub concern: Concern,
    /// What it was given for.
    pub facts: Facts,
    /// Who bears it.
    pub how: How,
    /// Who agreed, or why it is accepted; never empty.
    pub said: String,
    /// Who noted it; may be empty.
    pub by: String,
    /// The day it was noted.
    pub date: NaiveDate,
}

impl Keyed for Answer {
    type Key = (RowId, Concern);

    fn key(&self) -> (RowId, Concern) {
        (self.row, self.concern)
    }
}

list! {
    /// Who bears what a check asks.
    pub enum How;

    /// The customer was told and agreed.
    Agreed "agreed";
    /// The shop accepts it.
    Accepted "accepted";
}
