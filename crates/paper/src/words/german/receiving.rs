//! Words of the receiving slip.

use crate::words::customer::Receiving;

/// What it says in German.
pub(super) const WORDS: Receiving = Receiving {
    title: "Wareneingangsschein",
    received: "Die Teile, wie sie angekommen sind. Schäden, die hier nicht genannt sind, wurden beim \
               Eingang nicht gesehen.",
    by_shop: "Von der Werkstatt gezählt und angesehen.",
    by_customer: "Vom Kunden gesehen; an Teilen in diesem Zustand darf gearbeitet werden.",
    signed: "Unterschrieben",
    so_far: "bisher eingegangen",
    still_missing: "fehlt noch",
    spares: "Reserveteile",
    parts: "Teile",
    nothing: "Es ist noch kein Wareneingang verzeichnet.",
    count: "Anzahl",
    heat: "Charge",
    coating: "Beschichtung",
    pieces: "Teile, Seriennummern",
    damage: "vorhandene Schäden",
    files: "Fotos und Dateien",
};
