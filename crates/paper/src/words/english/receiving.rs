//! Words of the receiving slip.

use crate::words::customer::Receiving;

/// What it says in English.
pub(super) const WORDS: Receiving = Receiving {
    title: "Receiving slip",
    received: "Parts as they were received. Damage that is not named here was not seen \
     at receipt.",
    by_shop: "Counted and looked over by the shop.",
    by_customer: "Seen by the customer; work may begin on parts in this \
     condition.",
    signed: "Signed",
    so_far: "received so far",
    still_missing: "still missing",
    spares: "spares sent",
    parts: "Parts",
    nothing: "No parts are on record as received.",
    count: "count",
    heat: "heat",
    coating: "coating",
    pieces: "pieces, serial numbers",
    damage: "existing damage",
    files: "photos and files",
};
