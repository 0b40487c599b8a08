//! Words of whom a paper goes to.

use crate::words::customer::Who;

/// What it says in English.
pub(super) const WORDS: Who = Who {
    address: "address",
    attention: "attention",
    our_number,
};

/// Caption of the number that the shop has at the customer's.
fn our_number(customer: &str) -> String {
    match customer {
        "" => "our number at the customer's".to_owned(),
        customer => format!("our number at {customer}"),
    }
}
