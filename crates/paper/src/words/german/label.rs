//! Words of the box label.

use crate::words::customer::Label;

/// What it says in German.
pub(super) const WORDS: Label = Label {
    title: "Versandetikett",
    cut: "an der Linie ausschneiden oder das Blatt dahinter falten",
    from: "von",
    to: "an",
    parts: "Teile in dieser Lieferung",
    number: "Packstück",
    of: "von",
};
