//! Heads of columns that several papers have.

use crate::words::customer::Heads;

/// What customers read of them in German.
pub(super) const WORDS: Heads = Heads {
    mark: "Pos.",
    holes: "Bohrungen",
    in_one_part: "je Teil",
    at_least: "mindestens",
    at_most: "höchstens",
    depth: "Tiefe (Achse)",
    end: "Ende",
    from_normal: "zum Lot",
    from_surface: "zur Fläche",
    remark: "Bemerkung",
    serials: "Seriennummern",
    parts: "Teile",
    quantity: "Stückzahl",
    in_parts: "Teile",
    price_each: "Einzelpreis",
    price_of_lot: "Gesamtpreis",
};
