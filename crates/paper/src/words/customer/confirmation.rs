//! Words of the order confirmation.

use quillbore_job::Form;

/// The order confirmation.
#[derive(Clone, Copy, Debug)]
pub struct Confirmation {
    /// The paper's name.
    pub title: &'static str,
    /// What the confirmation asks for.
    pub please_check: &'static str,
    /// What starts the clock.
    pub starts: &'static str,
    /// What still holds from the quotation.
    pub still_holds: &'static str,
    /// Name of the section of what was ordered.
    pub ordered: &'static str,
    /// There is no order.
    pub no_order: &'static str,
    /// Head of the order's number.
    pub order: &'static str,
    /// Head of the order's day.
    pub of: &'static str,
    /// Head of the part with its revision.
    pub part: &'static str,
    /// Name of the section of dates.
    pub dates: &'static str,
    /// Caption of the day of delivery.
    pub delivery: &'static str,
    /// Head of the call-off's number.
    pub call_off: &'static str,
    /// Head of the day that a call-off is due.
    pub due: &'static str,
    /// Name beside what differs from the quotation.
    pub differs: &'static str,
    /// Name beside the order's own terms.
    pub orders_terms: &'static str,
    /// Name beside what the customer has to send.
    pub please_send: &'static str,
    /// What the customer has to send, by the parts that are not here yet.
    pub to_send: fn(Form, Option<u32>) -> String,
}
