//! Words of the box label.

use crate::words::customer::Label;

/// What it says in English.
pub(super) const WORDS: Label = Label {
    title: "Box label",
    cut: "cut along the line, or fold the sheet behind it",
    from: "from",
    to: "to",
    parts: "parts in this delivery",
    number: "box",
    of: "of",
};
