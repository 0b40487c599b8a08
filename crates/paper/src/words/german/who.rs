//! Words of whom a paper goes to.

use crate::words::customer::Who;

/// What customers read of it in German.
pub(super) const WORDS: Who = Who {
    address: "Anschrift",
    attention: "zu Händen",
    our_number: |customer| match customer {
        "" => "unsere Nummer beim Kunden".to_owned(),
        customer => format!("unsere Nummer bei {customer}"),
    },
};
