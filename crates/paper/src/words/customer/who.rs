//! Words of whom a paper goes to.

/// Whom a paper goes to.
#[derive(Clone, Copy, Debug)]
pub struct Who {
    /// Caption of the customer's address.
    pub address: &'static str,
    /// Caption of whom the paper is for.
    pub attention: &'static str,
    /// Caption of the number that the shop has at the customer's.
    pub our_number: fn(&str) -> String,
}
