//! Lines of slips that hold one of a few words.

use crate::ground::list::list;

list! {
    /// How a quotation ended, as the customer answers it.
    pub enum Outcome;

    /// An order follows.
    Accepted "accepted";
    /// No order follows.
    Declined "declined";
    /// Nobody answered.
    NoAnswer "no answer";
}

list! {
    /// What work may wait for.
    pub enum Point;

    /// A test piece.
    TestPiece "test piece";
    /// The first piece.
    FirstPiece "first piece";
    /// The customer's own inspection in the shop.
    SourceInspection "source inspection";
}
