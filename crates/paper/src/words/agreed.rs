//! Words of what was agreed with the customer.

/// Name beside the terms that were agreed with the customer.
pub const TITLE: &str = "Agreed terms";
/// How they stand to the shop's own.
pub const GO_FIRST: &str = "Where these differ from our terms below, these hold.";

/// When the customer pays.
pub fn payment(said: &str) -> String {
    format!("Payment: {said}")
}

/// How parts come and go.
pub fn delivery(said: &str) -> String {
    format!("Delivery: {said}")
}
