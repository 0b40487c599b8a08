//! What papers say of an order that differs from what was offered or planned.

use quillbore_job::Form;
use quillbore_job::order::Difference;

/// What differs in an order.
#[derive(Clone, Copy, Debug)]
pub struct Order {
    /// A difference that is still open.
    pub not_accepted: &'static str,
    /// Who accepted what differs, and why.
    pub accepted: fn(&str) -> String,
    /// One sentence: what differs.
    pub difference: fn(Form, &Difference) -> String,
}
