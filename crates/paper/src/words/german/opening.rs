//! Words of the head of papers that go to or come from a customer.

use crate::words::customer::Opening;

/// What customers read of it in German.
pub(super) const WORDS: Opening = Opening {
    reference: "Ihre Referenz: ",
    withdrawn,
};

fn withdrawn(number: &str, day: &str, by: &str, why: &str) -> String {
    let mut said = format!("{number} ist nicht mehr gültig");
    if !day.is_empty() || !by.is_empty() {
        said += ", zurückgezogen";
    }
    if !day.is_empty() {
        said += &format!(" am {day}");
    }
    if !by.is_empty() {
        said += &format!(" von {by}");
    }
    if !why.is_empty() {
        said += &format!(": {why}");
    }
    said + ". Bitte verwenden Sie nur dieses Dokument."
}
