//! Captions of fields that several papers have.

use crate::words::customer::Captions;

/// What customers read of them in German.
pub(super) const WORDS: Captions = Captions {
    number: "Nummer",
    date: "Datum",
    part: "Teil",
    revision: "Rev.",
    customer: "Kunde",
    customers_order: "Ihre Bestellnummer",
    part_name: "Bezeichnung",
    drawing: "Zeichnung",
    condition: "Zustand",
    hardness: "Härte",
    name: "Name",
    signature: "Unterschrift",
    quantity: "Stückzahl",
    parts_ordered: "Teile bestellt",
    mass: "Gewicht",
    received_by: "angenommen von",
};
