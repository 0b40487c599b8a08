//! Words of the head of papers that go to or come from a customer.

use crate::words::customer::Opening;

/// What customers read of them in English.
pub(super) const WORDS: Opening = Opening {
    reference: REFERENCE,
    withdrawn,
};

/// The customer's number of the inquiry.
pub const REFERENCE: &str = "Customer's reference: ";

/// A paper that this one replaces.
pub fn withdrawn(number: &str, day: &str, by: &str, why: &str) -> String {
    let mut said = format!("{number} is no longer valid");
    if !day.is_empty() {
        said += &format!(", withdrawn on {day}");
    }
    if !by.is_empty() {
        said += &format!(" by {by}");
    }
    if !why.is_empty() {
        said += &format!(": {why}");
    }
    said + ". Use this paper only."
}
