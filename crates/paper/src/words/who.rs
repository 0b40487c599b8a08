//! Words of whom a paper goes to.

/// Caption of the customer's address.
pub const ADDRESS: &str = "address";
/// Caption of whom the paper is for.
pub const ATTENTION: &str = "attention";

/// Caption of the number that the shop has at the customer's.
pub fn our_number(customer: &str) -> String {
    match customer {
        "" => "our number at the customer's".to_owned(),
        customer => format!("our number at {customer}"),
    }
}
