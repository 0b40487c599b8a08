//! Words of what was agreed with the customer.

use crate::words::customer::Agreed;

/// What it says in English.
pub(super) const WORDS: Agreed = Agreed {
    title: "Agreed terms",
    go_first: "Where these differ from our terms below, these hold.",
    payment,
    delivery,
};

/// When the customer pays.
fn payment(said: &str) -> String {
    format!("Payment: {said}")
}

/// How parts come and go.
fn delivery(said: &str) -> String {
    format!("Delivery: {said}")
}
