//! Words of what was agreed with the customer.

use crate::words::customer::Agreed;

/// What it says in German.
pub(super) const WORDS: Agreed = Agreed {
    title: "Vereinbart sind",
    go_first: "Wo diese von unseren unten genannten Bedingungen abweichen, gelten diese.",
    payment,
    delivery,
};

/// When the customer pays.
fn payment(said: &str) -> String {
    format!("Zahlungsbedingungen: {said}")
}

/// How parts come and go.
fn delivery(said: &str) -> String {
    format!("Versand: {said}")
}
