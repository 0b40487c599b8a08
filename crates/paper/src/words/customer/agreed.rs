//! Words of what was agreed with the customer.

/// What was agreed with the customer.
#[derive(Clone, Copy, Debug)]
pub struct Agreed {
    /// Name beside the terms that were agreed with the customer.
    pub title: &'static str,
    /// How they stand to the shop's own.
    pub go_first: &'static str,
    /// When the customer pays.
    pub payment: fn(&str) -> String,
    /// How parts come and go.
    pub delivery: fn(&str) -> String,
}
