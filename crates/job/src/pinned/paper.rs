//! The papers of a job: one list.

use crate::ground::list::list;

list! {
    /// A paper of a job, in the order of a job's life.
    pub enum Paper {
        /// The letter of its numbers.
        letter: char,
    }

    /// The quotation.
    Quotation "quotation" 'Q';
    /// The order confirmation.
    Confirmation "confirmation" 'C';
    /// The receiving slip.
    Receiving "receiving" 'R';
    /// The receipt for a broken tool, which goes with the part.
    ToolReceipt "tool-receipt" 'K';
    /// The traveler.
    Traveler "traveler" 'T';
    /// The hole inspection record.
    Inspection "inspection" 'H';
    /// The first article inspection report.
    FirstArticle "first-article" 'A';
    /// The certificate of conformance.
    Certificate "certificate" 'F';
    /// The packing list.
    Packing "packing" 'P';
    /// The box label.
    Label "label" 'B';
}
